"""The fields of a room's form about what lies in its base: floor heating, and an old floor."""

from dataclasses import replace

from store.trade.jobs import OldFloor, RoomDraft, Sample
from tui.dialogs.parts import day_field, past_day_field
from tui.dialogs.slip import Slip
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.words.vocabulary import OLD_FLOORS, SAMPLES


class BaseFields:
    """Asks for the days of a heated floor, and for an old floor underneath and its sample."""

    def __init__(self, start: RoomDraft, clock: WallClock) -> None:
        self._clock = clock
        self._begun = past_day_field(
            "heating_begun_on",
            "Heating begun",
            clock,
            start.heating_begun_on,
            hint="The day of the first heating: cement 21 days old, calcium sulphate 7, or as its maker says.",
        )
        self._proved = past_day_field(
            "heating_proved_on", "Heating proved", clock, start.heating_proved_on, hint="The day on its signed record."
        )
        self._off = day_field(
            "heating_off_from",
            "Heating off from",
            clock,
            start.heating_off_from,
            hint="Off, or held at 18–22 °C.",
        )
        self._old = SelectField(
            "old_floor",
            "Old floor",
            [(one.value, OLD_FLOORS[one]) for one in OldFloor],
            start.old_floor.value,
            hint="Old tiles, vinyl or black glue underneath? Space opens the list.",
        )
        self._sample = SelectField(
            "old_floor_sample",
            "Its sample",
            [(one.value, SAMPLES[one]) for one in Sample],
            start.old_floor_sample.value,
            hint="What the laboratory said. Space opens the list.",
        )

    @property
    def heating(self) -> tuple[TextField, ...]:
        """The fields about floor heating."""
        return self._begun, self._proved, self._off

    @property
    def fields(self) -> tuple[Field, ...]:
        """All fields, in order."""
        return (*self.heating, self._old, self._sample)

    def has(self, field: Field) -> bool:
        """Whether a field decides what else is asked."""
        return field is self._old

    def show_what_applies(self, *, heated: bool) -> None:
        """Ask only for what this room has."""
        for field in self.heating:
            field.display = heated
        self._sample.display = OldFloor(self._old.raw).is_suspect

    def fill_in(self, slip: Slip, room: RoomDraft, *, heated: bool) -> RoomDraft:
        """Return the room with what was said here; what was not asked is not known."""
        old = OldFloor(self._old.raw)
        return replace(
            room,
            heating_begun_on=slip.read_if_given(self._begun, self._clock.read_past_day) if heated else None,
            heating_proved_on=slip.read_if_given(self._proved, self._clock.read_past_day) if heated else None,
            heating_off_from=slip.read_if_given(self._off, self._clock.read_day) if heated else None,
            old_floor=old,
            old_floor_sample=Sample(self._sample.raw) if old.is_suspect else Sample.NOT_TAKEN,
        )
