"""The products view."""

from typing import ClassVar

from textual.app import ComposeResult

from tui.doors import ViewName
from tui.view import View
from tui.widgets.safe import Line


class ProductsScreen(View):
    """The products view."""

    NAME: ClassVar[ViewName | None] = ViewName.PRODUCTS

    def parts(self) -> ComposeResult:
        yield Line("products")

    def again(self) -> None:
        pass
