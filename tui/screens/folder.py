"""A job's folder: everything on file about it, section by section, and every deed that can be done on it."""

from collections.abc import Coroutine
from dataclasses import replace
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import ActiveBinding, BindingType
from textual.widgets import ContentSwitcher, Input

from store.desk.desk import Desk
from store.trade.readings import Reading
from tui.dialogs.reading_charts import ReadingCharts
from tui.dialogs.whole_line import WholeLine
from tui.doors import OpenLay
from tui.errands.errands import Errands
from tui.folder.changes import change_of, taking_back_of, why_not_changed, why_not_taken_back
from tui.folder.charts import pictures_of
from tui.folder.head import said_of, title_of, who_of
from tui.folder.keys import KEYS
from tui.folder.offers import offered_in
from tui.folder.page import Page
from tui.folder.pane import SectionPane
from tui.folder.sections import PARTS, Section, section_for, section_of
from tui.folder.trims import skirting_of
from tui.telling import tell
from tui.view import View
from tui.widgets.filter_list import FilterList
from tui.widgets.job_head import JobHead
from tui.widgets.section_strip import SectionStrip
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted


class FolderScreen(View):
    """The folder of one job.

    Args:
        desk: where everything is asked and done.
        ref: the job's reference.
    """

    TEACHES: ClassVar[tuple[str, ...]] = (
        "The line above says whether the floor may be laid, and what is next. Left and right turn the sections.",
        "What is on file is not overwritten: a wrong line is taken back with x, and filed again; e does both "
        "at once for a reading.",
    )
    DEFAULT_CSS = """
    FolderScreen ContentSwitcher { height: 1fr; }
    """
    BINDINGS: ClassVar[list[BindingType]] = KEYS

    def __init__(self, desk: Desk, ref: str) -> None:
        super().__init__(desk)
        self.ref = ref
        self._errands = Errands(self)
        self._page: Page | None = None
        self._section: Section | None = None
        self._shows_withdrawn = False

    @property
    def words(self) -> str:
        return f"job {clean(self.ref)}"

    def parts(self) -> ComposeResult:
        yield JobHead()
        yield SectionStrip([PARTS[section].words for section in Section])
        with ContentSwitcher():
            for section in Section:
                yield SectionPane(section)

    def again(self) -> None:
        card, firm = self.desk.jobs.card(self.ref), self.desk.firm.card()
        page = Page(
            card=card,
            firm=firm,
            clock=self.clock,
            history=self.desk.jobs.history(self.ref),
            times=self.desk.times.of(card.facts),
            lasting=self.desk.laying.lasting(card.facts),
            hints=self.desk.taught.hints_for_order(card),
            cost=self.desk.orders.cost(card.facts),
            withdrawn=self.desk.readings.withdrawn(self.ref) if self._shows_withdrawn else (),
        )
        self._page = page
        self.query_one(JobHead).show(title_of(page), who_of(page), card.standing.stage, said_of(page))
        if self._section is None:
            self._turn_to(section_for(card.standing.stage))
        else:
            self.pane.show(page)
            self.refresh_bindings()

    @property
    def pane(self) -> SectionPane:
        """The section that is shown."""
        return self.query_one(f"#section-{self._section or Section.SURVEY}", SectionPane)

    def _turn_to(self, section: Section) -> None:
        self._section = section
        self.query_one(ContentSwitcher).current = f"section-{section.value}"
        self.query_one(SectionStrip).show(list(Section).index(section))
        if self._page is not None:
            self.pane.show(self._page)
        self.pane.rows.focus_list()
        self.refresh_bindings()

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """The keys that work here; the footer offers only those that matter in the present section."""
        section = self._section or Section.SURVEY
        has_lines = self._section is not None and self.pane.chosen is not None
        offered = offered_in(section, self._page, has_lines=has_lines)

        def place(active: ActiveBinding) -> int:
            action = active.binding.action
            return offered.index(action) if action in offered else len(offered)

        found = super().active_bindings
        return {
            key: active._replace(binding=replace(active.binding, show=active.binding.action in offered))
            for key, active in sorted(found.items(), key=lambda pair: place(pair[1]))
        }

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in {"section_before", "section_after"}:
            return not isinstance(self.focused, Input)
        return True

    @on(SectionStrip.Turned)
    def _turned(self, event: SectionStrip.Turned) -> None:
        event.stop()
        self._turn_to(list(Section)[event.place])

    def action_section_before(self) -> None:
        """Show the section before."""
        self._turn_by(-1)

    def action_section_after(self) -> None:
        """Show the next section."""
        self._turn_by(1)

    def _turn_by(self, steps: int) -> None:
        sections = list(Section)
        here = sections.index(self._section or Section.SURVEY)
        self._turn_to(sections[(here + steps) % len(sections)])

    def action_back(self) -> None:
        """Go back to where the folder was opened."""
        self.app.pop_screen()

    @on(FilterList.Opened)
    def _opened(self, event: FilterList.Opened) -> None:
        event.stop()
        entry = self.pane.entry(event.key)
        if entry is not None:
            self.app.push_screen(WholeLine(entry.title, entry.whole))

    def _run(self, errand: Coroutine[None, None, bool], shows_in: Section | None = None) -> None:
        """Do an errand, and turn to the section in which it shows once it is done."""
        self.run_worker(self._done(errand, shows_in), group="errand")

    async def _done(self, errand: Coroutine[None, None, bool], shows_in: Section | None) -> None:
        section = shows_in or self._section or Section.SURVEY
        known = {entry.key for entry in PARTS[section].entries(self._page)} if self._page else set()
        if await errand:
            if section is not self._section:
                self._turn_to(section)
            self.pane.choose_new(known)

    def action_do_next(self) -> None:
        """Do the first deed that the job waits for."""
        deed = self._page.next_deed if self._page else None
        if deed is not None:
            self._run(self._errands.do(deed, self.ref), section_of(deed.kind))
        else:
            tell(self.app, "Nothing is to be done on this job now.")

    def action_add_room(self) -> None:
        """Measure a room."""
        self._run(self._errands.add_room(self.ref), Section.SURVEY)

    def action_add_stairs(self) -> None:
        """Measure a flight of stairs."""
        self._run(self._errands.add_flight(self.ref), Section.SURVEY)

    def action_order(self) -> None:
        """Put an order on file."""
        self._run(self._errands.order(self.ref), Section.ORDERS)

    def action_to_buy(self) -> None:
        """Show what the job needs bought."""
        self._run(self._errands.show_what_to_buy(self.ref))

    def action_take_in(self) -> None:
        """Take in a delivery."""
        self._run(self._errands.take_in(self.ref), Section.ORDERS)

    def action_carry(self) -> None:
        """Carry packs."""
        self._run(self._errands.carry(self.ref, self.pane.room), Section.ORDERS)

    def action_read(self) -> None:
        """Put a reading on file."""
        self._run(self._errands.read(self.ref, self.pane.room), Section.READINGS)

    def action_logger(self) -> None:
        """Take in a data logger's file."""
        self._run(self._errands.take_in_logger(self.ref, self.pane.room), Section.READINGS)

    def action_over_time(self) -> None:
        """Show how the readings of the chosen room went, beginning with the kind that is chosen."""
        page, room = self._page, self.pane.room
        rooms = [one.name for one in page.facts.rooms] if page else []
        room = room or next(iter(rooms), "")
        fact = self.pane.chosen.fact if self.pane.chosen else None
        kind = fact.kind if isinstance(fact, Reading) else ""
        pictures, begin = pictures_of(page, room, kind) if page and room in rooms else ((), 0)
        if pictures:
            self.app.push_screen(ReadingCharts(pictures, begin))
        else:
            tell(self.app, f"Nothing has been read in {the_room(room)} yet." if room else "No room is on file yet.")

    def action_withdrawn(self) -> None:
        """Show the readings that were taken back among the others, or hide them again."""
        gone = self.desk.readings.withdrawn(self.ref)
        if not gone:
            tell(self.app, "No reading of this job was taken back.")
            return
        self._shows_withdrawn = not self._shows_withdrawn
        self.again()
        self._turn_to(Section.READINGS)
        count = counted(len(gone), "reading")
        tell(self.app, f"{count} taken back: shown." if self._shows_withdrawn else f"{count} taken back: hidden again.")

    def action_trims(self) -> None:
        """Cut the skirting of the chosen room."""
        dialog = skirting_of(self._page, self.pane.room)
        if dialog is not None:
            self.app.push_screen(dialog)
        else:
            tell(self.app, "No room is on file yet; measure one first (a).", "warning")

    def action_smooth(self) -> None:
        """Put on file that a subfloor was levelled."""
        self._run(self._errands.smooth(self.ref, self.pane.room), Section.READINGS)

    def action_void(self) -> None:
        """Put on file what makes moisture readings void."""
        self._run(self._errands.void(self.ref, self.pane.room), Section.READINGS)

    def action_look_round(self) -> None:
        """Go through the morning list of a room."""
        self._run(self._errands.look_round(self.ref, self.pane.room), Section.LAYING)

    def action_lay(self) -> None:
        """Finish the laying that goes on, or begin one."""
        self._run(self._errands.lay(self.ref), Section.LAYING)

    def action_plan(self) -> None:
        """Draw how the chosen room is laid."""
        rooms = [room.name for room in self._page.facts.rooms] if self._page else []
        room = self.pane.room or next(iter(rooms), "")
        if room and self._errands.is_counted(self.ref, room):
            self._run(self._errands.count_floor(self.ref, room))
        elif room:
            self.post_message(OpenLay(self.ref, room))
        else:
            tell(self.app, "No room is on file yet; measure one first (a).", "warning")

    def action_count(self) -> None:
        """Count the leftovers."""
        self._run(self._errands.count(self.ref), Section.CLOSE_OUT)

    def action_sign(self) -> None:
        """Have the floor signed for."""
        self._run(self._errands.sign(self.ref), Section.CLOSE_OUT)

    def action_snag(self) -> None:
        """Put a snag on file."""
        self._run(self._errands.add_snag(self.ref), Section.CLOSE_OUT)

    def action_note(self) -> None:
        """Write a note."""
        self._run(self._errands.add_note(self.ref), Section.CLOSE_OUT)

    def action_edit_job(self) -> None:
        """Change the job's card."""
        self._run(self._errands.change_job(self.ref))

    def action_edit(self) -> None:
        """Change the chosen line, where it is one that can be changed."""
        fact = self.pane.chosen.fact if self.pane.chosen else None
        errand = change_of(self._errands, self.ref, fact)
        if errand is not None:
            self._run(errand)
        else:
            tell(self.app, why_not_changed(fact), "warning")

    def action_take_back(self) -> None:
        """Take back the chosen line; a room is taken out of the job."""
        fact = self.pane.chosen.fact if self.pane.chosen else None
        errand = taking_back_of(self._errands, self.ref, fact)
        if errand is not None:
            self._run(errand)
        else:
            tell(self.app, why_not_taken_back(fact), "warning")
