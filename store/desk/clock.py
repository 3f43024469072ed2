"""The one place that looks at the wall clock."""

from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]
"""Returns the present instant, aware of its zone."""


def wall_clock() -> datetime:
    """Return the present instant in UTC."""
    return datetime.now(UTC)


def stopped_clock(at: datetime) -> Clock:
    """Return a clock that always shows ``at``."""
    return lambda: at
