"""The jobs view."""

from typing import ClassVar

from textual.app import ComposeResult

from tui.doors import ViewName
from tui.view import View
from tui.widgets.safe import Line


class JobsScreen(View):
    """The jobs view."""

    NAME: ClassVar[ViewName | None] = ViewName.JOBS

    def parts(self) -> ComposeResult:
        yield Line("jobs")

    def again(self) -> None:
        pass
