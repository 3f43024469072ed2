"""The firm view."""

from typing import ClassVar

from textual.app import ComposeResult

from tui.doors import ViewName
from tui.view import View
from tui.widgets.safe import Line


class FirmScreen(View):
    """The firm view."""

    NAME: ClassVar[ViewName | None] = ViewName.FIRM

    def parts(self) -> ComposeResult:
        yield Line("firm")

    def again(self) -> None:
        pass
