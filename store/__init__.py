"""The shop: a front desk, a filing cabinet, a workbench and an out-tray."""
