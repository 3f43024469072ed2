"""The questions of a reading, and how what is typed becomes a measure and what stands behind it."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import fields

from store.trade.evidence import FIGURES_OF, Evidence, Zone, mean_of
from store.trade.readings import (
    KINDS,
    BoardMoisture,
    LevelGrid,
    Measure,
    ReadingDraft,
    Straightedge,
    TimberSubfloor,
)
from tui.dialogs.slip import Reader, Slip, Value
from tui.typed.figures import Misread, read_hours, read_mm, read_number, read_text
from tui.typed.heights import read_heights, read_percents, typed_heights, typed_percents
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.words.vocabulary import ZONES
from tui.words.wording import figure, typed_day, typed_number

ASKED = {
    "air": ("temp_c", "rh_percent"),
    "carbide": ("percent",),
    "hygrometer": ("rh_percent",),
    "in_situ_probe": ("rh_percent",),
    "timber_subfloor": ("percent",),
    "board": ("percent",),
    "surface": ("temp_c",),
    "straightedge": ("span_mm", "gap_mm"),
    "level_grid": ("spacing_mm", "falls", "heights_mm"),
}
"""The figures that each kind of reading asks for, by their fields."""

_MANY = {"timber_subfloor", "board"}
_FIGURES = (
    ("temp_c", "Temperature °C", "Like 20.5."),
    ("rh_percent", "Humidity %", "Like 52."),
    ("percent", "Moisture %", "Like 1.8; of wood also many, like 9.5 10 9.8."),
    ("span_mm", "Straightedge", "Its length, like 2 m or 2000."),
    ("gap_mm", "Widest gap mm", "Under the straightedge, like 2 or 2.5."),
    ("spacing_mm", "Points apart", "From point to point both ways, like 500 or 0.5 m."),
)
_FALLS = (("up", "up from a level"), ("down", "down from a laser line"))
_HEIGHTS_HINT = "Row by row in mm, like 0 1.5 2; 0 - 3. A dash is a point not read."
_BEHIND = (
    ("point", "Place in the room", "Like by the door, or point 3; may stay empty."),
    ("instrument", "Instrument", "Which one it was; may stay empty."),
    ("sample_g", "Sample g", "Like 50; may stay empty."),
    ("gauge_bar", "Gauge bar", "What the bottle showed, like 0.9; may stay empty."),
    ("depth_mm", "From how deep", "In mm, like 30; may stay empty."),
    ("hours", "Hours in place", "Like 72 or 3 days; may stay empty."),
)
_ZONE_HINT = "Sources ask for the one or the other; Space opens the list."
_CHECKED_HINT = "The day its sensor was last checked, like 2/11; may stay empty."


class ReadingParts:
    """The fields of a reading, those of every kind.

    Args:
        standing: the reading to be put right, with which they are filled.
        clock: the firm's wall clock.
    """

    def __init__(self, standing: ReadingDraft | None, clock: WallClock) -> None:
        stands = _as_typed(standing)
        self._clock = clock
        self.figures: dict[str, Field] = {
            **{
                name: TextField(name, label, stands[name], hint=hint, echo=_say_mean if name == "percent" else None)
                for name, label, hint in _FIGURES
            },
            "falls": SelectField("falls", "Measured", list(_FALLS), "up", hint="A laser's figures count downward."),
            "heights_mm": TextField("heights_mm", "Heights mm", stands["heights_mm"], hint=_HEIGHTS_HINT),
        }
        zones = [("", "not said"), *((zone.value, words) for zone, words in ZONES.items())]
        self.behind: dict[str, Field] = {
            **{name: TextField(name, label, stands[name], hint=hint) for name, label, hint in _BEHIND},
            "zone": SelectField("zone", "Of the screed", zones, stands["zone"], hint=_ZONE_HINT),
            "checked_on": TextField(
                "checked_on", "Sensor checked", stands["checked_on"], hint=_CHECKED_HINT, echo=clock.echo_past_day
            ),
        }

    def ask(self, kind: str) -> None:
        """Show the fields of one kind of reading, and no others."""
        for name, field in self.figures.items():
            field.display = name in ASKED[kind]
        for name, field in self.behind.items():
            field.display = name in {"point", "instrument", *FIGURES_OF.get(kind, ())}

    def measure(self, kind: str, slip: Slip) -> Measure:
        """Return what the instrument said, as far as it can be read."""
        of = KINDS[kind]
        if issubclass(of, LevelGrid):
            return self._grid(slip)
        if issubclass(of, Straightedge):
            span = slip.read(self.figures["span_mm"], read_mm, 2000)
            return of(span_mm=span, gap_mm=slip.read(self.figures["gap_mm"], read_number, 1.0))
        if issubclass(of, TimberSubfloor | BoardMoisture):
            return of(percent=mean_of(slip.read(self.figures["percent"], read_percents, (10.0,))))
        return of(**{name: slip.read(self.figures[name], read_number, 20.0) for name in ASKED[kind]})

    def _grid(self, slip: Slip) -> LevelGrid:
        downward = self.figures["falls"].raw == "down"
        stand_in = ((0.0, 0.0, 0.0),)
        return LevelGrid(
            spacing_mm=slip.read(self.figures["spacing_mm"], read_mm, 500),
            heights_mm=slip.read(
                self.figures["heights_mm"], lambda text: read_heights(text, downward=downward), stand_in
            ),
        )

    def evidence(self, kind: str, slip: Slip) -> Evidence:
        """Return what stands behind the reading, as far as it can be read."""
        asked, behind = FIGURES_OF.get(kind, ()), self.behind

        def given(name: str, reader: Reader[Value]) -> Value | None:
            return slip.read_if_given(behind[name], reader) if name in asked else None

        many = read_percents(self.figures["percent"].raw) if kind in _MANY else ()
        return Evidence(
            point=slip.read(behind["point"], read_text, ""),
            instrument=slip.read(behind["instrument"], read_text, ""),
            sample_g=given("sample_g", read_number),
            gauge_bar=given("gauge_bar", read_number),
            depth_mm=given("depth_mm", read_mm),
            hours=given("hours", read_hours),
            zone=Zone(behind["zone"].raw) if "zone" in asked and behind["zone"].raw else None,
            checked_on=given("checked_on", self._clock.read_past_day),
            figures=() if isinstance(many, Misread) or len(many) == 1 else many,
        )


def _say_mean(text: str) -> str:
    figures = read_percents(text)
    if isinstance(figures, Misread) or len(figures) == 1:
        return ""
    return f"mean {figure(mean_of(figures))} of {len(figures)}, highest {figure(max(figures))}"


def _as_typed(standing: ReadingDraft | None) -> Mapping[str, str]:
    """Return the figures of a reading that stands on file, and what stands behind them, as they are typed."""
    stands = defaultdict(str, {"span_mm": "2 m"})
    if standing is None:
        return stands
    for one in (standing.measure, standing.evidence):
        for field in fields(one):
            value = getattr(one, field.name)
            if isinstance(value, str):
                stands[field.name] = str(value)
            elif isinstance(value, int | float):
                stands[field.name] = typed_number(value)
    evidence = standing.evidence
    if evidence.checked_on is not None:
        stands["checked_on"] = typed_day(evidence.checked_on)
    if evidence.figures:
        stands["percent"] = typed_percents(evidence.figures)
    if isinstance(standing.measure, LevelGrid):
        stands["heights_mm"] = typed_heights(standing.measure.heights_mm)
    return stands
