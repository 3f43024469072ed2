"""The form for the firm: its name, its hours, and the limits it works to."""

from collections.abc import Iterable
from datetime import date, time

from textual.widget import Widget

from store.trade.firm import ClimateRange, ClockForm, FirmDraft
from store.trade.traditions import Tradition
from tui.dialogs.climate_fields import ClimateFields
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_currency, read_hours, read_mm, read_text, read_whole
from tui.typed.limits import read_limits, typed_limits
from tui.typed.when import read_days, read_days_of_week, read_time, typed_days_of_week
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import TextField
from tui.words.vocabulary import CLOCK_FORMS, TRADITIONS
from tui.words.wording import say_time, typed_day


class FirmForm(Dialog[FirmDraft]):
    """Asks about the firm; answers a ``FirmDraft``.

    Args:
        today: the day it is, for reading days without a year.
        check: what the shop finds wrong with the settings.
        draft: the settings to begin with; None for a firm that is new.
    """

    def __init__(self, *, today: date, check: Check[FirmDraft], draft: FirmDraft | None = None) -> None:
        super().__init__("The firm", check)
        self._today = today
        start = draft or FirmDraft(name="")
        self._suppliers = start.suppliers  # looked after in the Products view
        self._called = TextField("name", "Name", start.name, hint="As it stands on your papers.")
        self._zone = TextField("time_zone", "Time zone", start.time_zone, hint="Like Europe/Brussels.")
        self._days = TextField(
            "working_days",
            "Working days",
            typed_days_of_week(start.working_days),
            hint="Like mon-fri, or mon tue thu.",
        )
        self._starts = TextField("day_starts", "Day starts", say_time(start.day_starts), hint="Like 08:00.")
        self._ends = TextField("day_ends", "Day ends", say_time(start.day_ends), hint="Like 16:30.")
        holidays = ", ".join(typed_day(day) for day in start.holidays)
        self._holidays = TextField(
            "holidays",
            "Holidays",
            holidays,
            hint="Days like 25/12/2026, 1/1/2027; h in the Firm view fills in public ones.",
        )
        self._currency = TextField("currency", "Currency", start.currency, hint="Three letters, like EUR.")
        self._limit_fields(start)

    def _limit_fields(self, start: FirmDraft) -> None:
        self._climate = ClimateFields(start.climate, None)
        forms = [(form.value, CLOCK_FORMS[form]) for form in ClockForm]
        self._form = SelectField(
            "clock_form", "The wait", forms, start.clock_form.value, hint="How acclimatising hours count."
        )
        self._gap = TextField(
            "log_gap_hours",
            "Longest log gap h",
            str(start.log_gap_hours),
            hint="Hours between two good readings, like 24.",
        )
        self._flat = TextField(
            "flat_limit_mm",
            "Flatness limit mm",
            str(start.flat_limit_mm),
            hint="The gap allowed under a straightedge of 2 m, like 3.",
        )
        self._good = TextField(
            "reading_good_days",
            "Reading good days",
            str(start.reading_good_days),
            hint="Days a moisture reading counts, like 7.",
        )

        traditions = [(one.value, TRADITIONS[one]) for one in Tradition]
        self._tradition = SelectField(
            "tradition",
            "Moisture limits",
            traditions,
            start.tradition.value,
            hint="Whose figures hold where no data sheet says anything. Space opens the list.",
        )
        self._own = TextField(
            "own_limits", "Own limits", typed_limits(start.own_limits), hint="May stay empty; like hygrometer 60: why."
        )
        self._by_area = TickField(
            "tests_by_area",
            "Tests by area",
            start.tests_by_area,
            hint="Yes: a floor waits until as many tests are in as its area asks for.",
        )

    def questions(self) -> Iterable[Widget]:
        yield self._called
        yield self._zone
        yield self._days
        yield self._starts
        yield self._ends
        yield self._holidays
        yield self._currency
        yield from self._climate.fields
        yield self._form
        yield self._gap
        yield self._flat
        yield self._good
        yield self._tradition
        yield self._own
        yield self._by_area

    def _read_holidays(self, text: str) -> tuple[date, ...] | Misread:
        return read_days(text, self._today)

    def fill_in(self, slip: Slip) -> FirmDraft:
        return FirmDraft(
            name=slip.read(self._called, read_text, "-"),
            time_zone=slip.read(self._zone, read_text, "UTC"),
            working_days=slip.read(self._days, read_days_of_week, (0,)),
            day_starts=slip.read(self._starts, read_time, time(0)),
            day_ends=slip.read(self._ends, read_time, time(23, 59)),
            holidays=slip.read(self._holidays, self._read_holidays, ()),
            currency=slip.read(self._currency, read_currency, "EUR"),
            climate=self._climate.fill_in(slip) or ClimateRange(),
            clock_form=ClockForm(self._form.raw),
            log_gap_hours=slip.read(self._gap, read_hours, 24),
            flat_limit_mm=slip.read(self._flat, read_mm, 3),
            reading_good_days=slip.read(self._good, read_whole, 7),
            tradition=Tradition(self._tradition.raw),
            own_limits=slip.read(self._own, read_limits, ()),
            tests_by_area=self._by_area.yes,
            suppliers=self._suppliers,
        )
