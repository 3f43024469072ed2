"""Counts the work of one answer, so that a list that is hard ends at the same place on every machine."""

from dataclasses import dataclass


@dataclass(slots=True)
class Steps:
    """Steps that may still be taken; a step is about a microsecond on the machine of DEVELOPERS.md's figures.

    >>> steps = Steps(10)
    >>> part = steps.part(4)
    >>> part.take(4)
    >>> part.are_out, steps.left
    (True, 6)
    """

    left: int
    whole: "Steps | None" = None

    @property
    def are_out(self) -> bool:
        """Is nothing left, here or of the whole this is a part of?"""
        return self.left <= 0 or (self.whole is not None and self.whole.are_out)

    def take(self, steps: int) -> None:
        """Count steps as taken, here and of the whole."""
        self.left -= steps
        if self.whole is not None:
            self.whole.take(steps)

    def part(self, most: int) -> "Steps":
        """Return so many of these steps, at most, to be taken by one stage."""
        return Steps(min(most, self.left), self)
