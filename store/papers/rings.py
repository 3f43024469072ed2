"""Outlines in a folder: corners in mm, each two whole numbers."""

from store.papers.spot import Spot, listed, whole
from store.trade.outline import Corner, Ring


def ring(spot: Spot) -> Ring:
    """Return corners in mm, each two whole numbers."""
    return listed(spot, _corner)


def _corner(spot: Spot) -> Corner:
    across = listed(spot, whole)
    if len(across) != 2:
        spot.refuse(f"a corner is two whole numbers, x and y, not {len(across)}.")
    return across[0], across[1]
