"""The stock view."""

from typing import ClassVar

from textual.app import ComposeResult

from tui.doors import ViewName
from tui.view import View
from tui.widgets.safe import Line


class StockScreen(View):
    """The stock view."""

    NAME: ClassVar[ViewName | None] = ViewName.STOCK

    def parts(self) -> ComposeResult:
        yield Line("stock")

    def again(self) -> None:
        pass
