"""One line that counts the day: how many jobs can be laid, are to do, wait, cure, or are to be closed out."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from store.desk.cards import JobCard
from tui.words.today import PARTS, count_parts

_AROUND = 5
"""The cells a part takes beside its words: its sign, a space, and three before the next."""


class DayCount(Widget):
    """“● 2 can be laid  ▲ 5 to do  ◐ 2 waiting”; the signs are those of the list under it."""

    DEFAULT_CSS = """
    DayCount { height: 1; width: 1fr; padding: 0 1; color: $foreground; }
    DayCount .day-count--ok { color: $text-success; }
    DayCount .day-count--wait { color: $text-secondary; }
    DayCount .day-count--warn { color: $text-warning; }
    DayCount .day-count--accent { color: $text-accent; }
    DayCount .day-count--muted { color: $text-muted; }
    """
    COMPONENT_CLASSES = {f"day-count--{part.tone}" for part in PARTS.values()}  # noqa: RUF012 - Textual reads it from the class

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._cards: tuple[JobCard, ...] = ()

    def show(self, cards: Sequence[JobCard]) -> None:
        """Count these jobs."""
        self._cards = tuple(cards)
        self.display = bool(cards)
        self.refresh()

    @property
    def words(self) -> str:
        """What is shown."""
        return " · ".join(f"{number or 'none'} {part.counted}" for part, number in count_parts(self._cards))

    def render(self) -> Content:
        counts = count_parts(self._cards)
        whole = [f"{number or 'none'} {part.counted}" for part, number in counts]
        short = [f"{number or 'none'} {part.word.lower()}" for part, number in counts]
        fits = sum(cell_len(words) + _AROUND for words in whole) <= self.size.width + _AROUND
        shown: list[Content] = []
        for (part, _), words in zip(counts, whole if fits else short, strict=True):
            style = self.get_visual_style(f"day-count--{part.tone}", partial=True)
            shown.append(Content.assemble((f"{part.sign} ", style), words))
        return Content("   " if fits else "  ").join(shown)
