"""The today view."""

from typing import ClassVar

from textual.app import ComposeResult

from tui.doors import ViewName
from tui.view import View
from tui.widgets.safe import Line


class TodayScreen(View):
    """The today view."""

    NAME: ClassVar[ViewName | None] = ViewName.TODAY

    def parts(self) -> ComposeResult:
        yield Line("today")

    def again(self) -> None:
        pass
