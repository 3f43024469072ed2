"""A job's folder."""

from textual.app import ComposeResult

from store.desk.desk import Desk
from tui.view import View
from tui.widgets.safe import Line


class FolderScreen(View):
    """A job's folder."""

    def __init__(self, desk: Desk, ref: str) -> None:
        super().__init__(desk)
        self.ref = ref

    def parts(self) -> ComposeResult:
        yield Line(self.ref)

    def again(self) -> None:
        pass
