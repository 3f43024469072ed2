"""Several lines of words, each with a tone beside its sign: good, waiting, to do, not good."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from textual.content import Content
from textual.widgets import Static

from tui.words.wording import clean


class Tone(StrEnum):
    """What a line is about; the colour only underlines what its sign and words say."""

    PLAIN = ""
    HEAD = "bold $text-accent"
    MUTED = "$text-muted"
    OK = "$text-success"
    WAIT = "$text-secondary"
    WARN = "$text-warning"
    BAD = "$text-error"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One line: its words, and their tone."""

    words: str
    tone: Tone = Tone.PLAIN


class SignedLines(Static):
    """Lines below each other, shown exactly as they are."""

    def __init__(self, lines: Sequence[Said] = (), *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(_content(lines), id=id, classes=classes, markup=False)
        self.lines = tuple(lines)

    def show(self, lines: Sequence[Said]) -> None:
        """Show other lines; none at all takes no room."""
        self.lines = tuple(lines)
        self.display = bool(lines)
        self.update(_content(lines))


def _content(lines: Sequence[Said]) -> Content:
    return Content("\n").join(Content.styled(clean(one.words), one.tone.value) for one in lines)
