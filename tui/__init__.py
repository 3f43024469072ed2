"""The window onto the shop: screens and the command line."""
