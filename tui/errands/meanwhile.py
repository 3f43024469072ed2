"""Notices that another window changed what a form is open on, and says so while all that was typed is still there."""

from collections.abc import Callable
from typing import Generic, TypeVar

from store.errors import Problem

Filed = TypeVar("Filed")
Facts = list[tuple[str, str]]


class Meanwhile(Generic[Filed]):
    """Something on file as it was last shown.

    Args:
        shown: what the form was opened with.
        ask: returns what is on file now.
        told: returns it as facts in words, to say what reads otherwise by now.
        what: what it is called: “OAK-190”, “The firm”.
    """

    def __init__(self, shown: Filed, *, ask: Callable[[], Filed], told: Callable[[Filed], Facts], what: str) -> None:
        self.latest = shown
        self._ask, self._told, self._what = ask, told, what

    def problems(self) -> tuple[Problem, ...]:
        """Take over what is on file now; return a problem if it is not what was shown, once for each change."""
        now = self._ask()
        if now == self.latest:
            return ()
        was = dict(self._told(self.latest))
        news = [f"{what}: {words}" for what, words in self._told(now) if was.get(what) != words]
        self.latest = now
        say = f"{self._what} was changed meanwhile; on file now: {'; '.join(news) or 'what is shown here'}."
        return (Problem(field="", say=f"{say} What you typed is still here: save again to keep it instead."),)
