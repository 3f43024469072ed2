"""Tells people when the shop says no: a sentence in a toast, never as markup."""

from collections.abc import Awaitable, Callable, Iterable
from typing import Literal, TypeVar

from textual.app import App

from store.errors import ChangedMeanwhile, DraftRefused, Problem, StoreError
from tui.words.wording import clean

Result = TypeVar("Result")
Answer = TypeVar("Answer")
CHANGED_MEANWHILE = (
    "Another window has changed this meanwhile. Save again to put yours in its place, or leave with Esc and look first."
)
Tone = Literal["information", "warning", "error"]


def tell(app: App[Result], text: str, tone: Tone = "information", seconds: float | None = None) -> None:
    """Show a sentence in a toast, exactly as it is written."""
    app.notify(clean(text, many_lines=True), severity=tone, timeout=seconds, markup=False)


def tell_no(app: App[Result], error: StoreError) -> None:
    """Show why the shop said no; longer sentences stay longer."""
    say = sentence_of(error)
    tell(app, say, "error", seconds=max(6.0, len(say) / 12))


def filed(deed: Callable[[], object], *, if_changed: Callable[[], object] | None = None) -> tuple[Problem, ...]:
    """Do a deed, and return what the shop said against it, to be shown in the form it came from.

    Args:
        deed: files what was typed.
        if_changed: looks again at what is on file, where somebody else has changed it meanwhile; saving once more
            then puts what was typed in its place.
    """
    try:
        deed()
    except DraftRefused as error:
        return error.problems
    except ChangedMeanwhile as error:
        if if_changed is None:
            return (Problem(field="", say=str(error)),)
        return filed(if_changed) or (Problem(field="", say=CHANGED_MEANWHILE),)
    except StoreError as error:
        return (Problem(field="", say=str(error)),)
    return ()


async def or_tell(app: App[Result], work: Awaitable[Answer], otherwise: Answer) -> Answer:
    """Return what the work answers; where the shop says no, tell why and return ``otherwise``."""
    try:
        return await work
    except StoreError as error:
        tell_no(app, error)
        return otherwise


def sentence_of(error: StoreError) -> str:
    """Return what the shop said, each problem of a draft on a line of its own."""
    if isinstance(error, DraftRefused):
        return list_of(error.problems)
    return str(error)


def list_of(problems: Iterable[Problem]) -> str:
    """Return the sentences of several problems, each once, on lines of their own."""
    return "\n".join(dict.fromkeys(problem.say for problem in problems))


def or_none(question: Callable[[], Result]) -> Result | None:
    """Return what the shop answers; None where it says no, which the next thing shown will tell."""
    try:
        return question()
    except StoreError:
        return None


def refusal_of(question: Callable[[], object]) -> StoreError | None:
    """Ask something, and return how the shop said no, if it did."""
    try:
        question()
    except StoreError as error:
        return error
    return None
