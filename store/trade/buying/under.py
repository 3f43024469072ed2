"""What lies under the boards: glue, primer, smoothing compound, film and underlay."""

import math
from collections.abc import Iterator
from fractions import Fraction

from store.errors import Refused
from store.trade.buying.nouns import (
    BuyingLine,
    ByDepth,
    BySpread,
    ByStrips,
    Caution,
    Fill,
    Gap,
    Missing,
    OwnLine,
    Strips,
)
from store.trade.buying.sheets import taken
from store.trade.buying.sizes import OVERLAP_MM, TURN_UP_MM
from store.trade.facts import JobFacts
from store.trade.film import Film, film
from store.trade.firm import FirmDraft
from store.trade.flatness import smoothing
from store.trade.glue import glue
from store.trade.groups import in_order
from store.trade.holds_room import subfloor_flat
from store.trade.jobs import Method, Room
from store.trade.judging import is_levelled_away
from store.trade.level_grid import mean_fill_mm
from store.trade.notches import usual_rate
from store.trade.primer import primer
from store.trade.products import Glue
from store.trade.readings import LevelGrid
from store.trade.things import Thing
from store.trade.trims import FEW_STEPS, trims
from store.trade.verdict import HoldState

_MM2 = 1_000_000


def glue_line(facts: JobFacts, code: str, own: OwnLine | None) -> BuyingLine:
    """Return the tubs of one glue for every room that is glued with it, by the area laid, not the area bought."""
    product = facts.products[code]
    if not isinstance(product, Glue):
        raise KeyError(code)
    area = sum(room.net_mm2 for room in facts.rooms if room.method is Method.GLUED and room.glue == code)
    notch = own.notch if own else ""
    rate = usual_rate(notch=notch) if notch else product.rate_g_per_m2 if own is None or own.rate is None else own.rate
    answer = glue(area_m2=Fraction(area, _MM2), rate_g_per_m2=rate, tub_kg=product.tub_kg, by_notch=notch)
    return BuyingLine(
        thing=Thing.GLUE,
        product=code,
        size=product.tub_kg,
        units=answer.tubs,
        how=BySpread(area_mm2=area, g_per_m2=answer.rate_g_per_m2, kg=answer.kg, notch=notch),
        usual=bool(notch),
        unit_kg=product.tub_kg,
        cautions=(Caution.TRAINING,) if product.needs_training else (),
        own=own,
    )


def primer_line(facts: JobFacts) -> BuyingLine | None:
    """Return primer for the rooms glued on a mineral base; offered, and bought only where somebody takes it up.

    That such a base asks for primer is common practice, no source: the glue's own sheet says whether it does.
    """
    area = sum(room.net_mm2 for room in facts.rooms if room.method is Method.GLUED and not room.subfloor.is_timber)
    if not area:
        return None
    taken_as = taken(facts, Thing.PRIMER)
    size, rate = taken_as.size, taken_as.rate
    answer = primer(area_m2=Fraction(area, _MM2), rate_g_per_m2=rate, canister_kg=size)
    return taken_as.sold(
        BuyingLine(
            thing=Thing.PRIMER,
            units=answer.canisters,
            how=BySpread(area_mm2=area, g_per_m2=rate, kg=answer.kg),
            offered=False,
            usual=taken_as.is_usual,
            unit_kg=size,
            cautions=(Caution.PRIMER_SHEET,),
        )
    )


def compound_line(facts: JobFacts, firm: FirmDraft) -> BuyingLine | None:
    """Return compound for the rooms that are not flat and were not levelled since, by their latest level grid."""
    taken_as = taken(facts, Thing.COMPOUND)
    size, rate = taken_as.size, taken_as.rate
    fills = []
    for room in not_flat(facts, firm):
        grid = latest_grid(facts, room)
        depth = mean_fill_mm(grid) if grid else 0
        if depth > 0:
            answer = smoothing(area_m2=Fraction(room.net_mm2, _MM2), depth_mm=depth, rate_kg_per_m2_mm=rate)
            fills.append(Fill(room=room.name, area_mm2=room.net_mm2, depth_mm=depth, kg=answer.kg))
    if not fills:
        return None
    kg = math.fsum(fill.kg for fill in fills)
    return taken_as.sold(
        BuyingLine(
            thing=Thing.COMPOUND,
            # Rounded to nine decimals first, so that a full bag is never followed by an empty one.
            units=math.ceil(round(kg / size, 9)),
            how=ByDepth(fills=tuple(fills), rate=rate, kg=kg),
            usual=taken_as.is_usual,
            unit_kg=size,
            cautions=(Caution.DUST,),
        )
    )


def not_flat(facts: JobFacts, firm: FirmDraft) -> tuple[Room, ...]:
    """Return the rooms whose subfloor was found not flat, and was not levelled since."""
    return tuple(room for room in facts.rooms if subfloor_flat(firm, facts, room).state is HoldState.FAILED)


def latest_grid(facts: JobFacts, room: Room) -> LevelGrid | None:
    """Return the latest level grid of a room that still counts; None if there is none."""
    grids = [
        one.measure
        for one in in_order(facts.readings, room.name)
        if isinstance(one.measure, LevelGrid) and not is_levelled_away(one, facts)
    ]
    return grids[-1] if grids else None


def gaps_under(facts: JobFacts, firm: FirmDraft) -> Iterator[Gap]:
    """Yield what keeps glue or compound of a room from being worked out."""
    for room in facts.rooms:
        if room.method is Method.GLUED and facts.glue_of(room) is None:
            yield Gap(thing=Thing.GLUE, missing=Missing.NO_GLUE, room=room.name)
    for room in not_flat(facts, firm):
        grid = latest_grid(facts, room)
        if grid is None:
            yield Gap(thing=Thing.COMPOUND, missing=Missing.NO_GRID, room=room.name)
        elif any(one is None for row in grid.heights_mm for one in row):
            yield Gap(thing=Thing.COMPOUND, missing=Missing.UNREAD_POINTS, room=room.name)


def film_line(facts: JobFacts, thing: Thing) -> BuyingLine | None:
    """Return the film under floating floors on mineral bases, lapped and turned up, or their underlay, butted.

    Strips lie on the rectangle round a room, along or across it, whichever takes the fewer rolls; those of all rooms
    together are cut from the fewest rolls, or where that takes long the fewest found soon. Underlay lies under every
    floating floor.
    """
    is_film = thing is Thing.FILM
    rooms = [one for one in facts.rooms if one.method is Method.FLOATING and not (is_film and one.subfloor.is_timber)]
    if not rooms:
        return None
    taken_as = taken(facts, thing)
    width, size = taken_as.width_mm, taken_as.size
    overlap, turn_up = (OVERLAP_MM, TURN_UP_MM) if is_film else (0, 0)
    found = [(room, _strips(room, width, size, overlap, turn_up)) for room in rooms]
    joined = sum(one.rolls for _, one in found if one.joined)
    whole = [math.ceil(one.strip_mm) for _, one in found if not one.joined for _ in range(one.strips)]
    roll = math.floor(size * 1000)
    rolls = trims(stick_mm=roll, kerf_mm=0, pieces_mm=whole, steps=FEW_STEPS).sticks if whole else 0
    strips = tuple(Strips(room=room.name, strips=one.strips, strip_mm=one.strip_mm) for room, one in found)
    return taken_as.sold(
        BuyingLine(
            thing=thing,
            units=joined + rolls,
            how=ByStrips(rooms=strips, width_mm=width, overlap_mm=overlap, turn_up_mm=turn_up),
            usual=True,
        )
    )


def _strips(room: Room, width_mm: int, roll_m: float, overlap_mm: int, turn_up_mm: int) -> Film:
    """Return the strips on the rectangle round a room, in the direction that takes the fewer rolls."""
    sides = [max(values) - min(values) for values in zip(*room.outline, strict=True)]
    ways = []
    for along, across in (sides, sides[::-1]):
        ways.append(
            film(
                along_mm=along,
                across_mm=across,
                roll_width_mm=width_mm,
                roll_length_m=roll_m,
                overlap_mm=overlap_mm,
                turn_up_mm=turn_up_mm,
            )
        )
    return min(ways, key=lambda one: (one.rolls, one.strips * one.strip_mm))


def refused(thing: Thing, no: Refused) -> Gap:
    """Return that a line could not be worked out, in the words of the sum that refused it."""
    return Gap(thing=thing, missing=Missing.NO_SUM, say=str(no))
