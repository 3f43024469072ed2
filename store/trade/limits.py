"""Limits that readings are held against, each with its source; a maker's sheet goes before every one of them."""

from datetime import date

from store.trade.jobs import Method, RoomDraft, Subfloor
from store.trade.readings import Carbide, Hygrometer, Measure, TimberSubfloor
from store.trade.screed import drying

TIMBER_SUBFLOOR_PERCENT = 12.0
"""Wooden subfloors: moisture content at most 12 % (common in North American and UK makers' instructions)."""


def damp_limits(room: RoomDraft) -> dict[type[Measure], float]:
    """Return the kinds of reading that say whether this subfloor is dry, each with its highest good value.

    Carbide, % by mass: cement screed 2.0, heated 1.8 (EN 1264-4:2021 table 2 for heated; German parquet trade);
    calcium sulphate 0.5, heated 0.3 (the parquet trade's figure; the screed standard itself allows 0.5).
    Hygrometer, % RH: 65 for glued or heated floors, else 75 (UK timber trade body 2022; BS 8201:1987 gave 75).
    Timber: 12 % moisture content.
    """
    if room.subfloor.is_timber:
        return {TimberSubfloor: TIMBER_SUBFLOOR_PERCENT}
    careful = room.heated or room.method is Method.GLUED
    limits: dict[type[Measure], float] = {Hygrometer: 65.0 if careful else 75.0}
    if room.subfloor is Subfloor.CEMENT_SCREED:
        limits[Carbide] = 1.8 if room.heated else 2.0
    elif room.subfloor is Subfloor.CALCIUM_SULPHATE:
        limits[Carbide] = 0.3 if room.heated else 0.5
    return limits


def screed_dry_on(room: RoomDraft) -> date | None:
    """Return the day a screed is forecast dry, or None where thickness, laying day or a rule is missing.

    A forecast is for planning; it never releases a floor. The rule stands in ``screed.py``.
    """
    if room.screed_mm is None or room.screed_laid_on is None or not room.subfloor.is_screed:
        return None
    screed = "cement" if room.subfloor is Subfloor.CEMENT_SCREED else "calcium-sulphate"
    return drying(screed=screed, thickness_mm=room.screed_mm, laid_on=room.screed_laid_on).dry_on
