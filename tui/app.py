"""The app: the only part of the window that knows every screen."""

import os
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import App
from textual.binding import Binding, BindingType
from textual.command import Provider
from textual.worker import WorkerFailed

from store.desk.desk import Desk
from tui.crash import leave_note
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.dialog import Dialog
from tui.doors import VIEW_WORDS, GoTo, OpenJob, OpenLay, OpenTaught, ViewName
from tui.ending import end_on_signals
from tui.palette import ShopCommands
from tui.screens.diary import DiaryScreen
from tui.screens.firm import FirmScreen
from tui.screens.folder import FolderScreen
from tui.screens.jobs import JobsScreen
from tui.screens.lay import LayScreen
from tui.screens.products import ProductsScreen
from tui.screens.stock import StockScreen
from tui.screens.sums import SumsScreen
from tui.screens.taught import TaughtScreen
from tui.screens.today import TodayScreen
from tui.telling import or_none, tell
from tui.theme import DARK, LIGHT, THEMES, WITHOUT_COLOUR, theme_for
from tui.view import View

_LOOK_EVERY_SECONDS = 2.0
_TICK_EVERY_SECONDS = 30.0
_SECONDS_TO_READ = 20.0
_VIEWS: dict[ViewName, type[View]] = {
    ViewName.TODAY: TodayScreen,
    ViewName.JOBS: JobsScreen,
    ViewName.STOCK: StockScreen,
    ViewName.PRODUCTS: ProductsScreen,
    ViewName.FIRM: FirmScreen,
    ViewName.SUMS: SumsScreen,
    ViewName.DIARY: DiaryScreen,
}


class LaydayApp(App[None]):
    """The window onto one desk.

    Args:
        desk: where everything is asked and done.
        crash_folder: where a log is left if the window breaks.
        note: what every view says below its strip: that the firm is made up, and nothing is kept.
        greeting: what is said once, as the window opens.
    """

    CSS_PATH = "app.tcss"
    TITLE = "Layday"
    ENABLE_COMMAND_PALETTE = True
    COMMANDS: ClassVar[set[type[Provider] | Callable[[], type[Provider]]]] = {ShopCommands}
    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(str(number), f"go_to('{view}')", VIEW_WORDS[view], show=False, id=f"app.{view}")
            for number, view in enumerate(ViewName, start=1)
        ),
        Binding("ctrl+t", "turn_theme", "Dark or light", show=False, id="app.theme"),
        Binding("q", "quit", "Quit", id="app.quit", tooltip="Leave Layday; everything is saved already"),
        Binding("ctrl+q", "quit", "Quit", show=False, priority=True, id="app.quit_anywhere"),
    ]

    def __init__(self, desk: Desk, *, crash_folder: Path | None = None, note: str = "", greeting: str = "") -> None:
        without_colour = bool(os.environ.get("NO_COLOR"))
        if not without_colour:
            os.environ.pop("NO_COLOR", None)  # set but empty asks for nothing (no-color.org); Textual thinks it does
        super().__init__(ansi_color=without_colour or None)
        self.sub_title = note
        self._greeting = greeting
        self.desk = desk
        self.crash_note: Path | None = None
        self._crash_folder = crash_folder
        self._seen_changes: int | None = desk.changes()
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = theme_for(os.environ.get("NO_COLOR"))
        for name, view in _VIEWS.items():
            self.add_mode(name.value, partial(view, desk))

    async def on_mount(self) -> None:
        end_on_signals(lambda status: self.exit(None, status))
        self.set_interval(_LOOK_EVERY_SECONDS, self._look_for_changes)
        self.set_interval(_TICK_EVERY_SECONDS, self._ask_again)
        await self.switch_mode(ViewName.TODAY.value)
        if self._greeting:
            tell(self, self._greeting, seconds=_SECONDS_TO_READ)

    def _look_for_changes(self) -> None:
        """Show what another window has saved; also try again while what is shown is not up to date."""
        if not self.screen_stack:  # the window is closing
            return
        changes = or_none(self.desk.changes)
        is_old = isinstance(self.screen, View) and self.screen.is_old
        if is_old or changes is None or changes != self._seen_changes:
            self._seen_changes = changes
            self._ask_again()

    def _ask_again(self) -> None:
        if self.screen_stack and isinstance(self.screen, View):
            self.screen.ask_again()

    @on(GoTo)
    async def _go_to(self, door: GoTo) -> None:
        await self.action_go_to(door.view.value)

    @on(OpenJob)
    def _open_job(self, door: OpenJob) -> None:
        self.push_screen(FolderScreen(self.desk, door.ref))

    @on(OpenLay)
    def _open_lay(self, door: OpenLay) -> None:
        self.push_screen(LayScreen(self.desk, door.ref, door.room))

    @on(OpenTaught)
    def _open_taught(self) -> None:
        self.push_screen(TaughtScreen(self.desk))

    async def action_go_to(self, view: str) -> None:
        """Show one of the seven views; a job's folder on top of it is put away."""
        if isinstance(self.screen, View):
            while len(self.screen_stack) > 1 and isinstance(self.screen, View):
                await self.pop_screen()
            await self.switch_mode(view)

    async def action_quit(self) -> None:
        """Leave; ask first if something was typed and is not saved."""
        typed = [one for one in self.screen_stack if isinstance(one, Dialog) and one.is_changed]
        if not typed:
            self.exit()
        elif not isinstance(self.screen, AskYesNo):
            ask = AskYesNo("Leave, and throw away what you typed?", yes="Leave", no="Keep typing")
            self.push_screen(ask, self._leave_if)

    def _leave_if(self, sure: bool | None) -> None:
        if sure:
            self.exit()

    def action_turn_theme(self) -> None:
        """Change between the dark and the light colours."""
        if self.theme == WITHOUT_COLOUR:
            tell(self, "NO_COLOR is set, so the terminal's own colours stay.")
            return
        self.theme = LIGHT if self.theme == DARK else DARK
        tell(self, f"Colours: {self.theme}.")

    def _fatal_error(self) -> None:
        """Leave a note instead of Textual's own account, which would print what is on file."""
        if self._exception is not None:
            error = self._exception.error if isinstance(self._exception, WorkerFailed) else self._exception
            self.crash_note = leave_note(error, self._crash_folder)
        self._close_messages_no_wait()
