"""The out-tray: what leaves and enters the shop as files."""
