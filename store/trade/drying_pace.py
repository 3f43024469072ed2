r"""When a screed may be dry at the pace it has shown: a window of days from two readings or more, for planning only.

**The problem.** A rule of thumb knows the thickness and nothing of the site: heating, weather and windows make one
screed dry in half its time and another in twice. Two tests some days apart show the pace of this one.

**The model is our own, no source.** Drying slows down as a screed dries. Early on moisture falls about in a straight
line over the *square root* of its age, as it does while water still reaches the surface by diffusion into a body whose
far side has not noticed; later it falls more slowly, and a straight line over the *logarithm* of its age lies above
the other from the last reading on. The truth is expected between the two, so both are drawn through the readings
(least squares), and each is pushed outward by half the step that the instrument can tell:

* the earliest day is where the line over the root meets the limit plus half a step,
* the latest is where the line over the logarithm meets the limit less half a step.

::

    %  | o                        age in days
    3  |   \
       |     o._                  o  readings
    2  |- - - -\-`-._- - - - - -  limit
       |        root  log
       +---------|-----|------->
            earliest   latest

A worked example: a cement screed laid on 1 October shows 3.0 % after 40 days and 2.5 % after 60:

    >>> readings = [(date(2026, 11, 10), 3.0), (date(2026, 11, 30), 2.5)]
    >>> drying_pace(readings, laid_on=date(2026, 10, 1), limit=2.0, step=0.1)
    Pace(earliest=datetime.date(2026, 12, 22), latest=datetime.date(2027, 1, 3))
"""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, timedelta

FARTHEST_DAYS = 730
"""Two years after its laying no pace is believed any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """The days between which a screed may be dry at its own pace; ``latest`` None where no end is in sight."""

    earliest: date
    latest: date | None


def drying_pace(readings: Iterable[tuple[date, float]], *, laid_on: date, limit: float, step: float) -> Pace | None:
    """Return when a screed may be dry at the pace its readings show, or None where they show none.

    There is none with readings of fewer than two days, when the screed does not get drier, when the last day's is
    at the limit already, or when no end is in sight at all. In whatever order readings come, the answer is one.

    Args:
        readings: the day and figure of each, of one kind, in one room; of one day the dampest counts.
        laid_on: the day the screed was laid; readings from before its second day are left out.
        limit: the highest good figure, in the readings' unit.
        step: what the instrument can tell apart, in the same unit.
    """
    dampest: dict[int, float] = {}
    for day, figure in readings:
        age = (day - laid_on).days
        if age >= 1:
            dampest[age] = max(figure, dampest.get(age, figure))
    if len(dampest) < 2 or dampest[max(dampest)] <= limit:
        return None
    points = sorted(dampest.items())
    first = _meets(points, math.sqrt, lambda root: root * root if root > 0 else 0.0, limit + step / 2)
    last = _meets(points, math.log, _exp, limit - step / 2)
    if first is None or first > FARTHEST_DAYS:
        return None
    # Still damp on the day of the last reading, it is dry on a later one.
    earliest = max(math.ceil(first), points[-1][0] + 1)
    latest = None if last is None or last > FARTHEST_DAYS else max(math.ceil(last), earliest)
    return Pace(
        earliest=laid_on + timedelta(days=earliest),
        latest=None if latest is None else laid_on + timedelta(days=latest),
    )


def _meets(
    points: list[tuple[int, float]], scale: Callable[[float], float], back: Callable[[float], float], level: float
) -> float | None:
    """The age at which the straight line through the points, over a scale of ages, comes down to a level."""
    across = [scale(age) for age, _ in points]
    middle, mean = math.fsum(across) / len(points), math.fsum(figure for _, figure in points) / len(points)
    spread = math.fsum((one - middle) ** 2 for one in across)
    slope = (
        math.fsum((one - middle) * (figure - mean) for one, (_, figure) in zip(across, points, strict=True)) / spread
    )
    return back(middle + (level - mean) / slope) if slope < 0 else None


def _exp(power: float) -> float:
    return math.exp(power) if power < 50 else math.inf
