"""The app: the only part of the window that knows every screen."""

import asyncio
import os
import signal
from collections.abc import Awaitable, Callable, Iterable
from functools import partial
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import App, SystemCommand
from textual.binding import Binding, BindingType
from textual.dom import DOMNode
from textual.screen import Screen

from store.desk.desk import Desk
from store.errors import StoreError
from tui.crash import leave_note
from tui.doors import VIEW_WORDS, GoTo, OpenJob, ViewName
from tui.screens.firm import FirmScreen
from tui.screens.folder import FolderScreen
from tui.screens.jobs import JobsScreen
from tui.screens.products import ProductsScreen
from tui.screens.stock import StockScreen
from tui.screens.today import TodayScreen
from tui.telling import tell, tell_no
from tui.theme import DARK, LIGHT, THEMES, theme_for
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
    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(str(number), f"go_to('{view}')", VIEW_WORDS[view], show=False, id=f"app.{view}")
            for number, view in enumerate(ViewName, start=1)
        ),
        Binding("ctrl+t", "turn_theme", "Dark or light", show=False, id="app.theme"),
        Binding("q", "leave", "Quit", id="app.quit"),
    ]

    def __init__(self, desk: Desk, *, crash_folder: Path | None = None, note: str = "", greeting: str = "") -> None:
        super().__init__()
        self.sub_title = note
        self._greeting = greeting
        self.desk = desk
        self.crash_note: Path | None = None
        self._crash_folder = crash_folder
        self._seen_changes = desk.changes()
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = theme_for(os.environ.get("NO_COLOR"))
        for name, view in _VIEWS.items():
            self.add_mode(name.value, partial(view, desk))

    async def on_mount(self) -> None:
        self._end_on_signals()
        self.set_interval(_LOOK_EVERY_SECONDS, self._look_for_changes)
        self.set_interval(_TICK_EVERY_SECONDS, self._ask_again)
        await self.switch_mode(ViewName.TODAY.value)
        if self._greeting:
            tell(self, self._greeting, seconds=_SECONDS_TO_READ)

    def _end_on_signals(self) -> None:
        """Leave in good order, the terminal restored, when the window is closed or the machine shuts down."""
        loop = asyncio.get_running_loop()
        for number in (signal.SIGTERM, signal.SIGHUP):
            loop.add_signal_handler(number, self.exit, None, 128 + number)

    def _look_for_changes(self) -> None:
        changes = self.desk.changes()
        if changes != self._seen_changes:
            self._seen_changes = changes
            self._ask_again()

    def _ask_again(self) -> None:
        if isinstance(self.screen, View):
            try:
                self.screen.ask_again()
            except StoreError as error:
                tell_no(self, error)

    @on(GoTo)
    async def _go_to(self, door: GoTo) -> None:
        await self.switch_mode(door.view.value)

    @on(OpenJob)
    def _open_job(self, door: OpenJob) -> None:
        self.push_screen(FolderScreen(self.desk, door.ref))

    async def action_go_to(self, view: str) -> None:
        """Show one of the five views."""
        await self.switch_mode(view)

    def action_leave(self) -> None:
        """Leave; everything is saved already."""
        self.exit()

    def action_turn_theme(self) -> None:
        """Change between the dark and the light colours."""
        self.theme = LIGHT if self.theme == DARK else DARK
        tell(self, f"Colours: {self.theme}.")

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Offer everything that works here, and every view, by name."""
        for view in ViewName:
            yield SystemCommand(f"Go to {VIEW_WORDS[view]}", "One of the five views", self._goer(view))
        seen: set[str] = set()
        for active in screen.active_bindings.values():
            binding = active.binding
            if binding.description and active.enabled and binding.action not in seen:
                seen.add(binding.action)
                yield SystemCommand(binding.description, f"Key {binding.key}", self._doer(binding.action, active.node))
        yield SystemCommand("Dark or light colours", "Turn the theme", self.action_turn_theme)

    def _goer(self, view: ViewName) -> Callable[[], None]:
        def go() -> None:
            self.post_message(GoTo(view))

        return go

    def _doer(self, action: str, node: DOMNode) -> Callable[[], Awaitable[None]]:
        async def do() -> None:
            await self.run_action(action, node)

        return do

    def _fatal_error(self) -> None:
        """Leave a note instead of Textual's own account, which would print what is on file."""
        if self._exception is not None:
            self.crash_note = leave_note(self._exception, self._crash_folder)
        self._close_messages_no_wait()
