"""The form for the file of a data logger, and the room it stood in."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from textual.widget import Widget

from tui.dialogs.dialog import Dialog, nothing_to_say
from tui.dialogs.parts import room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.widgets.choices import SelectField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggerChoice:
    """A data logger's file, and the room in which it stood."""

    path: Path
    room: str


class LoggerForm(Dialog[LoggerChoice]):
    """Asks for a data logger's file and its room; answers a ``LoggerChoice``.

    Args:
        rooms: the names of the job's rooms, at least one.
        room: the one to begin with.
    """

    def __init__(self, *, rooms: Sequence[str], room: str) -> None:
        super().__init__("Take in a data logger's file", nothing_to_say, save="Look through")
        self._file_name = TextField("file", "File", hint="A CSV file with date, time, temperature and humidity.")
        self._room = SelectField("room", "Room", room_options(rooms), room, hint="Where the logger stood.")

    def questions(self) -> Iterable[Widget]:
        yield Line("Each line becomes a reading of the air. Nothing is filed before you have seen what was read.")
        yield self._file_name
        yield self._room

    def fill_in(self, slip: Slip) -> LoggerChoice:
        typed = slip.read(self._file_name, read_text, "")
        if not typed:
            slip.wrong("file", "Write the file's name.")
        try:
            return LoggerChoice(path=Path(typed).expanduser(), room=self._room.raw)
        except RuntimeError:
            slip.wrong("file", f"There is no such home as in {typed}; write the whole name.")
            return LoggerChoice(path=Path(), room=self._room.raw)
