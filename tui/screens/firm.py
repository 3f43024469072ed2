"""The firm: its settings, its people, and where its records lie."""

from typing import ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll

from store.desk.desk import Desk
from tui.dialogs.facts_screen import FactsScreen
from tui.doors import ViewName
from tui.errands.desk_errands import DeskErrands
from tui.telling import refusal_of, tell_no
from tui.view import View
from tui.widgets.facts import Facts
from tui.words.firm import records_of, say_findings, settings_of, sum_up
from tui.words.people import say_card
from tui.words.wording import clean


class FirmScreen(View):
    """Shows the firm's settings, who works for it, the records and their copies."""

    NAME: ClassVar[ViewName | None] = ViewName.FIRM
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Whenever Layday opens on changed records it keeps a verified copy in the folder “copies” beside them. "
        "A copy on another disk, made with b, is what helps when the machine is gone.",
        "n adds somebody, p changes what they can do and when they are away, x takes off the list who has left; who "
        "is booked for days to come cannot be taken off before the diary has given those days to another.",
        "h fills in the public holidays of a country, this year's and next year's; each is shown with its name before "
        "it is filed, and e changes those on file.",
        "A copy is put back with “layday restore FILE”; the present records are set aside, never overwritten.",
    )
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012 - Textual reads it from the class
    DEFAULT_CSS = """
    FirmScreen #firm { height: auto; }
    FirmScreen Facts { padding: 0 1; margin: 0 0 1 0; }
    FirmScreen #records { margin: 0; }
    FirmScreen .firm--side { height: auto; width: 1fr; }
    FirmScreen.-wide #firm { layout: horizontal; }
    FirmScreen.-wide Facts { padding: 1 2 0 2; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "change", "Change", id="firm.change"),
        Binding("n", "add_person", "New person", id="firm.new"),
        Binding("p", "change_person", "Change person", show=False, id="firm.person"),
        Binding("x", "remove_person", "Take off the list", show=False, id="firm.remove_person"),
        Binding("w", "sit_down", "Who is here", id="firm.who"),
        Binding("h", "fill_holidays", "Holidays", show=False, id="firm.holidays", tooltip="Fill in public holidays"),
        Binding("b", "copy", "Make a copy", id="firm.copy"),
        Binding("l", "look_over", "Check", id="firm.look_over"),
        Binding("j", "export", "Write out jobs", show=False, id="firm.export"),
    ]

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.errands = DeskErrands(self)

    def parts(self) -> ComposeResult:
        with VerticalScroll(), Container(id="firm"):
            with Vertical(classes="firm--side"):
                yield Facts(id="settings")
                yield Facts("People", id="people")
            with Vertical(classes="firm--side"):
                yield Facts("Records", id="records")

    def again(self) -> None:
        firm, now = self.desk.firm.card(), self.desk.now()
        self._facts("settings").show(settings_of(firm, now), heading=clean(firm.name))
        on_file = self.desk.firm.people()
        who, today = self.desk.firm.at_the_desk, self.desk.today()
        people = [
            ("At the desk", f"{clean(who)}, whom the history names" if who else "nobody is named; w says who is here"),
            *((clean(one.name), say_card(one, today) or "by name alone; p says more") for one in on_file),
        ]
        if not on_file:
            people.append(("They are", "nobody is on file yet; n adds the first"))
        self._facts("people").show(people)
        self._facts("records").show(records_of(self.desk.keeping.card(), firm, now))

    def _facts(self, name: str) -> Facts:
        return self.query_one(f"#{name}", Facts)

    def action_look_over(self) -> None:
        """Look whether the file, its history and what was worked out from it are in order."""
        error = refusal_of(self._show_findings)
        if error is not None:
            tell_no(self.app, error)

    def _show_findings(self) -> None:
        findings = self.desk.papers.look_over()
        title = f"{sum_up(findings)} Looked at {self.clock.say(self.desk.now())}."
        self.app.push_screen(FactsScreen(title, say_findings(findings)))

    @work
    async def action_change(self) -> None:
        """Change the firm's settings."""
        await self.errands.change_firm()

    @work
    async def action_add_person(self) -> None:
        """Put somebody on file who works for the firm."""
        await self.errands.add_person()

    @work
    async def action_change_person(self) -> None:
        """Change what somebody can do, and when they are away."""
        await self.errands.change_person()

    @work
    async def action_remove_person(self) -> None:
        """Take somebody off the list who has left."""
        await self.errands.remove_person()

    @work
    async def action_sit_down(self) -> None:
        """Say who is at the desk."""
        await self.errands.sit_down()

    @work
    async def action_fill_holidays(self) -> None:
        """File public holidays as the firm's own."""
        await self.errands.fill_holidays()

    @work
    async def action_copy(self) -> None:
        """Make a verified copy of the records."""
        await self.errands.make_copy()

    @work
    async def action_export(self) -> None:
        """Write the folders of all jobs to a file."""
        await self.errands.export_jobs()
