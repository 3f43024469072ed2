"""The words for whether what is left on site will last."""

from collections.abc import Iterator

from store.trade.lasting import BoardsToGo, GlueToGo, Lasting, RoomToGo
from tui.words.facts import say_list
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, figure, say_area, say_packs


def say_lasting(lasting: Lasting) -> Iterator[tuple[bool, str]]:
    """Yield for each board and glue being laid whether it will last, and the sentence that says why."""
    for board in lasting.boards:
        yield board.short == 0, say_boards_to_go(board)
    for glue in lasting.glues:
        yield glue.short == 0, say_glue_to_go(glue)


def say_boards_to_go(one: BoardsToGo) -> str:
    """Return what is left of a board against what is to go.

    “OAK-190: 14 of 22 rows to go, 35 boards; 5 packs and 3 boards left, short by 2 boards.”
    """
    rooms = say_list(_to_go(room, alone=len(one.rooms) == 1) for room in one.rooms)
    words = (
        f"{clean(one.product)}: {rooms} to go, {counted(one.to_go, 'board')}; {say_packs(one.packs, one.boards)} left"
    )
    over = one.left - one.to_go
    words += f", short by {counted(one.short, 'board')}." if one.short else f", {_over(over)}."
    more = [f"{counted(one.in_unit, 'pack')} in the unit"] if one.in_unit > 0 else []
    if one.owed:
        more.append(f"{counted(one.owed, 'pack')} still to come")
    if one.short and more:
        words += f" Beside them {say_list(more)}."
    return words


def _over(boards: int) -> str:
    return f"{counted(boards, 'board')} over" if boards else "just enough"


def _to_go(room: RoomToGo, *, alone: bool) -> str:
    rows = f"{room.rows or 0:,} of {counted(room.of_rows or 0, 'row')}"
    much = say_area(room.floor_mm2) if room.rows is None else rows
    return much if alone else f"{much} in {the_room(room.room)}"


def say_pace(one: BoardsToGo) -> str:
    """Return how fast packs were opened so far; empty where none was written down."""
    if not one.opened_days:
        return ""
    return f"{counted(one.opened_packs, 'pack')} opened on {counted(one.opened_days, 'day')}"


def say_glue_to_go(one: GlueToGo) -> str:
    """Return what is left of a glue: “MS-15: 12.00 m² to go at 1,125 g/m² (so far), 0.9 tubs; 2 tubs left, enough”."""
    rate = f"{one.g_per_m2:,.0f} g/m² ({'so far' if one.so_far else 'its sheet'})"
    left = f"{_tubs(one.tubs)} left" + (f" in date, {_tubs(one.too_old)} too old" if one.too_old else "")
    words = f"{clean(one.product)}: {say_area(one.floor_mm2)} to go at {rate}, {_tubs(one.to_go)}; {left}"
    return f"{words}, short by {counted(one.short, 'tub')}." if one.short else f"{words}, enough."


def _tubs(tubs: float) -> str:
    words = figure(tubs, 1)
    return f"{words} {'tub' if words == '1' else 'tubs'}"
