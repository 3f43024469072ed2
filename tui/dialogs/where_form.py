"""The form for where a file is to be written."""

from collections.abc import Iterable
from pathlib import Path

from textual.widget import Widget

from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.widgets.fields import TextField
from tui.widgets.safe import Line


class WhereForm(Dialog[Path]):
    """Asks for a file's name; answers a path.

    Args:
        title: what is written: “Make a copy”.
        words: what it is good for, in a sentence.
        start: the name that is proposed.
        check: what the shop finds wrong with the name.
    """

    def __init__(self, title: str, *, words: str, start: Path, check: Check[Path]) -> None:
        super().__init__(title, check, save="Write it")
        self._words = words
        self._start = start
        self._target = TextField(
            "target", "Write to", str(start), hint="A name for a new file; another disk or a memory stick is safer."
        )

    def questions(self) -> Iterable[Widget]:
        yield Line(self._words)
        yield self._target

    def fill_in(self, slip: Slip) -> Path:
        typed = slip.read(self._target, read_text, str(self._start))
        if not typed:
            slip.wrong("target", f"Write a name, like {self._start.name}.")
            return self._start
        try:
            return Path(typed).expanduser()
        except RuntimeError:
            slip.wrong("target", f"There is no such home as in {typed}; write the whole name.")
            return self._start
