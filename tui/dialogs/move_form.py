"""The form for carrying packs from one place to another."""

from collections.abc import Iterable, Mapping, Sequence

from textual import on
from textual.widget import Widget

from store.trade.batches import meeting
from store.trade.events import MoveDraft, Place
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import Lying, moment_field
from tui.dialogs.slip import Slip
from tui.typed.figures import read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.batches import say_meeting
from tui.words.vocabulary import say_target


class MoveForm(Dialog[MoveDraft]):
    """Asks which packs were carried where; answers a ``MoveDraft``.

    Args:
        lying: the packs that can be carried, at least one kind.
        targets: the places they can be carried to, at least one.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the move.
        laid_with: the board of each room, by the room's name: packs are carried to a room laid with them at first.
        lying_in: the batches of each board that lie in a room, by room and board.
    """

    def __init__(
        self,
        *,
        lying: Sequence[Lying],
        targets: Sequence[Place],
        clock: WallClock,
        check: Check[MoveDraft],
        laid_with: Mapping[str, str] | None = None,
        lying_in: Mapping[tuple[str, str], Sequence[str]] | None = None,
    ) -> None:
        super().__init__("Carry packs", check)
        self._clock, self._lying, self._targets = clock, tuple(lying), tuple(targets)
        self._laid_with, self._lying_in = dict(laid_with or {}), dict(lying_in or {})
        self._meet = Line("", classes="caution note")
        self._source = SelectField(
            "source",
            "Carried",
            [(str(place), one.words) for place, one in enumerate(self._lying)],
            hint="Space opens the list.",
        )
        self._packs = TextField("packs", "Packs", str(self._lying[0].packs), hint="Whole packs.")
        self._target = SelectField(
            "target",
            "Where to",
            [(str(place), say_target(one)) for place, one in enumerate(self._targets)],
            hint="The wait of the boards begins when they lie in their room.",
        )
        self._at = moment_field("at", "Carried at", clock)

    def questions(self) -> Iterable[Widget]:
        yield self._source
        yield self._packs
        yield self._target
        yield self._at
        yield self._meet
        yield Line("A pack is heavy: carry it between two, lift from the knees.", classes="caution note")

    def on_mount(self) -> None:
        super().on_mount()
        self._say_meeting()

    @on(Field.Changed)
    def _say_meeting(self) -> None:
        """Say so where the packs carried would meet another batch; it stands in nobody's way."""
        carried, room = self._lying[int(self._source.raw)], self._targets[int(self._target.raw)].room
        coming = [] if not carried.is_board or not room else [carried.batch]
        batches = meeting(self._lying_in.get((room, carried.product), ()), coming)
        self._meet.say(f"▲ {say_meeting(carried.product, batches, room)}" if batches else "")
        self._meet.display = bool(batches)

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if event.field is not self._source:
            return
        carried = self._lying[int(self._source.raw)]
        if self._packs.raw in {str(one.packs) for one in self._lying}:
            self._packs.fill(str(carried.packs))
        rooms = [name for name, board in self._laid_with.items() if board == carried.product]
        if rooms and self._targets[int(self._target.raw)].room not in rooms:
            wanted = (place for place, one in enumerate(self._targets) if one.room in rooms and one != carried.place)
            self._target.choose(str(next(wanted, int(self._target.raw))))

    def fill_in(self, slip: Slip) -> MoveDraft:
        carried = self._lying[int(self._source.raw)]
        packs = slip.read(self._packs, read_whole, 1)
        if not 1 <= packs <= carried.packs:
            slip.wrong("packs", f"There are {carried.packs} to carry; write a number from 1 to {carried.packs}.")
        return MoveDraft(
            at=slip.read(self._at, self._clock.read, self._clock.now),
            product=carried.product,
            batch=carried.batch,
            packs=packs,
            source=carried.place,
            target=self._targets[int(self._target.raw)],
        )
