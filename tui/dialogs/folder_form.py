"""The form for the folder that files are to be written into."""

from collections.abc import Iterable
from pathlib import Path

from textual.widget import Widget

from store.errors import Problem
from tui.dialogs.dialog import Dialog
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.wording import clean


class FolderForm(Dialog[Path]):
    """Asks for a folder that is there; answers its path.

    Args:
        title: what is written.
        words: the names of the files, in a sentence.
        start: the folder that is proposed.
    """

    def __init__(self, title: str, *, words: str, start: Path) -> None:
        super().__init__(title, _problems, save="Write them")
        self._words, self._start = words, start
        self._target = TextField("target", "Into folder", str(start), hint="A folder that is there already.")

    def questions(self) -> Iterable[Widget]:
        yield Line(self._words)
        yield self._target

    def fill_in(self, slip: Slip) -> Path:
        typed = slip.read(self._target, read_text, str(self._start))
        try:
            return Path(typed or ".").expanduser()
        except RuntimeError:
            slip.wrong("target", f"There is no such home as in {typed}; write the whole name.")
            return self._start


def _problems(folder: Path) -> tuple[Problem, ...]:
    try:
        is_there = folder.is_dir()
    except (OSError, ValueError):
        is_there = False
    say = f"{clean(str(folder))[:200]} is no folder; write one that is there."
    return () if is_there else (Problem(field="target", say=say),)
