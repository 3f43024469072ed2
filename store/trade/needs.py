"""The packs a job asks for: by lay plan where a room has one, else by the cut loss allowed for it."""

from store.trade.facts import JobFacts
from store.trade.jobs import Room
from store.trade.layout.enough import MOST_BOARDS, boards_to_have
from store.trade.plans import Plan, fits
from store.trade.stacks import packs_for, with_cut_loss
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
    2. To them comes, in exact fractions of a board, the floor of the rooms without a plan and its cut loss.
    3. That is rounded up to packs once, and the spare packs are added whole.

    Without any plan it is exactly ``packs_for``.

    Raises:
        KeyError: ``code`` is not a board on file.
    """
    board, rooms = facts.board(code), facts.rooms_with(code)
    found = [(room, current_plan(facts, room)) for room in rooms]
    plans = [plan for _, plan in found if plan is not None]
    unplanned = tuple(room for room, plan in found if plan is None)
    lay_boards = sum(plan.lay.pack_boards for plan in plans)
    brought = _with_culls(plans)
    allowed = with_cut_loss(unplanned) / board.board_mm2
    spare = sum(plan.spare_packs for plan in plans)
    whole = -(-(brought + allowed) // board.boards_per_pack) if plans else packs_for(rooms, board)
    return Need(
        product=code,
        lay_boards=lay_boards,
        cull_boards=brought - lay_boards,
        allowed_boards=-(-allowed // 1),
        spare_packs=spare,
        packs=whole + spare,
        by_plan=bool(plans),
    )


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
