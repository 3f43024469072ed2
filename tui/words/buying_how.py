"""Says how each line of a job's take-off was worked out."""

from collections.abc import Callable, Sequence

from store.trade.buying.nouns import (
    BuyingLine,
    ByCladding,
    ByCount,
    ByDepth,
    ByDoorways,
    ByNeed,
    ByPieces,
    BySpread,
    BySteps,
    BySticks,
    ByStrips,
    ByWall,
    How,
    StepPart,
    StepPiece,
)
from store.trade.verdict import Need
from tui.words.parts import say_fewest
from tui.words.wording import clean, counted, figure, say_area

_USUAL = "common practice"
_PIECES: dict[StepPiece, Callable[[int], str]] = {
    StepPiece.TREAD: lambda count: counted(count, "tread"),
    StepPiece.WINDERS: lambda count: "winders in a rectangle",
    StepPiece.RISER: lambda count: counted(count, "riser"),
    StepPiece.NOSING: lambda count: counted(count, "piece"),
}


def say_how(line: BuyingLine) -> str:
    """Return how a line was worked out, with “common practice” where no sheet stands behind it."""
    if line.beyond_sum:
        return "▲ cannot be worked out with what was set: the reason stands below"
    if line.how is None:
        return "nothing on file asks for it any longer"
    return f"{_how(line.how)}{f' ({_USUAL})' if line.usual else ''}"


def _how(how: How) -> str:  # noqa: PLR0911 - one sentence for each way
    match how:
        case ByNeed():
            return _need(how.need)
        case BySpread():
            notch = f", notch {clean(how.notch).strip().upper()}" if how.notch else ""
            return f"{say_area(how.area_mm2)} at {figure(how.g_per_m2)} g/m²{notch}: {figure(how.kg, 1)} kg"
        case ByDepth():
            rooms = "; ".join(
                f"{clean(one.room)} {say_area(one.area_mm2)}, {figure(one.depth_mm, 1)} mm on average"
                for one in how.fills
            )
            return f"{rooms}, at {figure(how.rate)} kg/m² and mm: {figure(how.kg, 1)} kg, up to the highest point"
        case ByStrips():
            rooms = "; ".join(
                f"{clean(one.room)} {counted(one.strips, 'strip')} of {figure(one.strip_mm / 1000)} m"
                for one in how.rooms
            )
            edges = f"lapped {how.overlap_mm} mm, turned up {how.turn_up_mm} mm" if how.overlap_mm else "edges butted"
            return f"{rooms}; {edges}"
        case BySticks():
            best = say_fewest(proved=how.proved, at_least=how.at_least)
            return f"{figure(how.along_mm / 1000)} m of wall in {counted(how.pieces, 'piece')}; {best}"
        case ByPieces():
            return f"{counted(how.screws, 'screw')} for {counted(how.pieces, 'piece')}, {how.spacing_mm} mm apart"
        case ByDoorways():
            return f"{counted(how.doorways, 'doorway')}, the widest {how.widest_mm} mm"
        case ByWall():
            wall = f"{figure(how.wall_mm / 1000)} m of wall in {clean(how.room)}"
            return f"{wall}, one every {how.every_mm} mm: {counted(how.wedges, 'wedge')}, used again in the next room"
        case ByCladding():
            return f"{_parts(how.parts)}; from boards {how.width_mm} mm wide: {counted(how.boards, 'board')}"
        case BySteps():
            best = say_fewest(proved=how.proved, at_least=how.at_least)
            metres = sum(part.pieces * part.long_mm for part in how.parts) / 1000
            return f"{_parts(how.parts)}; {figure(metres)} m; {best}"
        case ByCount():
            return "one for the job" if how.rooms is None else f"one for each of {counted(how.rooms, 'room')}"


def _parts(parts: Sequence[StepPart]) -> str:
    """The pieces flight by flight: “Loft stairs 8 treads of 860 × 275 mm, 12 risers of 860 × 217 mm”."""
    told: dict[str, list[str]] = {}
    for part in parts:
        deep = f" × {part.deep_mm}" if part.deep_mm else ""
        told.setdefault(part.flight, []).append(f"{_PIECES[part.piece](part.pieces)} of {part.long_mm}{deep} mm")
    return "; ".join(f"{clean(flight)} {', '.join(pieces)}" for flight, pieces in told.items())


def _need(need: Need) -> str:
    parts = [
        (need.lay_boards, "boards of lay plans"),
        (need.pattern_boards, "blocks and border boards"),
        (int(need.allowed_boards), "boards for rooms without a plan, with cut loss"),
        (need.cull_boards, "in case some are not good"),
    ]
    told = [f"{number:,} {words}" for number, words in parts if number]
    if need.spare_packs:
        told.append(f"{counted(need.spare_packs, 'pack')} spare")
    return " + ".join(told) or "nothing"
