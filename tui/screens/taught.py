"""What closed jobs taught: the real cut loss by kind of floor and fitter, glue, and what the material was worth."""

from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.reactive import reactive

from store.desk.desk import Desk
from store.trade.taught.report import GlueLine, LossLine, Report, WorthLine
from tui.dialogs.facts_screen import FactsScreen
from tui.doors import OpenJob, ViewName
from tui.view import View
from tui.widgets.fitted_list import FitCell, FitColumn, FitRow, FittedList
from tui.widgets.signed_lines import Said, SignedLines, Tone
from tui.words.taught import (
    BYS,
    NOTHING_YET,
    bar,
    say_floors,
    say_glue,
    say_glue_whole,
    say_loss,
    say_of,
    say_rate,
    say_report,
    say_worth,
)
from tui.words.wording import say_money

_LOSS, _GLUE, _WORTH = "taught-loss", "taught-glue", "taught-worth"
_SIDES = (_LOSS, _GLUE, _WORTH)
_FIGURE = 8
_BAR = 20
_MOST_BEHIND = 100
_NO_GLUE = (
    "No closed job says how much glue it took.\n\nThe tubs used are asked for as laying ends (l in a job's folder). A "
    "job closed with them counted stands here, by glue, notch and base."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """A line of one of the lists: the sentences that tell it whole, and the jobs behind it."""

    told: tuple[str, ...]
    refs: tuple[str, ...]


class TaughtScreen(View):
    """Three lists, turned by v; the chosen line is told whole below them. Esc goes back."""

    NAME: ClassVar[ViewName | None] = ViewName.JOBS
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Every closed job's boards were counted: what went into the floor beyond its area is its real cut loss. Rooms "
        "of one job laid with one board are one floor, because their leftovers were counted together.",
        "“9 of 10” would have been enough for nine of ten floors. “Next” leans on common practice while there are few "
        "floors: with five of them your own figure counts half, with forty-five nine tenths.",
        "A bar is the real loss, its stroke what the plan or allowance said. Nothing here changes a number by itself.",
        "A floor laid by two counts for each of them. Floors whose packs do not add up stand in no figure.",
    )
    DEFAULT_CSS = f"""
    TaughtScreen FittedList {{ display: none; }}
    TaughtScreen.-{_LOSS} #{_LOSS} {{ display: block; }}
    TaughtScreen.-{_GLUE} #{_GLUE} {{ display: block; }}
    TaughtScreen.-{_WORTH} #{_WORTH} {{ display: block; }}
    TaughtScreen .taught--whole {{ height: auto; max-height: 7; padding: 0 1; background: $panel; }}
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("v", "turn(1)", "Glue", id="taught.glue"),
        Binding("v", "turn(2)", "Worth", id="taught.worth"),
        Binding("v", "turn(0)", "Cut loss", id="taught.loss"),
        Binding("escape", "back", "Back", key_display="Esc", id="taught.back"),
    ]
    side: reactive[int] = reactive(0, init=False)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._lines: dict[str, _Line] = {}
        self._report = Report()
        self._currency = ""

    @property
    def words(self) -> str:
        return "what closed jobs taught"

    def parts(self) -> ComposeResult:
        figures = tuple(FitColumn(label=word.rjust(_FIGURE)) for word in ("Allowed", "Took", "9 of 10", "Next"))
        kind = (FitColumn(label="By", most=12, once=True), FitColumn(label="Kind", gives=True))
        floors, drawn = FitColumn(label="Floors"), FitColumn(label="Took, │ allowed", only_wide=True)
        yield FittedList((*kind, floors, *figures, drawn), noun="cut loss lines", empty=NOTHING_YET, id=_LOSS)
        glue = (FitColumn(label="Glue, notch and base", gives=True), floors)
        rates = tuple(FitColumn(label=word.rjust(11)) for word in ("Sheet", "Took", "9 of 10"))
        yield FittedList((*glue, *rates), noun="glue lines", empty=_NO_GLUE, id=_GLUE)
        job = (FitColumn(label="Job", most=16), FitColumn(label="What for", gives=True))
        worth = tuple(FitColumn(label=word.rjust(13)) for word in ("Ordered", "Used", "Lost"))
        yield FittedList((*job, *worth), noun="closed jobs", empty=NOTHING_YET, id=_WORTH)
        yield SignedLines(classes="taught--whole")

    def on_mount(self) -> None:
        self.watch_side()

    def again(self) -> None:
        self._report = self.desk.taught.report()
        self._currency = self.desk.firm.card().currency
        self._fill()

    def _fill(self) -> None:
        """Fill the list that is shown; the others wait until they are turned to."""
        report = self._report
        self._lines.clear()
        rows = (
            lambda: [self._loss(one, report) for one in report.losses],
            lambda: [self._glue(one) for one in report.glues],
            lambda: [self._worth(one) for one in report.worths],
        )
        self._shown.show_rows(rows[self.side]())
        self._tell_chosen()

    def _loss(self, line: LossLine, report: Report) -> FitRow:
        key = f"{line.by}\n{line.of}"
        top = max(max(one.real_percent, one.allowed_percent) for one in report.losses)
        first, *others = say_floors(line)
        drawn = bar(line.real_percent, top, 2 * _BAR, line.allowed_percent)
        left_out = (say_report(report),) if report.left_out else ()
        self._lines[key] = _Line(told=(first, f"{drawn}  took, │ allowed", *others, *left_out), refs=line.refs)
        figures = (line.allowed_percent, line.real_percent, line.enough_percent, line.suggested_percent)
        more = line.real_percent > line.allowed_percent
        cells = (
            FitCell(parts=(BYS[line.by],), tone="muted"),
            FitCell(parts=(say_of(line),)),
            FitCell(parts=(f"{line.floors:>6,}",)),
            *(
                FitCell(parts=(say_loss(one).rjust(_FIGURE),), tone="warn" if more and place == 1 else "")
                for place, one in enumerate(figures)
            ),
            FitCell(parts=(bar(line.real_percent, top, _BAR, line.allowed_percent),), tone="accent"),
        )
        return FitRow(key=key, cells=cells)

    def _glue(self, line: GlueLine) -> FitRow:
        key = f"{line.product}\n{line.notch}\n{line.base}"
        self._lines[key] = _Line(told=say_glue_whole(line), refs=line.refs)
        rates = (line.sheet_g_per_m2, line.real_g_per_m2, line.enough_g_per_m2)
        cells = (
            FitCell(parts=(say_glue(line),)),
            FitCell(parts=(f"{line.floors:>6,}",)),
            *(FitCell(parts=(say_rate(one).rjust(11),)) for one in rates),
        )
        return FitRow(key=key, cells=cells)

    def _worth(self, line: WorthLine) -> FitRow:
        self._lines[line.ref] = _Line(told=say_worth(line, self._currency), refs=(line.ref,))
        sums = (line.ordered_minor, line.used_minor, line.wasted_minor)
        cells = (
            FitCell(parts=(line.ref if line.adds_up else f"{line.ref} ▲",), tone="" if line.adds_up else "warn"),
            FitCell(parts=(line.title,)),
            *(FitCell(parts=(say_money(one, self._currency).rjust(13),)) for one in sums),
        )
        return FitRow(key=line.ref, cells=cells)

    def _list(self, name: str) -> FittedList:
        return self.query_one(f"#{name}", FittedList)

    @property
    def _shown(self) -> FittedList:
        return self._list(_SIDES[self.side])

    def _tell_chosen(self) -> None:
        line = self._lines.get(self._shown.chosen or "")
        first, *others = line.told if line else ("",)
        said = (Said(words=first, tone=Tone.HEAD), *(Said(words=one) for one in others))
        self.query_one(SignedLines).show(said if line else ())

    def watch_side(self) -> None:
        for place, name in enumerate(_SIDES):
            self.set_class(place == self.side, f"-{name}")
        self._fill()
        self._shown.focus_list()
        self.refresh_bindings()

    def action_turn(self, side: int) -> None:
        """Show the next of the lists: cut loss, glue, or what the material was worth."""
        self.side = side

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "turn":
            return parameters == ((self.side + 1) % len(_SIDES),)
        return True

    def action_back(self) -> None:
        """Go back to the list of jobs."""
        self.app.pop_screen()

    @on(FittedList.Chosen)
    def _line_chosen(self, event: FittedList.Chosen) -> None:
        event.stop()
        self._tell_chosen()

    @on(FittedList.Opened)
    def _line_opened(self, event: FittedList.Opened) -> None:
        event.stop()
        line = self._lines.get(event.key)
        if line is None:
            return
        if len(line.refs) == 1:
            self.post_message(OpenJob(line.refs[0]))
            return
        titles = {one.ref: one.title for one in self._report.worths}
        facts = [(ref, titles.get(ref, "")) for ref in line.refs[:_MOST_BEHIND]]
        words = "The jobs behind it"
        if len(line.refs) > _MOST_BEHIND:
            words = f"The latest {_MOST_BEHIND} of the {len(line.refs):,} jobs behind it"
        self.app.push_screen(FactsScreen(words, facts))
