"""Limits that a maker's sheet or the firm itself sets: for which reading, on which base, and why."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from store.errors import Problem
from store.trade.jobs import Method, RoomDraft, Subfloor

LIMITED_KINDS = ("carbide", "hygrometer", "in_situ_probe", "timber_subfloor")
"""The readings that a limit can be set for, by their words in a job folder."""

MOST_LIMITS = 30
_ON_TIMBER = "timber_subfloor"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLimit:
    """The most that one kind of reading may show, inclusive, in % (mass, relative humidity or moisture content).

    ``subfloor``, ``heated`` and ``method`` say where it holds; None means anywhere. ``because`` is the reason or the
    source; a maker's sheet is its own.
    """

    kind: str
    most: float
    subfloor: Subfloor | None = None
    heated: bool | None = None
    method: Method | None = None
    because: str = ""

    def holds_for(self, kind: str, room: RoomDraft) -> bool:
        """Whether this limit speaks of a kind of reading in a room."""
        return (
            kind == self.kind
            and self.subfloor in {None, room.subfloor}
            and self.heated in {None, room.heated}
            and self.method in {None, room.method}
        )

    @property
    def narrowness(self) -> int:
        """How many conditions it makes: the narrower limit goes before the wider one."""
        return sum(one is not None for one in (self.subfloor, self.heated, self.method))


def narrowest(limits: Sequence[OwnLimit], kind: str, room: RoomDraft) -> OwnLimit | None:
    """Return the limit that speaks of a room most narrowly, the strictest of those; None where none does.

    In whatever order they were written down, the same one is found.
    """
    found = [one for one in limits if one.holds_for(kind, room)]
    return min(found, key=lambda one: (-one.narrowness, one.most, one.because), default=None)


def problems_with_limits(field: str, limits: Sequence[OwnLimit], *, reasons: bool = False) -> Iterator[Problem]:
    """Yield what is wrong with limits; with ``reasons`` each must say why it holds.

    A carbide limit names its screed: 2 % is dry for cement and far too damp for calcium sulphate.
    """
    if len(limits) > MOST_LIMITS:
        yield Problem(field=field, say=f"At most {MOST_LIMITS} limits can be kept.")
    for one in limits:
        if one.kind not in LIMITED_KINDS:
            yield Problem(field=field, say="A limit is for a carbide test, a hygrometer, a probe or a timber subfloor.")
        elif not math.isfinite(one.most) or not 0 < one.most <= 100:
            yield Problem(field=field, say="A limit is more than 0 and up to 100 %.")
        elif one.kind == "carbide" and (one.subfloor is None or not one.subfloor.is_screed):
            yield Problem(field=field, say="A carbide limit names its screed: carbide cement 1.8, carbide calcium 0.3.")
        elif one.subfloor is not None and one.subfloor.is_timber is not (one.kind == _ON_TIMBER):
            yield Problem(field=field, say="Timber is read with a timber meter, screeds and concrete are not.")
        elif reasons and not one.because.strip():
            yield Problem(field=field, say="Give each limit its reason after a colon, like hygrometer 60: our own.")
