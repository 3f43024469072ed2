"""What the stairs of a job take: boards to clad them with, or ready treads and risers, and nosing profile."""

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from store.errors import Refused
from store.trade.buying.nouns import BuyingLine, ByCladding, BySteps, Caution, Gap, Missing, StepPart, StepPiece
from store.trade.buying.sheets import Taken, own_line_of, taken
from store.trade.buying.sizes import BOARD_KG_PER_M3, KERF_MM
from store.trade.facts import JobFacts
from store.trade.flight_sum import FlightSum, flight_sum
from store.trade.flights import Flight
from store.trade.products import Board
from store.trade.things import Thing
from store.trade.trims import FEW_STEPS, trims

_PIECE_OF = {Thing.TREADS: StepPiece.TREAD, Thing.RISERS: StepPiece.RISER, Thing.NOSING: StepPiece.NOSING}


def parts_of(flight: Flight) -> tuple[StepPart, ...]:
    """Return the pieces that a flight takes, each kind once; nosing too.

    Winders are reckoned by the rectangle round their outline, strips lying along its longer side (the handbook's rule:
    polygonal parts are measured as the circumscribed rectangle), their nosing as long as their outline is wide at most.
    An open riser takes no board.
    """
    found = flight_sum(flight.measured)
    return tuple(part for part in _parts(flight, found) if part.pieces)


def _parts(flight: Flight, found: FlightSum) -> Iterator[StepPart]:
    def part(piece: StepPiece, pieces: int, long_mm: float, deep_mm: float) -> StepPart:
        return StepPart(
            flight=flight.name, piece=piece, pieces=pieces, long_mm=math.ceil(long_mm), deep_mm=math.ceil(deep_mm)
        )

    steps, winders = found.steps, found.winder_treads
    yield part(StepPiece.TREAD, found.straight_treads, flight.width_mm, steps.tread_depth_mm)
    yield part(StepPiece.WINDERS, 1 if winders else 0, max(found.winders_box_mm), min(found.winders_box_mm))
    yield part(StepPiece.RISER, 0 if flight.open_risers else steps.risers, flight.width_mm, steps.rise_mm)
    yield part(StepPiece.NOSING, steps.risers - winders, flight.width_mm, 0)
    yield part(StepPiece.NOSING, winders, found.winder_edge_mm, 0)


def cladding_line(facts: JobFacts, code: str) -> BuyingLine:
    """Return the packs of a board that clad every flight it is chosen for.

    Pieces lie along the width of the stairs. Where a piece is deeper than a board, whole boards lie side by side and
    the last is ripped; what is ripped off is not used again. Strips as long as each other are cut from boards of their
    own. Of lengths as they come, the shortest is what can be counted on.

    Raises:
        Refused: a piece is longer than every board of a pack.
    """
    board = facts.board(code)
    parts = [
        part
        for flight in facts.flights
        if flight.board == code
        for part in parts_of(flight)
        if part.piece is not StepPiece.NOSING
    ]
    packs = sum((_packs(board, part) for part in parts), Fraction())
    return BuyingLine(
        thing=Thing.CLADDING,
        product=code,
        size=board.pack_mm2,
        units=math.ceil(packs),
        how=ByCladding(parts=tuple(parts), width_mm=board.width_mm, boards=math.ceil(packs * board.boards_per_pack)),
        unit_kg=board.pack_mm2 * board.thickness_mm / 1e9 * BOARD_KG_PER_M3,
        cautions=(Caution.STAIRS, Caution.DUST),
        own=own_line_of(facts, Thing.CLADDING, code),
    )


def boards_for_stairs(facts: JobFacts, code: str) -> int:
    """Return the boards reckoned for every flight clad with a board; none where the sum cannot be made."""
    line = _clad(facts, code)
    return line.how.boards if line is not None and isinstance(line.how, ByCladding) else 0


def packs_for_stairs(facts: JobFacts, code: str) -> int:
    """Return the packs bought for every flight clad with a board; none where the sum cannot be made."""
    line = _clad(facts, code)
    return line.to_buy if line is not None else 0


def _clad(facts: JobFacts, code: str) -> BuyingLine | None:
    if all(flight.board != code for flight in facts.flights):
        return None
    try:
        return cladding_line(facts, code)
    except Refused:
        return None


def _packs(board: Board, part: StepPart) -> Fraction:
    """The packs for one kind of piece; of boards of one length whole boards."""
    strips = part.pieces * math.ceil(Fraction(part.deep_mm, board.width_mm))
    lengths = board.lengths or ((board.shortest_mm or board.length_mm, board.boards_per_pack),)
    from_a_pack = sum(count * ((length + KERF_MM) // (part.long_mm + KERF_MM)) for length, count in lengths)
    if part.piece is StepPiece.WINDERS and not from_a_pack:
        # Strips of a wide turn are put together from several boards, like rows of a floor.
        boards = math.ceil(Fraction(strips * part.long_mm * board.boards_per_pack, board.run_mm))
        return Fraction(boards, board.boards_per_pack)
    if not from_a_pack:
        raise Refused(f"{part.flight} is {part.long_mm} mm wide, and no board of {board.code} is so long.")
    if board.lengths:
        return Fraction(strips, from_a_pack)
    return Fraction(math.ceil(Fraction(strips * board.boards_per_pack, from_a_pack)), board.boards_per_pack)


def steps_line(facts: JobFacts, thing: Thing) -> BuyingLine | None:
    """Return ready treads or risers for flights with no board to clad them, or the nosing of all flights.

    Pieces are cut from the fewest of the length that is sold, or where that takes long the fewest found soon.

    Raises:
        Refused: a piece is longer or deeper than what is sold.
    """
    taken_as, piece = taken(facts, thing), _PIECE_OF[thing]
    flights = [one for one in facts.flights if thing is Thing.NOSING or one.board is None]
    parts = [part for flight in flights for part in parts_of(flight) if part.piece is piece]
    if not parts:
        return None
    _must_be_deep_enough(parts, taken_as)
    cutting = trims(
        stick_mm=int(taken_as.size),
        kerf_mm=KERF_MM,
        pieces_mm=[part.long_mm for part in parts for _ in range(part.pieces)],
        steps=FEW_STEPS,
    )
    return taken_as.sold(
        BuyingLine(
            thing=thing,
            units=cutting.sticks,
            how=BySteps(parts=tuple(parts), at_least=cutting.at_least, proved=cutting.proved),
            usual=taken_as.is_usual,
            cautions=(Caution.STAIRS,),
        )
    )


def _must_be_deep_enough(parts: Sequence[StepPart], taken_as: Taken) -> None:
    """Refuse a tread or riser that is deeper than what is sold; where only the usual is known, nothing is refused."""
    is_known = taken_as.sheet is not None or (taken_as.own is not None and taken_as.own.width_mm is not None)
    deepest = max(parts, key=lambda part: part.deep_mm)
    if is_known and taken_as.width_mm and deepest.deep_mm > taken_as.width_mm:
        asked = f"{deepest.flight} asks for pieces {deepest.deep_mm} mm deep"
        raise Refused(f"{asked}, and {taken_as.width_mm} mm is what is sold.")


def gaps_of_stairs(facts: JobFacts) -> Iterator[Gap]:
    """Yield what of the stairs cannot be bought by a sum: winders with no board to clad them are made to measure."""
    for flight in facts.flights:
        if flight.board is None and flight.winder_treads:
            yield Gap(thing=Thing.TREADS, missing=Missing.WINDERS, room=flight.name)
