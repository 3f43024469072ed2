"""The packs a job asks for: by lay plan where a room has one, by its pattern, else by the cut loss allowed for it."""

from contextlib import suppress
from fractions import Fraction

from store.errors import Refused
from store.trade.facts import JobFacts
from store.trade.jobs import Room, RoomDraft
from store.trade.layout.enough import MOST_BOARDS, boards_to_have
from store.trade.layout.take_off import TakeOff, border_boards, take_off
from store.trade.plans import Plan, fits, floor_in, size_of
from store.trade.products import BoardDraft
from store.trade.stacks import packs_for, with_cut_loss
from store.trade.surveyed import Pattern
from store.trade.verdict import Need


def current_plan(facts: JobFacts, room: Room) -> Plan | None:
    """Return the latest plan of a room that still fits it and its board; None if there is none."""
    board = facts.board(room.board)
    fitting = [plan for plan in facts.plans if fits(plan, room, board)]
    return max(fitting, key=lambda plan: (plan.at, plan.id), default=None)


def wanted(facts: JobFacts, code: str) -> Need:
    """Return what the rooms laid with one board need together.

    1. The boards of the lay plans are added up; those of plans that expect the same culls with the same confidence
       share their safety, because a floor that is lucky helps one that is not.
    2. Herringbones and chevrons are counted block by block, and so are the borders of rooms with a plan.
    3. To them comes, in exact fractions of a board, the floor of the other rooms and its cut loss.
    4. That is rounded up to packs once, where left and right blocks are packed apart for each hand, and the spare packs
       are added whole.

    Without any plan or pattern it is exactly ``packs_for``.

    Raises:
        KeyError: ``code`` is not a board on file.
    """
    board, rooms = facts.board(code), facts.rooms_with(code)
    found = [(room, current_plan(facts, room)) for room in rooms]
    plans = [plan for _, plan in found if plan is not None]
    taken_off = [(room, _pattern_of(room, board)) for room, plan in found if plan is None]
    patterns = [pattern for _, pattern in taken_off if pattern is not None]
    borders = sum(border_boards(floor_in(room), size_of(board)) for room, plan in found if plan is not None)
    unplanned = tuple(room for room, pattern in taken_off if pattern is None)
    lay_boards = sum(plan.lay.pack_boards for plan in plans)
    brought = _with_culls(plans)
    allowed = with_cut_loss(unplanned) / board.board_mm2
    spare = sum(plan.spare_packs for plan in plans)
    counted = sum(one.boards for one in patterns) + borders
    whole = -(-(brought + counted + allowed) // board.boards_per_pack) if plans or patterns else packs_for(rooms, board)
    if board.handed:
        left, right = sum(one.left_hand for one in patterns), sum(one.right_hand for one in patterns)
        whole = max(whole, -(-left // board.boards_per_pack) - (-right // board.boards_per_pack))
    return Need(
        product=code,
        lay_boards=lay_boards,
        cull_boards=brought - lay_boards,
        allowed_boards=-(-allowed // 1),
        spare_packs=spare,
        packs=whole + spare,
        by_plan=bool(plans),
        pattern_boards=counted,
    )


def take_off_of(room: RoomDraft, board: BoardDraft) -> TakeOff:
    """Return what a room laid in a pattern takes; Refused for one laid in rows, or whose border leaves no field."""
    return take_off(floor_in(room), size_of(board), room.pattern)


def boards_worth(facts: JobFacts, room: Room) -> Fraction:
    """Return the boards that a room takes: by its plan, else by its pattern, else by the cut loss allowed for it."""
    board, plan = facts.board(room.board), current_plan(facts, room)
    if plan is not None:
        return Fraction(plan.lay.pack_boards + border_boards(floor_in(room), size_of(board)))
    pattern = _pattern_of(room, board)
    return Fraction(pattern.boards) if pattern is not None else with_cut_loss((room,)) / board.board_mm2


def loss_percent(facts: JobFacts, room: Room) -> float:
    """Return the cut loss a room is counted with, in percent of its floor."""
    plan = current_plan(facts, room)
    if plan is not None:
        return plan.lay.cut_loss_percent
    pattern = _pattern_of(room, facts.board(room.board))
    return room.cut_loss_percent if pattern is None else pattern.loss_percent


def _pattern_of(room: RoomDraft, board: BoardDraft) -> TakeOff | None:
    """Return what a room's pattern takes; None for straight rows, and where gap and border leave nothing to count."""
    if room.pattern is Pattern.STRAIGHT:
        return None
    with suppress(Refused):
        return take_off_of(room, board)
    return None


def _with_culls(plans: list[Plan]) -> int:
    boards: dict[tuple[float, float], int] = {}
    for plan in plans:
        expected = (plan.culls_percent, plan.confidence_percent)
        boards[expected] = boards.get(expected, 0) + plan.lay.pack_boards
    return sum(_boards_to_have(count, *expected) for expected, count in boards.items())


def _boards_to_have(boards: int, culls_percent: float, confidence_percent: float) -> int:
    # More than the rule takes at once is no lay anybody makes, but a folder may hold it, and the day's list must stand.
    full, rest = divmod(boards, MOST_BOARDS)
    return sum(
        times * boards_to_have(boards=part, cull_rate=culls_percent / 100, confidence=confidence_percent / 100)
        for times, part in ((full, MOST_BOARDS), (1, rest))
        if times and part
    )
