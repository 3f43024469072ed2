"""Says what another window changed while a form was open, so that saving once more is a choice, not a surprise."""

from collections.abc import Callable
from typing import Generic, TypeVar

from store.errors import ChangedMeanwhile
from tui.errands.subject import Shown

Fact = TypeVar("Fact")


class Meanwhile(Shown[Fact], Generic[Fact]):
    """The fact that a form was filled from, which can look at itself again.

    Args:
        fact: what the form was opened with.
        ask: returns what is on file now.
        told: returns it as facts in words, to say what reads otherwise by now.
        what: what it is called: “OAK-190”, “The firm”.
    """

    def __init__(
        self, fact: Fact, *, ask: Callable[[], Fact], told: Callable[[Fact], list[tuple[str, str]]], what: str
    ) -> None:
        super().__init__(fact)
        self._ask, self._told, self._what = ask, told, what

    def look_again(self) -> None:
        """Take the fact as it says now.

        Raises:
            ChangedMeanwhile: always; it says what reads otherwise than it was shown.
        """
        was, now = dict(self._told(self.fact)), self._ask()
        news = "; ".join(f"{what}: {words}" for what, words in self._told(now) if was.get(what) != words)
        self.see(now)
        raise ChangedMeanwhile(
            f"{self._what} was changed in another window{f' (on file now: {news})' if news else ''}. "
            "Save again to put yours in its place."
        )
