"""The sum that lays a room of a file board by board: in keys, as plain text for print, and as a drawing."""

import argparse
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from store.errors import Refused
from store.papers.drawing import svg_of
from store.papers.on_disk import read_whole, write_whole
from store.papers.room_in import read_room
from store.trade.layout.lay import BoardSize, Lay, LayRules, Room
from store.trade.layout.search import lay_room
from store.trade.units import shown
from tui.answers import lay_answer
from tui.sums_on_offer import Sum, option, word
from tui.wording import counted, figure
from tui.words_for_lays import lay_text


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRoom:
    """A room of a file, laid by these rules; ``called`` is the file's name without its ending."""

    called: str
    room: Room
    rules: LayRules
    lay: Lay


def lay_a_file(asked: argparse.Namespace) -> LaidRoom:
    """Lay the room of a file, and write the drawing where one is asked for.

    Raises:
        Refused: the file, the room or the rules will not do, or the drawing cannot be written.
    """
    board = BoardSize(
        length_mm=whole_mm(asked.length, "length"),
        width_mm=whole_mm(asked.width, "width"),
        boards_per_pack=whole_mm(asked.per_pack, "number of boards in a pack"),
    )
    usual = LayRules.usual_for(board)
    stagger = usual.stagger_mm if asked.stagger is None else whole_mm(asked.stagger, "stagger")
    rules = LayRules(
        stagger_mm=stagger,
        shortest_mm=whole_mm(asked.shortest, "shortest piece"),
        kerf_mm=whole_mm(asked.kerf, "kerf"),
        least_mm=whole_mm(asked.least, "least row width"),
    )
    path = Path(asked.room)
    room = read_room(read_whole(path))
    lay = lay_room(room, board=board, rules=rules, seed=whole_mm(asked.seed, "seed"))
    laid = LaidRoom(called=path.stem, room=room, rules=rules, lay=lay)
    if asked.svg:
        write_whole(Path(asked.svg), drawing_of(room, lay, rules, laid.called).encode())
    return laid


def drawing_of(room: Room, lay: Lay, rules: LayRules, title: str) -> str:
    """Return a lay drawn as SVG under a title, with its boards, its packs and its rules."""
    board = lay.board
    notes = (
        f"{counted(lay.rows, 'row')}, {counted(lay.boards, 'board')} of {board.length_mm} × {board.width_mm} in "
        f"{counted(lay.packs, 'pack')}; cut loss {figure(lay.cut_loss_percent, 1)} %",
        f"Joints {rules.stagger_mm} apart or more, no piece under {rules.shortest_mm}, kerf {rules.kerf_mm}, "
        f"gap at the walls {room.gap_mm}",
    )
    return svg_of(room, lay, kerf_mm=rules.kerf_mm, title=title, notes=notes)


def whole_mm(typed: Decimal, what: str) -> int:
    """Return a whole number; Refused if it is not one or has too many figures to be a size."""
    if not typed.is_finite() or typed != typed.to_integral_value() or abs(typed) > 10**9:
        raise Refused(f"The {what} is a whole number of ordinary size, not {shown(typed)}.")
    return int(typed)


def _keys(laid: object) -> dict[str, object]:
    return lay_answer(_laid(laid).lay)


def _text(laid: object) -> str:
    one = _laid(laid)
    return lay_text(one.room, one.lay, one.rules, title=one.called)


def _laid(laid: object) -> LaidRoom:
    if not isinstance(laid, LaidRoom):
        raise TypeError(laid)
    return laid


LAY = Sum(
    about="A room laid board by board: rows, boards, packs and every piece.",
    options=(
        word("room", "a file that holds a room as in a job folder"),
        option("length", "mm, a board"),
        option("width", "mm, a board"),
        option("per-pack", "boards in a pack"),
        option("stagger", "mm between joints of neighbouring rows; 300 or twice the width if left out", optional=True),
        option("shortest", "mm, the shortest piece", Decimal(300)),
        option("kerf", "mm lost at a cut", Decimal(3)),
        option("least", "mm, the narrowest row at a wall", Decimal(60)),
        option("seed", "another number tries other ways", Decimal(1)),
        word("svg", "a file to write the drawing to", optional=True),
    ),
    work_out=lay_a_file,
    rule=lay_room,
    keys=_keys,
    text=_text,
    at_once=False,
)
