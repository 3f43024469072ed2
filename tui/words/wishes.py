"""Says what a lay comes to by the wishes it was made with, and how it stands to the plan on file."""

from collections.abc import Sequence

from store.errors import Refused
from store.trade.gaps import WallGap
from store.trade.layout.doorway import rows_at
from store.trade.layout.figures import figures_of
from store.trade.layout.lay import Lay, Room
from store.trade.layout.looks import looks_of
from store.trade.layout.reserve import brought_for
from store.trade.plans import Plan
from store.trade.surveyed import Doorway
from store.trade.walls import wall_letter
from store.trade.ways import Way, Wish
from store.trade.wishes import LayWishes
from tui.typed.wall_clock import WallClock
from tui.words.lays import (
    is_too_narrow,
    say_best,
    say_boards,
    say_doorway,
    say_first_wall,
    say_left_over,
    say_looks,
    say_narrowest,
)
from tui.words.wording import clean, counted, figure, say_packs


def facts_of_lay(
    room: Room, lay: Lay, wishes: LayWishes, gap: WallGap, doorways: Sequence[Doorway] = ()
) -> list[tuple[str, str]]:
    """Return what a lay comes to as pairs: what is said, and what is said about it."""
    rules, figures = wishes.rules, figures_of(room, lay, wishes.rules)
    narrowest = say_narrowest(figures, room, rules) or "no wall runs along the rows"
    first = say_first_wall(figures, room)
    return [
        ("Boards", f"{say_boards(lay) if lay.board_lengths_mm else lay.boards}, {say_best(figures, lay)}"),
        ("Packs", say_brought(lay, wishes)),
        ("Cut loss", f"{figure(lay.cut_loss_percent, 1)} % of {figure(lay.floor_area_mm2 / 1e6)} m²"),
        ("Left over", f"{say_left_over(figures, rules)} (mm)"),
        ("Rows", f"{lay.rows}; first {figures.first_mm}{' ' + first if first else ''}, last {figures.last_mm}"),
        ("Plain start", f"a full board first leaves {figure(figures.last_if_full_mm, 1)} for the last row"),
        ("Narrowest", f"{'▲ ' if is_too_narrow(figures, rules) else ''}{narrowest}"),
        *(("Doorway", say_doorway(door, rows_at(room, lay, door), rules)) for door in doorways),
        ("Looks", say_looks(looks_of(lay))),
        ("Gap", say_gap(gap, room.gap_mm)),
        ("Rows run", say_way(wishes, lay)),
        (
            "Rules",
            f"joints {rules.stagger_mm} apart, pieces from {rules.shortest_mm}, saw {rules.kerf_mm}, rows from "
            f"{rules.least_mm}, gap {room.gap_mm}",
        ),
    ]


def say_way_tried(way: Way) -> str:
    """Return what makes a way to lay a room differ from the present one: “first row at wall C”."""
    wishes = way.wishes
    match way.differs_in:
        case Wish.DIRECTION:
            return f"rows turned {figure(wishes.direction_deg or 0.0, 1)}°"
        case Wish.FIRST_WALL:
            return f"first row at wall {wall_letter(wishes.start or 0)}"
        case Wish.JOINTS:
            return f"joints {wishes.rules.stagger_mm} apart"
        case Wish.BOARD:
            return clean(wishes.board)
        case Wish.NOTHING:
            return "as it is now"


def say_gap(gap: WallGap, has_mm: int) -> str:
    """Return whether the gap at the walls will do: “▲ 8 mm; a floating floor so wide asks for 10”."""
    if gap.asked_mm is not None:
        sign = "✓" if gap.enough else "▲"
        parted = f", and joints into {gap.fields} fields" if gap.fields > 1 else ""
        return f"{sign} {has_mm} mm; a floating floor so wide asks for {gap.asked_mm}{parted}"
    if gap.free_movement_mm is None:
        return f"{has_mm} mm"
    moves = figure(gap.free_movement_mm, 0)
    return f"{has_mm} mm; loose, solid wood so wide would move {moves} mm in a year, crossed layers 70 % less"


def say_brought(lay: Lay, wishes: LayWishes) -> str:
    """Return the packs to have, and what they are made of: “12: 63 boards, 4 in case some are not good”."""
    try:
        brought = brought_for(
            lay,
            culls_percent=wishes.culls_percent,
            confidence_percent=wishes.confidence_percent,
            spare_packs=wishes.spare_packs,
        )
    except Refused as no:
        return str(no)
    out_of = f", out of {brought.lay_boards}" if lay.board.lengths else ""
    parts = [f"{lay.boards} boards to lay{out_of}"]
    if brought.cull_boards:
        parts.append(f"{brought.cull_boards} in case some are not good")
    if brought.spare_packs:
        parts.append(f"{say_packs(brought.spare_packs)} to spare")
    return f"{brought.packs}: {', '.join(parts)}"


def say_way(wishes: LayWishes, lay: Lay) -> str:
    """Return which way the rows run, and where they begin."""
    turn = f"at {figure(lay.direction_deg, 1)}° to the plan" if lay.direction_deg else "with the plan"
    start = (
        f"from wall {wall_letter(wishes.start)}" if wishes.start is not None else "the start is the program's choice"
    )
    if wishes.line_mm is not None:
        start = f"with an edge between two rows at {wishes.line_mm} mm"
    return f"{turn}, {start}"


def say_on_file(plan: Plan | None, lay: Lay | None, shape: str, clock: WallClock) -> str:
    """Return whether this lay is the room's plan; ``shape`` is the fingerprint of what it lies on."""
    if plan is None:
        return "none yet; s files this one"
    since = f"since {clock.say(plan.at)}"
    if plan.shape == shape and plan.lay == lay:
        return f"this one, {since}"
    return f"another: {counted(plan.lay.boards, 'board')}, {since}"
