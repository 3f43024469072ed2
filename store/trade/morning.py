"""The morning list: what is looked at on the day of laying, before the first board, and what of it is not right."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from store.errors import Refused
from store.trade.climate import dew_point
from store.trade.firm import ClimateRange

LEAST_BASE_C = 15.0
"""The base is at least 15 °C while laying (German association of flooring glues, sheet on subfloors, §4.11, 2004)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MorningCheckDraft:
    """One round through a room on the morning of laying.

    ``temp_c`` and ``rh_percent`` are the room's air, ``surface_c`` the subfloor. ``mixed``: boards taken from several
    opened packs; ``wedges``: wedges stand ready for the gap; ``extraction``: saws and sanders are on extraction.
    """

    room: str
    at: datetime
    temp_c: float
    rh_percent: float
    surface_c: float
    mixed: bool = False
    wedges: bool = False
    extraction: bool = False
    who: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MorningCheck(MorningCheckDraft):
    """A morning list on file; never changed, only taken back."""

    id: int


class Amiss(StrEnum):
    """What a morning list can find not right."""

    AIR = "air"
    DEW = "dew"
    BASE_COLD = "base_cold"
    NOT_MIXED = "not_mixed"
    NO_WEDGES = "no_wedges"
    NO_EXTRACTION = "no_extraction"


def amiss(check: MorningCheckDraft, climate: ClimateRange) -> tuple[Amiss, ...]:
    """Return what is not right on a morning list; empty where all is.

    The surface is to be 3 °C above the dew point of the room's air or warmer (coating practice after ISO 8502-4 and
    ISO 12944-7, which the sheets of glues take over); limits are good themselves. Air that no dew point is known for
    counts as amiss.

    >>> from datetime import UTC, datetime
    >>> day = datetime(2026, 12, 7, 8, tzinfo=UTC)
    >>> damp = MorningCheckDraft(room="Hall", at=day, temp_c=20, rh_percent=70, surface_c=17.3,
    ...                          mixed=True, wedges=True, extraction=True)
    >>> amiss(damp, ClimateRange(rh_max_percent=75))
    (<Amiss.DEW: 'dew'>,)
    """
    found = (
        (Amiss.AIR, not climate.holds(check.temp_c, check.rh_percent)),
        (Amiss.DEW, not _above_dew(check)),
        (Amiss.BASE_COLD, check.surface_c < LEAST_BASE_C),
        (Amiss.NOT_MIXED, not check.mixed),
        (Amiss.NO_WEDGES, not check.wedges),
        (Amiss.NO_EXTRACTION, not check.extraction),
    )
    return tuple(one for one, is_so in found if is_so)


def _above_dew(check: MorningCheckDraft) -> bool:
    try:
        answer = dew_point(temp_c=check.temp_c, rh_percent=check.rh_percent, surface_c=check.surface_c)
    except Refused:
        return False
    return bool(answer.ok)
