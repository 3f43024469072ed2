"""Tells people when the shop says no: a sentence in a toast, never as markup."""

from collections.abc import Iterable
from typing import Literal, TypeVar

from textual.app import App

from store.errors import DraftRefused, Problem, StoreError
from tui.wording import clean

Result = TypeVar("Result")
Tone = Literal["information", "warning", "error"]


def tell(app: App[Result], text: str, tone: Tone = "information", seconds: float | None = None) -> None:
    """Show a sentence in a toast, exactly as it is written."""
    app.notify(clean(text, many_lines=True), severity=tone, timeout=seconds, markup=False)


def tell_no(app: App[Result], error: StoreError) -> None:
    """Show why the shop said no; longer sentences stay longer."""
    say = sentence_of(error)
    tell(app, say, "error", seconds=max(6.0, len(say) / 12))


def sentence_of(error: StoreError) -> str:
    """Return what the shop said, each problem of a draft on a line of its own."""
    if isinstance(error, DraftRefused):
        return list_of(error.problems)
    return str(error)


def list_of(problems: Iterable[Problem]) -> str:
    """Return the sentences of several problems, each once, on lines of their own."""
    return "\n".join(dict.fromkeys(problem.say for problem in problems))
