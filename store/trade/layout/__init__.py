"""Laying a floor board by board: rows, places, the search and the cut list."""
