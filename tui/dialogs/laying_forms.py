"""The forms that begin and finish the laying of a floor, with the packs opened for it."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from textual import on
from textual.widget import Widget

from store.trade.events import LayingDraft, OpeningDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import Lying, moment_field, room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_area, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.vocabulary import say_place
from tui.words.wording import say_area, say_packs, typed_area

_SAFETY = (
    "Pipes and cables can lie in the floor: find them before you nail or screw. Saw and sand with extraction "
    "on; carry packs between two. Data sheets and local rules come first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LayingWork:
    """A laying begun or finished, and the packs that were opened for it, batch by batch."""

    laying: LayingDraft
    openings: tuple[OpeningDraft, ...] = ()


class _Opened:
    """The fields that ask how many packs of each batch were opened."""

    def __init__(self, lying: Sequence[Lying]) -> None:
        self._lying = tuple(lying)
        self.fields = [self._field(number, one) for number, one in enumerate(self._lying)]

    def _field(self, number: int, one: Lying) -> TextField:
        there = f"of {say_packs(one.packs)} {say_place(one.place)}"
        label = f"{one.product} {one.batch}".strip()
        hint = f"Packs opened of {label}; empty for none."
        return TextField(f"openings.{number}", label, hint=hint, echo=lambda _typed: there)

    def fill_in(self, slip: Slip, room: str, at: datetime) -> tuple[OpeningDraft, ...]:
        openings = []
        for field, one in zip(self.fields, self._lying, strict=True):
            packs = slip.read_if_given(field, read_whole)
            if packs is not None and not 0 <= packs <= one.packs:
                slip.wrong(field.key, f"There are {one.packs} to open; write a number from 0 to {one.packs}.")
            elif packs:
                lies_in = one.place.room or room
                openings.append(OpeningDraft(at=at, room=lies_in, product=one.product, batch=one.batch, packs=packs))
        return tuple(openings)


class StartLaying(Dialog[LayingWork]):
    """Asks where laying begins and which packs are opened; answers a ``LayingWork`` without an end.

    Args:
        rooms: the rooms whose floor can be laid, at least one.
        lying: the packs that can be opened.
        clock: the firm's wall clock.
        check: what the shop finds wrong with it.
        room: the room to begin with.
        mixed: what is to be said of rooms in which two batches lie, by room.
    """

    def __init__(
        self,
        *,
        rooms: Sequence[str],
        lying: Sequence[Lying],
        clock: WallClock,
        check: Check[LayingWork],
        room: str = "",
        mixed: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__("Begin laying", check)
        self._clock, self._mixed_rooms = clock, dict(mixed or {})
        self._mixed = Line("", classes="caution note")
        self._room = SelectField("room", "Room", room_options(rooms), room, hint="Space opens the list.")
        self._at = moment_field("begun_at", "Begun at", clock)
        self._opened = _Opened(lying)

    def questions(self) -> Iterable[Widget]:
        yield self._room
        yield self._at
        if self._opened.fields:
            yield Line("Packs opened:", classes="muted note")
        yield from self._opened.fields
        yield self._mixed
        yield Line(_SAFETY, classes="caution note")

    def on_mount(self) -> None:
        super().on_mount()
        self._say_mixed()

    @on(Field.Changed)
    def _say_mixed(self) -> None:
        words = self._mixed_rooms.get(self._room.raw, "")
        self._mixed.say(f"▲ {words}" if words else "")
        self._mixed.display = bool(words)

    def fill_in(self, slip: Slip) -> LayingWork:
        begun_at = slip.read(self._at, self._clock.read, self._clock.now)
        room = self._room.raw
        return LayingWork(
            laying=LayingDraft(room=room, begun_at=begun_at),
            openings=self._opened.fill_in(slip, room, begun_at),
        )


class FinishLaying(Dialog[LayingWork]):
    """Asks when laying ended and how much floor is covered; answers a ``LayingWork`` with an end and an area.

    Args:
        laying: the laying that is going on.
        rest_mm2: what of the room's floor is not laid yet, mm².
        lying: the packs that can have been opened since.
        clock: the firm's wall clock.
        check: what the shop finds wrong with it.
        glued: whether glue is used, so that tubs are asked for.
        mixed: what is to be said where two batches lie in the room; empty for nothing.
    """

    def __init__(
        self,
        *,
        laying: LayingDraft,
        rest_mm2: int,
        clock: WallClock,
        check: Check[LayingWork],
        lying: Sequence[Lying] = (),
        glued: bool = True,
        mixed: str = "",
    ) -> None:
        super().__init__(f"Finish laying: {laying.room}", check)
        self._clock, self._laying, self._rest_mm2, self._glued = clock, laying, rest_mm2, glued
        self._at = moment_field("ended_at", "Ended at", clock)
        self._area = TextField(
            "area_mm2",
            "Floor covered m²",
            typed_area(rest_mm2),
            hint="What was laid, in m², like 14.5; less if the room is not done yet.",
            echo=lambda _typed: f"of {say_area(rest_mm2)} left to lay",
        )
        self._tubs = TextField("tubs", "Tubs of glue", hint="Tubs used, if anybody counted; may stay empty.")
        self._opened, self._mixed = _Opened(lying), mixed

    def questions(self) -> Iterable[Widget]:
        yield Line(f"Begun {self._clock.say(self._laying.begun_at)}.", classes="muted")
        yield self._at
        yield self._area
        if self._glued:
            yield self._tubs
        if self._opened.fields:
            yield Line("Packs opened since:", classes="muted note")
        yield from self._opened.fields
        if self._mixed:
            yield Line(f"▲ {self._mixed}", classes="caution note")
        yield Line("The times for walking and loading count from the end you give here.", classes="muted note")

    def fill_in(self, slip: Slip) -> LayingWork:
        ended_at = slip.read(self._at, self._clock.read, self._clock.now)
        area_mm2 = slip.read(self._area, read_area, self._rest_mm2)
        # The field shows hundredths of a square metre: left as it was, it means all of the rest.
        if self._area.raw == typed_area(self._rest_mm2):
            area_mm2 = self._rest_mm2
        if ended_at <= self._laying.begun_at:
            slip.wrong("ended_at", f"Laying began {self._clock.say(self._laying.begun_at)}; it ends after that.")
        if area_mm2 <= 0:
            slip.wrong("area_mm2", "Write how much floor is covered, more than 0 m², like 14.5.")
        laying = LayingDraft(
            room=self._laying.room,
            begun_at=self._laying.begun_at,
            ended_at=ended_at,
            area_mm2=area_mm2,
            tubs=slip.read_if_given(self._tubs, read_whole) if self._glued else None,
        )
        return LayingWork(laying=laying, openings=self._opened.fill_in(slip, laying.room, ended_at))
