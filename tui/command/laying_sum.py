"""The sum that lays a room of a file board by board: in keys, as plain text for print, and as a drawing."""

import argparse
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from store.errors import Refused
from store.papers.drawing import svg_of
from store.papers.on_disk import read_whole, write_whole
from store.papers.room_in import read_room
from store.trade.layout.as_they_come import AnyLengths, AsTheyCome, as_they_come
from store.trade.layout.lay import BoardSize, Lay, LayRules, Room
from store.trade.layout.search import lay_room
from store.trade.surveyed import NOTHING_FOUND, Finds
from store.trade.units import exact, shown
from tui.command.answers import lay_answer
from tui.command.sums_on_offer import Option, Sum, option, word
from tui.typed.figures import Misread
from tui.typed.lengths import PackLengths, read_lengths
from tui.words.lays import lay_text, say_boards
from tui.words.wording import counted, figure


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidRoom:
    """A room of a file, laid by these rules; ``called`` is the file's name without its ending."""

    called: str
    room: Room
    rules: LayRules
    lay: Lay
    finds: Finds


def lay_a_file(asked: argparse.Namespace) -> LaidRoom:
    """Lay the room of a file, and write the drawing where one is asked for.

    Raises:
        Refused: the file, the room or the rules will not do, or the drawing cannot be written.
    """
    board = _board(asked)
    rules = _rules(asked, board)
    path = Path(asked.room)
    room, finds = read_room(read_whole(path))
    lay = lay_room(room, board=board, rules=rules, seed=whole_mm(asked.seed, "seed"))
    laid = LaidRoom(called=path.stem, room=room, rules=rules, lay=lay, finds=finds)
    if asked.svg:
        write_whole(Path(asked.svg), drawing_of(room, lay, rules, laid.called, finds=finds).encode())
    return laid


def _rules(asked: argparse.Namespace, board: BoardSize) -> LayRules:
    usual = LayRules.usual_for(board)
    return LayRules(
        stagger_mm=usual.stagger_mm if asked.stagger is None else whole_mm(asked.stagger, "stagger"),
        shortest_mm=whole_mm(asked.shortest, "shortest piece"),
        kerf_mm=whole_mm(asked.kerf, "kerf"),
        least_mm=whole_mm(asked.least, "least row width"),
    )


def _board(asked: argparse.Namespace) -> BoardSize:
    lengths = asked.lengths or PackLengths()
    if lengths.shortest_mm is not None:
        raise Refused(
            "Boards of any length have no lay before their packs are open; the sum random-lengths counts them."
        )
    length = lengths.longest_mm if asked.length is None else whole_mm(asked.length, "length")
    per_pack = lengths.boards if asked.per_pack is None else whole_mm(asked.per_pack, "number of boards in a pack")
    if lengths.each and (length, per_pack) != (lengths.longest_mm, lengths.boards):
        raise Refused(
            f"--lengths say {lengths.boards} boards in a pack, the longest {lengths.longest_mm} mm; leave --length and "
            "--per-pack out, or say the same."
        )
    width = whole_mm(asked.width, "width")
    return BoardSize(length_mm=length or 0, width_mm=width, boards_per_pack=per_pack or 0, lengths=lengths.each)


def _missing(asked: argparse.Namespace) -> str:
    lacks = asked.lengths is None and (asked.length is None or asked.per_pack is None)
    return "give --length and --per-pack, or --lengths like 5x1900,1x1000,1x900" if lacks else ""


def _any_lengths(asked: argparse.Namespace) -> AsTheyCome:
    boards = AnyLengths(
        shortest_mm=whole_mm(vars(asked)["from"], "shortest board"),
        longest_mm=whole_mm(asked.to, "longest board"),
        width_mm=whole_mm(asked.width, "width"),
        pack_run_mm=whole_mm(asked.run, "run of a pack"),
    )
    size = BoardSize(length_mm=boards.longest_mm, width_mm=boards.width_mm, boards_per_pack=1)
    return as_they_come(
        read_room(read_whole(Path(asked.room)))[0],
        boards=boards,
        rules=_rules(asked, size),
        confidence_percent=float(exact(asked.confidence, what="The confidence")),
        seed=whole_mm(asked.seed, "seed"),
    )


def drawing_of(
    room: Room,
    lay: Lay,
    rules: LayRules,
    title: str,
    *,
    finds: Finds = NOTHING_FOUND,
) -> str:
    """Return a lay drawn as SVG under a title, with its boards, its packs, its rules, doorways and fixed things."""
    board = lay.board
    notes = (
        f"{counted(lay.rows, 'row')}, {say_boards(lay)}, {board.width_mm} wide, in "
        f"{counted(lay.packs, 'pack')}; cut loss {figure(lay.cut_loss_percent, 1)} %",
        f"Joints {rules.stagger_mm} apart or more, no piece under {rules.shortest_mm}, kerf {rules.kerf_mm}, "
        f"gap at the walls {room.gap_mm}",
    )
    return svg_of(room, lay, kerf_mm=rules.kerf_mm, title=title, notes=notes, finds=finds)


def whole_mm(typed: Decimal, what: str) -> int:
    """Return a whole number; Refused if it is not one or has too many figures to be a size."""
    if not typed.is_finite() or typed != typed.to_integral_value() or abs(typed) > 10**9:
        raise Refused(f"The {what} is a whole number of ordinary size, not {shown(typed)}.")
    return int(typed)


def lengths(typed: str) -> PackLengths:
    """Read the lengths in a pack; ArgumentTypeError says what would do."""
    read = read_lengths(typed)
    if isinstance(read, Misread):
        raise argparse.ArgumentTypeError(read.say.rstrip("."))
    return read


def _keys(laid: object) -> dict[str, object]:
    return lay_answer(_laid(laid).lay)


def _text(laid: object) -> str:
    one = _laid(laid)
    return lay_text(one.room, one.lay, one.rules, title=one.called, finds=one.finds)


def _laid(laid: object) -> LaidRoom:
    if not isinstance(laid, LaidRoom):
        raise TypeError(laid)
    return laid


LAY = Sum(
    about="A room laid board by board: rows, boards, packs and every piece.",
    options=(
        word("room", "a file that holds a room as in a job folder"),
        option("length", "mm, a board", optional=True),
        option("width", "mm, a board"),
        option("per-pack", "boards in a pack", optional=True),
        Option(
            name="lengths",
            about="so many of each length in a pack, like 5x1900,1x1000,1x900; in the place of the two above",
            read=lengths,
            optional=True,
        ),
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
    missing=_missing,
)
RANDOM_LENGTHS = Sum(
    about="Packs for a room when the boards come in any length between two, without a cut list.",
    options=(
        word("room", "a file that holds a room as in a job folder"),
        option("from", "mm, the shortest board"),
        option("to", "mm, the longest board"),
        option("width", "mm, a board"),
        option("run", "mm, the boards of a pack end to end"),
        option("stagger", "mm between joints of neighbouring rows; 300 or twice the width if left out", optional=True),
        option("shortest", "mm, the shortest piece", Decimal(300)),
        option("kerf", "mm lost at a cut", Decimal(3)),
        option("least", "mm, the narrowest row at a wall", Decimal(60)),
        option("confidence", "% of floors that so many packs are enough for", Decimal(90)),
        option("seed", "another number draws other boards", Decimal(1)),
    ),
    work_out=_any_lengths,
    rule=as_they_come,
    at_once=False,
)
