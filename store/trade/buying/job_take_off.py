"""The take-off of a whole job: from what is on file, one line for each thing to buy."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from store.errors import Refused
from store.trade.buying.beside import pieces_of, profiles_line, screws_line, set_line, skirting_line, wedges_line
from store.trade.buying.nouns import Buying, BuyingLine, ByNeed, Caution, Gap, Missing
from store.trade.buying.sheets import own_line_of, taken
from store.trade.buying.sizes import BOARD_KG_PER_M3
from store.trade.buying.steps import cladding_line, gaps_of_stairs, steps_line
from store.trade.buying.under import compound_line, film_line, gaps_under, glue_line, primer_line, refused
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Method
from store.trade.needs import wanted
from store.trade.things import Thing

HEAVY_KG = 16
"""From here on a unit is called heavy: the lower of the two weights, 25 and 16 kg, that HSE's lifting filter (INDG143)
has for a load held close at knuckle height. The leaflet is HSE's; its two figures are from memory."""

_Make = Callable[[], BuyingLine | None]


def job_take_off(facts: JobFacts, firm: FirmDraft) -> Buying:
    """Return what a job needs bought, whatever of it is ordered already.

    Boards come in the packs that the rooms need (``needs.wanted``), glue by the area laid at the rate of its sheet,
    the rest as each function of this package says. A line set by hand holds from its latest entry on. What cannot be
    worked out is told in ``gaps``, and hides no other line.
    """
    lines: list[BuyingLine] = []
    gaps = [*gaps_under(facts, firm), *gaps_of_stairs(facts)]
    for thing, make in _makers(facts, firm):
        try:
            line = make()
        except Refused as no:
            gaps.append(refused(thing, no))
        else:
            if line is not None:
                lines.append(_with_weight(line))
    lines += _no_longer(facts, lines, gaps)
    order = list(Thing)
    return Buying(lines=tuple(sorted(lines, key=lambda one: order.index(one.thing))), gaps=tuple(gaps))


def _makers(facts: JobFacts, firm: FirmDraft) -> Iterator[tuple[Thing, _Make]]:
    for code in facts.board_codes:
        yield Thing.BOARDS, partial(_boards, facts, code)
    for code in dict.fromkeys(room.glue for room in facts.rooms if room.method is Method.GLUED and room.glue):
        yield Thing.GLUE, partial(glue_line, facts, code, own_line_of(facts, Thing.GLUE, code))
    yield Thing.PRIMER, lambda: primer_line(facts)
    yield Thing.COMPOUND, lambda: compound_line(facts, firm)
    yield Thing.FILM, lambda: film_line(facts, Thing.FILM)
    yield Thing.UNDERLAY, lambda: film_line(facts, Thing.UNDERLAY)
    sticks = taken(facts, Thing.SKIRTING)
    yield Thing.SKIRTING, lambda: skirting_line(pieces_of(facts, int(sticks.size)), sticks)
    yield Thing.SCREWS, lambda: screws_line(facts, pieces_of(facts, int(sticks.size)))
    yield Thing.PROFILES, lambda: profiles_line(facts)
    yield Thing.WEDGES, lambda: wedges_line(facts)
    yield Thing.FELT_PADS, lambda: set_line(facts, Thing.FELT_PADS)
    yield Thing.CARE_SET, lambda: set_line(facts, Thing.CARE_SET)
    for code in dict.fromkeys(flight.board for flight in facts.flights if flight.board):
        yield Thing.CLADDING, partial(cladding_line, facts, code)
    for thing in (Thing.TREADS, Thing.RISERS, Thing.NOSING):
        yield thing, partial(steps_line, facts, thing)


def _boards(facts: JobFacts, code: str) -> BuyingLine:
    board, need = facts.board(code), wanted(facts, code)
    return BuyingLine(
        thing=Thing.BOARDS,
        product=code,
        size=board.pack_mm2,
        units=need.packs,
        how=ByNeed(need=need, pack_mm2=board.pack_mm2),
        unit_kg=board.pack_mm2 * board.thickness_mm / 1e9 * BOARD_KG_PER_M3,
        own=own_line_of(facts, Thing.BOARDS, code),
    )


def _with_weight(line: BuyingLine) -> BuyingLine:
    if line.unit_kg is None or line.unit_kg < HEAVY_KG:
        return line
    return replace(line, cautions=(Caution.HEAVY, *line.cautions))


def _no_longer(facts: JobFacts, lines: list[BuyingLine], gaps: list[Gap]) -> Iterator[BuyingLine]:
    """Yield the lines set by hand that nothing on file asks for now, or that no sum can be made with.

    So they are seen, and can be taken back.
    """
    shown = {one.key for one in lines}
    no_sum = {one.thing for one in gaps if one.missing is Missing.NO_SUM}
    for own in facts.own_lines:
        line = BuyingLine(thing=own.thing, product=own.product, how=None, own=own, beyond_sum=own.thing in no_sum)
        if line.key not in shown and own is own_line_of(facts, own.thing, own.product):
            yield line
