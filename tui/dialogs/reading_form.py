"""The form for a reading, new or put right; the kind of reading decides what is asked."""

from collections.abc import Callable, Iterable, Sequence

from textual import on
from textual.widget import Widget

from store.trade.doubts import doubts
from store.trade.readings import KINDS, LevelGrid, ReadingDraft, problems_with_measure
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field, room_options
from tui.dialogs.reading_parts import ReadingParts
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.evidence import say_doubts
from tui.words.level_grid import say_worst_gap
from tui.words.vocabulary import READING_KINDS
from tui.words.wording import say_measure

# Common practice with acetylene and caustic residue, and with pipes in a heated floor; no source.
_CAUTIONS = {
    "carbide": "Open the bottle outdoors, away from flames: the gas burns, the residue burns the skin. "
    "On a heated floor chisel only at marked points.",
    "hygrometer": "On a heated floor drill only at marked points: pipes and cables lie in it.",
    "in_situ_probe": "On a heated floor drill only at marked points: pipes and cables lie in it. Drilling "
    "concrete or screed makes silica dust: extract it.",
}


class ReadingForm(Dialog[ReadingDraft]):
    """Asks what an instrument said; answers a ``ReadingDraft``.

    Args:
        rooms: the names of the job's rooms, at least one.
        clock: the firm's wall clock.
        limit_for: says in a sentence what a reading of a kind must be in a room; empty if nothing is said.
        check: what the shop finds wrong with the reading.
        first: the room and the kind to begin with.
        people: the names of those who can have taken it.
        standing: the reading to be put right, with which the form is filled; it then asks for the reason too.
    """

    DEFAULT_CSS = """
    ReadingForm #limit, ReadingForm #doubt { padding: 0 0 0 18; color: $text-secondary; }
    ReadingForm #doubt { color: $text-warning; }
    """

    def __init__(
        self,
        *,
        rooms: Sequence[str],
        clock: WallClock,
        limit_for: Callable[[str, str], str],
        check: Check[ReadingDraft],
        first: tuple[str, str] = ("", "air"),
        people: Sequence[str] = (),
        standing: ReadingDraft | None = None,
    ) -> None:
        super().__init__("Put a reading right" if standing else "Put a reading on file", check)
        self._clock, self._limit_for = clock, limit_for
        self._parts = ReadingParts(standing, clock)
        kinds = [(kind, READING_KINDS[kind]) for kind in KINDS]
        self._kind = SelectField("kind", "Reading", kinds, first[1], hint="Space opens the list.")
        self._room = SelectField("room", "Room", room_options(rooms), first[0], hint="Space opens the list.")
        self._at = moment_field("at", "Read at", clock, standing.at if standing else None)
        taker = standing.taken_by if standing else ""
        takers = [("", "not said"), *((name, name) for name in dict.fromkeys([*people, taker]) if name)]
        self._taken_by = SelectField("taken_by", "Taken by", takers, taker, hint="Space opens the list.")
        self._note = TextField("note", "Note", standing.note if standing else "", hint="May stay empty.")
        self._why = TextField("why", "Why", hint="Why the old line is wrong, like Two figures were swapped.")
        self._is_new = standing is None
        self._limit = Line("", id="limit")
        self._doubt = Line("", id="doubt")
        self._caution = Line("", classes="caution note")

    def questions(self) -> Iterable[Widget]:
        yield self._kind
        yield self._room
        yield self._at
        yield from self._parts.figures.values()
        yield self._limit
        yield self._taken_by
        yield self._note
        yield from self._parts.behind.values()
        yield self._doubt
        if not self._is_new:
            yield self._why
        yield self._caution

    @property
    def why(self) -> str:
        """The reason that was given for putting a reading right."""
        read = read_text(self._why.raw)
        return "" if isinstance(read, Misread) else read

    def on_mount(self) -> None:
        super().on_mount()
        self._ask_for_kind()

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if event.field in {self._kind, self._room}:
            self._ask_for_kind()
        self._say_doubt()

    def _ask_for_kind(self) -> None:
        kind = self._kind.raw
        self._parts.ask(kind)
        limit = self._limit_for(self._room.raw, kind)
        self._limit.say(limit)
        self._limit.display = bool(limit)
        self._caution.say(_CAUTIONS.get(kind, ""))
        self._caution.display = kind in _CAUTIONS

    def _say_doubt(self) -> None:
        kind, slip = self._kind.raw, Slip()
        measure, evidence = self._parts.measure(kind, slip), self._parts.evidence(kind, slip)
        on = self._clock.day(slip.read(self._at, self._clock.read, self._clock.now))
        found = () if slip.problems else doubts(measure, evidence, on=on)
        words = [f"▲ {one}" for one in say_doubts(found, evidence)]
        if isinstance(measure, LevelGrid) and not slip.problems and not problems_with_measure(measure):
            words.append(f"{say_measure(measure)}: {say_worst_gap(measure)}.")
        self._doubt.say("\n".join(words))
        self._doubt.display = bool(words)

    def fill_in(self, slip: Slip) -> ReadingDraft:
        if not self._is_new and not self.why:
            slip.wrong("why", "Say in a few words why.")
        return ReadingDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            measure=self._parts.measure(self._kind.raw, slip),
            taken_by=self._taken_by.raw,
            note=slip.read(self._note, read_text, ""),
            evidence=self._parts.evidence(self._kind.raw, slip),
        )
