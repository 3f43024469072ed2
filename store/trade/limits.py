"""The limit that decides for one room: the product's own sheet first, then the firm's own, then its tradition's."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import RoomDraft, Subfloor
from store.trade.own_limits import LIMITED_KINDS, OwnLimit, narrowest
from store.trade.products import Board, Glue
from store.trade.readings import KINDS, Measure
from store.trade.screed import drying
from store.trade.traditions import Given, given_for


class Authority(StrEnum):
    """Who set the limit that is taken."""

    SHEET = "sheet"
    FIRM = "firm"
    TRADITION = "tradition"


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenLimit:
    """The most that a kind of reading may show in a room, inclusive, and where the figure is from.

    ``source`` is a product's code, the firm's reason, or the tradition's source. ``given`` is what the tradition says,
    whether it is taken or not; None where it says nothing.
    """

    most: float
    by: Authority
    source: str
    given: Given | None = None


def damp_limits(firm: FirmDraft, facts: JobFacts, room: RoomDraft) -> dict[type[Measure], TakenLimit]:
    """Return the kinds of reading that say whether this subfloor is dry, each with the limit that decides.

    By tradition, unless a sheet or the firm says otherwise (the figures and their sources stand in ``traditions.py``):
    carbide for screeds, hygrometer for screeds and concrete, a timber meter for wooden subfloors.
    """
    given = given_for(firm.tradition, room)
    found: dict[type[Measure], TakenLimit] = {}
    for kind in LIMITED_KINDS:
        taken = _taken(firm, facts, room, kind, given.get(kind))
        if taken is not None:
            found[KINDS[kind]] = taken
    return found


def _taken(firm: FirmDraft, facts: JobFacts, room: RoomDraft, kind: str, given: Given | None) -> TakenLimit | None:
    sheets = _sheets_on(facts, room, kind)
    if sheets:
        code, own = min(sheets, key=lambda sheet: (sheet[1].most, sheet[0]))
        return TakenLimit(most=own.most, by=Authority.SHEET, source=code, given=given)
    set_by_firm = narrowest(firm.own_limits, kind, room)
    if set_by_firm is not None:
        return TakenLimit(most=set_by_firm.most, by=Authority.FIRM, source=set_by_firm.because, given=given)
    if given is None:
        return None
    return TakenLimit(most=given.most, by=Authority.TRADITION, source=given.source, given=given)


def _sheets_on(facts: JobFacts, room: RoomDraft, kind: str) -> list[tuple[str, OwnLimit]]:
    """The limits that the sheets of a room's board and glue set for a kind of reading, with the product's code.

    Where both set one, both have to be kept, so the stricter decides.
    """
    products = [facts.products.get(code) for code in (room.board, room.glue) if code]
    return [
        (product.code, own)
        for product in products
        if isinstance(product, Board | Glue) and (own := narrowest(product.sheet_limits, kind, room)) is not None
    ]


def screed_dry_on(room: RoomDraft) -> date | None:
    """Return the day a screed is forecast dry, or None where thickness, laying day or a rule is missing.

    A forecast is for planning; it never releases a floor. The rule stands in ``screed.py``.
    """
    if room.screed_mm is None or room.screed_laid_on is None or not room.subfloor.is_screed:
        return None
    screed = "cement" if room.subfloor is Subfloor.CEMENT_SCREED else "calcium-sulphate"
    return drying(screed=screed, thickness_mm=room.screed_mm, laid_on=room.screed_laid_on).dry_on
