"""The form for how a room is to be laid."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.jobs import RoomDraft
from store.trade.layout.lay import LayRules
from store.trade.products import Board
from store.trade.walls import wall_letter, walls_of
from store.trade.wishes import LayWishes
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_mm, read_number, read_whole
from tui.typed.finds import read_direction
from tui.widgets.choices import SelectField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.wording import figure, typed_number


class LayForm(Dialog[LayWishes]):
    """Asks how a room is to be laid; answers ``LayWishes``.

    Args:
        room: the room that is laid.
        boards: the boards on file.
        wishes: what the form is filled with.
        check: what is wrong with the wishes.
    """

    def __init__(self, *, room: RoomDraft, boards: Sequence[Board], wishes: LayWishes, check: Check[LayWishes]) -> None:
        super().__init__(f"How {room.name} is laid", check, save="Lay it")
        rules, self._outline = wishes.rules, room.outline
        self._board = SelectField("board", "Board", product_options(boards), wishes.board, hint="Space opens the list.")
        self._direction = TextField(
            "direction_deg",
            "Rows turned °",
            "" if wishes.direction_deg is None else typed_number(wishes.direction_deg),
            hint="0, 90, 45 …, or B: along wall B; long wall; light C: away from a window there; or empty.",
        )
        walls = [
            (str(wall), f"wall {wall_letter(wall)}, {_long(one)}") for wall, one in enumerate(walls_of(room.outline))
        ]
        start = "" if wishes.start is None else str(wishes.start)
        self._start = SelectField(
            "start", "First row at", [("", "the program chooses"), *walls], start, hint="Space opens the list."
        )
        line = "" if wishes.line_mm is None else str(wishes.line_mm)
        self._line = TextField(
            "line_mm",
            "Row edge at mm",
            line,
            hint="Where an edge between two rows lies; l fetches it from the next room.",
        )
        self._stagger = _mm("stagger_mm", "Joints apart mm", rules.stagger_mm, "Between joints of neighbouring rows")
        self._shortest = _mm("shortest_mm", "Shortest piece mm", rules.shortest_mm, "No piece is cut shorter")
        self._kerf = _mm("kerf_mm", "Saw takes mm", rules.kerf_mm, "Lost at each cut")
        self._least = _mm("least_mm", "Narrowest row mm", rules.least_mm, "At any wall, where it can be kept")
        self._seed = TextField("seed", "Try", str(wishes.seed), hint="Another number tries other ways to cut.")
        self._culls = TextField(
            "culls_percent", "Not good %", typed_number(wishes.culls_percent), hint="Boards put aside, of a hundred."
        )
        self._sure = TextField(
            "confidence_percent", "Sure %", typed_number(wishes.confidence_percent),
            hint="How sure it must be that enough boards are good, like 90.",
        )  # fmt: skip
        self._spare = TextField(
            "spare_packs", "Spare packs", str(wishes.spare_packs), hint="Whole packs that stay with the customer."
        )

    def questions(self) -> Iterable[Widget]:
        yield self._board
        yield self._direction
        yield self._start
        yield self._stagger
        yield self._shortest
        yield self._kerf
        yield self._least
        yield self._seed
        yield self._culls
        yield self._sure
        yield self._spare
        yield self._line
        yield Line("The maker's sheet goes before these rules where it asks for more.", classes="muted note")

    def fill_in(self, slip: Slip) -> LayWishes:
        return LayWishes(
            board=self._board.raw,
            direction_deg=slip.read_if_given(self._direction, lambda text: read_direction(text, self._outline)),
            start=int(self._start.raw) if self._start.raw else None,
            line_mm=slip.read_if_given(self._line, read_whole),
            rules=LayRules(
                stagger_mm=slip.read(self._stagger, read_mm, 300),
                shortest_mm=slip.read(self._shortest, read_mm, 300),
                kerf_mm=slip.read(self._kerf, read_mm, 3),
                least_mm=slip.read(self._least, read_mm, 60),
            ),
            seed=slip.read(self._seed, read_whole, 1),
            culls_percent=slip.read(self._culls, read_number, 3.0),
            confidence_percent=slip.read(self._sure, read_number, 90.0),
            spare_packs=slip.read(self._spare, read_whole, 0),
        )


def _mm(key: str, label: str, value: int, what: str) -> TextField:
    return TextField(key, label, str(value), hint=f"{what}, in mm, like {value}.")


def _long(wall: tuple[tuple[int, int], tuple[int, int]]) -> str:
    (ax, ay), (bx, by) = wall
    return f"{figure(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5, 0)} mm"
