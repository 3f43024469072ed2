"""The diary: who lays which floor on which day, by person or by job, and every move told with what it breaks."""

from datetime import timedelta
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.reactive import reactive
from textual.widgets import Input

from store.desk.desk import Desk
from store.desk.diary_cards import Booked, DiaryCard
from store.trade.bookings import Booking
from tui.doors import ViewName
from tui.errands.diary_errands import Deed, DiaryErrands
from tui.telling import or_tell, tell
from tui.view import View
from tui.widgets.diary_board import DiaryBoard
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line
from tui.words.diary import say_placed, say_taken_up
from tui.words.diary_rows import filtered, rows_by_job, rows_by_person
from tui.words.wording import clean, say_day

_REACH = timedelta(days=370)
_EMPTY = (
    "Nobody is on file yet, so nobody can be booked.\n\n"
    "Add the people of the firm first: press 5 for Firm, then n for each of them. Then come back with 7, put the "
    "cursor on somebody's day and press b to book them on a job.\n\n"
    "The diary then shows who is where, and says at once when somebody is booked twice, is off, or comes before the "
    "floor is ready."
)
_FREE = "b books this day."


class DiaryScreen(View):
    """People down and days across, or jobs with their waits; bookings are made, moved, stretched and swapped here."""

    NAME: ClassVar[ViewName | None] = ViewName.DIARY
    TEACHES: ClassVar[tuple[str, ...]] = (
        "b books somebody, Enter changes the booking under the cursor. Shift and left or right move it by a working "
        "day, Shift and up or down give it to the next person; where Shift does not reach the terminal, m lets the "
        "plain arrows move it until Enter. + and − make it longer or shorter, w here and then there swaps two people, "
        "x cancels, u turns back what was done last.",
        "v shows the jobs instead of the people, with their waits: delivery ···, drying ≈≈≈, acclimatise ░░░, curing "
        "▒▒▒, as far as they are known. ◆ is the day promised. ▲ says that something speaks against a booking; the "
        "line below says what. ½ is a morning, ·½ an afternoon, » goes on from before.",
        "PgUp and PgDn or [ and ] go by weeks, t goes to today. c writes a calendar file. p proposes who lays what and "
        "when, with the fewest days late; all of it, a part or nothing is booked, and u turns it back.",
        "i asks what if: a delivery slips, somebody is ill, a floor is not ready. What would follow is told; nothing "
        "is changed by it.",
    )
    DEFAULT_CSS = """
    DiaryScreen .diary--empty { padding: 1 2; height: 1fr; display: none; }
    DiaryScreen .diary--here { height: 2; padding: 0 1; background: $panel; }
    DiaryScreen .diary--told { height: 2; padding: 0 1; color: $text-accent; }
    DiaryScreen OneLine { display: none; padding: 0 1; }
    DiaryScreen.-filtering OneLine { display: block; }
    DiaryScreen.-empty .diary--empty { display: block; }
    DiaryScreen.-empty DiaryBoard { display: none; }
    DiaryScreen.-empty .diary--here { display: none; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("b", "book", "Book", id="diary.book"),
        Binding("enter", "change", "Change", id="diary.change"),
        Binding("m", "carry", "Move", id="diary.move"),
        Binding(
            "plus,equals_sign", "stretch(1)", "Days", key_display="+ −", id="diary.longer", tooltip="More or fewer days"
        ),
        Binding("minus", "stretch(-1)", "Shorter", show=False, id="diary.shorter"),
        Binding("w", "swap", "Swap", show=False, id="diary.swap"),
        Binding("x", "cancel", "Cancel", id="diary.cancel"),
        Binding("u", "undo", "Undo", id="diary.undo"),
        Binding("v", "turn", "Jobs", id="diary.by_job"),
        Binding("v", "turn_back", "People", id="diary.by_person"),
        Binding("p", "propose", "Propose", show=False, id="diary.propose", tooltip="Who could lay which floor when"),
        Binding("i", "suppose", "What if", show=False, id="diary.suppose", tooltip="What if something comes otherwise"),
        Binding("c", "calendar", "Calendar file", show=False, id="diary.calendar"),
        Binding("slash", "filter", "Filter", show=False, id="list.filter"),
        Binding("t", "today", "Today", show=False, id="diary.today"),
        Binding("escape", "leave", "Leave off", show=False, id="diary.leave"),
        Binding("shift+left", "move(-1)", "A day earlier", show=False, id="diary.earlier"),
        Binding("shift+right", "move(1)", "A day later", show=False, id="diary.later"),
        Binding("shift+up", "give(-1)", "To the person above", show=False, id="diary.above"),
        Binding("shift+down", "give(1)", "To the person below", show=False, id="diary.below"),
    ]
    by_job: reactive[bool] = reactive(False, init=False)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.errands = DiaryErrands(self)
        self._card: DiaryCard | None = None
        self._swapped: int | None = None

    def parts(self) -> ComposeResult:
        yield OneLine(placeholder="Type to filter by person or job; Esc shows all")
        yield Line(_EMPTY, classes="diary--empty")
        yield DiaryBoard(self.desk.today())
        yield Line("", classes="diary--here")
        yield Line("", classes="diary--told")

    def on_mount(self) -> None:
        self._board.focus()

    @property
    def _board(self) -> DiaryBoard:
        return self.query_one(DiaryBoard)

    def again(self) -> None:
        day = self._board.day
        self._card = self.desk.diary.card(day - _REACH, day + _REACH)
        self.set_class(not self._card.people, "-empty")
        self._show_rows()

    def _show_rows(self) -> None:
        if self._card is None:
            return
        rows = rows_by_job(self._card) if self.by_job else rows_by_person(self._card)
        shown = filtered(rows, self.query_one(OneLine).value)
        self._board.show(shown, self._card.firm, self._card.today)
        self._say_here()

    def _say_here(self) -> None:
        if self._card is None:
            return
        board, here = self._board, self.query_one(".diary--here", Line)
        bar, row = board.chosen_bar, board.chosen_row
        if bar is not None and bar.placed is not None:
            here.say(say_placed(bar.placed, self._card, self.desk.now()))
        elif row is None:
            here.say("Nothing like that in the diary; Esc shows all.")
        else:
            day = say_day(board.day, self._card.today)
            what = f"{bar.words} until {say_day(bar.days[-1], self._card.today)}. " if bar is not None else ""
            here.say(f"{row.label}, {day}: {what or row.marks.get(board.day, 'nothing booked') + '. '}{_FREE}")

    @property
    def _chosen(self) -> Booking | None:
        bar = self._board.chosen_bar
        return bar.placed.booking if bar is not None and bar.placed is not None else None

    @on(DiaryBoard.Moved)
    def _moved(self, event: DiaryBoard.Moved) -> None:
        event.stop()
        if self._card is not None and not self._card.first < event.day < self._card.last:
            self.ask_again()
        self._say_here()
        self.refresh_bindings()

    def _tell(self, words: str) -> None:
        self.query_one(".diary--told", Line).say(words)

    def _done(self, what: str, booked: Booked | None) -> None:
        """Show what a deed has changed, say what it breaks and saves, and keep the cursor on it."""
        if booked is None:
            return
        self.ask_again()
        booking = booked.bookings[-1]
        if not booking.cancelled:
            self._board.find(booking.id, self._board.day)
        self._tell(self.errands.say(what, booked))

    def _do(self, what: str, deed: Deed) -> None:
        self._done(what, self.errands.do(deed))

    def _need(self) -> Booking | None:
        if self._chosen is None:
            tell(self.app, "Put the cursor on a booking first; b makes one.", "warning")
        return self._chosen

    @work
    async def action_book(self) -> None:
        """Book somebody, beginning with the day and the row under the cursor."""
        row = self._board.chosen_row
        if self._card is None:
            return
        key = row.key if row else ""
        person, ref = ("", key) if self.by_job else (key, "")
        errand = self.errands.book(self._card, self._board.day, person, ref)
        self._done("Booked", await or_tell(self.app, errand, None))

    @work
    async def action_change(self) -> None:
        """Change the booking under the cursor; in an empty cell, book."""
        if self._board.carries:
            self.action_leave()
        elif self._card is not None and self._chosen is not None:
            errand = self.errands.change(self._card, self._chosen)
            self._done("Changed", await or_tell(self.app, errand, None))
        else:
            self.action_book()

    @work
    async def action_propose(self) -> None:
        """Show a plan for all open floors, and book what is taken up of it."""
        booked = await or_tell(self.app, self.errands.propose(), None)
        if booked is not None:
            self.ask_again()
            self._tell(say_taken_up(booked, self.desk.today(), self.desk.now(), self.errands.firm.zone))

    @work
    async def action_suppose(self) -> None:
        """Ask what would follow if something came otherwise; nothing is filed for asking."""
        booked = await or_tell(self.app, self.errands.suppose(), None)
        self.ask_again()
        if booked is not None:
            self._tell(say_taken_up(booked, self.desk.today(), self.desk.now(), self.errands.firm.zone))

    @work
    async def action_calendar(self) -> None:
        """Write a calendar file."""
        await or_tell(self.app, self.errands.write_calendar(), False)

    def action_carry(self) -> None:
        """Let the plain arrows move the booking under the cursor, until Enter or Esc."""
        if self._board.carries:
            self.action_leave()
        elif self._need() is not None:
            self._board.carries = True
            self._tell("The arrows move this booking now; Enter or Esc lets go of it.")

    @on(DiaryBoard.Carry)
    def _carry_on(self, event: DiaryBoard.Carry) -> None:
        event.stop()
        if event.days:
            self.action_move(event.days)
        else:
            self.action_give(event.rows)

    def action_move(self, steps: int) -> None:
        """Move the booking under the cursor by working days."""
        booking = self._need()
        if booking is not None:
            self._board.day += timedelta(days=steps)
            self._do("Moved", lambda: self.desk.diary.move(booking, steps))

    def action_give(self, steps: int) -> None:
        """Give the booking under the cursor to the person above or below."""
        booking = self._need()
        names = [one.name for one in self.desk.firm.people()]
        if booking is None or not names:
            return
        place = names.index(booking.person) if booking.person in names else -1
        name = names[(place + steps) % len(names)]
        self._do(f"Given to {clean(name)}", lambda: self.desk.diary.give(booking, name))

    def action_stretch(self, steps: int) -> None:
        """Make the booking under the cursor longer or shorter by a working day."""
        booking = self._need()
        if booking is not None:
            what = "Longer" if steps > 0 else "Shorter"
            self._do(what, lambda: self.desk.diary.stretch(booking, steps))

    def action_swap(self) -> None:
        """Choose the first of two bookings, then the second: their people change places."""
        booking = self._need()
        if booking is None:
            return
        others = {one.booking.id: one.booking for one in self._card.placed} if self._card else {}
        other = others.get(self._swapped or 0)
        if other is None or other.id == booking.id:
            self._swapped = booking.id
            self._tell(f"Now put the cursor on the booking to swap {clean(booking.person)} with, and press w.")
            return
        self._swapped = None
        self._do("Swapped", lambda: self.desk.diary.swap(other, booking))

    def action_cancel(self) -> None:
        """Cancel the booking under the cursor; u brings it back."""
        booking = self._need()
        if booking is not None:
            self._do("Cancelled, u brings it back", lambda: self.desk.diary.cancel(booking))

    def action_undo(self) -> None:
        """Turn back what was done last."""
        self._do("Turned back", self.desk.diary.undo)

    def action_today(self) -> None:
        """Go to today."""
        self._board.go_to(self.desk.today())

    def action_turn(self) -> None:
        """Show the jobs."""
        self.by_job = True

    def action_turn_back(self) -> None:
        """Show the people."""
        self.by_job = False

    def watch_by_job(self) -> None:
        booking = self._chosen
        self._show_rows()
        if booking is not None:
            self._board.find(booking.id, self._board.day)
        self.refresh_bindings()

    def action_filter(self) -> None:
        """Open the line to filter by."""
        self.add_class("-filtering")
        self.query_one(OneLine).focus()

    def action_leave(self) -> None:
        """Let go of what is being moved, or show all rows again."""
        self._tell("")
        self._board.carries, self._swapped = False, None
        self.remove_class("-filtering")
        self.query_one(OneLine).value = ""
        self._board.focus()

    @on(Input.Changed)
    def _filtered(self, event: Input.Changed) -> None:
        event.stop()
        self._show_rows()

    @on(Input.Submitted)
    def _to_the_board(self, event: Input.Submitted) -> None:
        event.stop()
        self._board.focus()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in {"turn", "turn_back"}:
            return self.by_job is (action == "turn_back")
        return True
