"""A bar that shows how much of a wait is over."""


def bar_of(counted: float, needed: float, width: int) -> str:
    """Return a bar of ``width`` cells, filled by the share that is counted; full only when all is.

    >>> bar_of(31, 168, 12)
    '██░░░░░░░░░░'
    """
    if width <= 0:
        return ""
    share = 1.0 if needed <= 0 else min(max(counted / needed, 0.0), 1.0)
    filled = int(share * width)
    return "█" * filled + "░" * (width - filled)
