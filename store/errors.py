"""Every way the shop can say no, each as a sentence a fitter can read."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong with what was typed: the field it belongs beside, and the sentence to show there."""

    field: str
    say: str


class StoreError(Exception):
    """The shop says no; ``str(error)`` is the sentence shown, and nothing was changed."""

    exit_status = 1


class Refused(StoreError):
    """A deed or a sum that the rules do not allow."""


class DraftRefused(Refused):
    """A draft with problems; each belongs beside a field of the form it came from."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(" ".join(problem.say for problem in problems))
        self.problems = problems


class ChangedMeanwhile(Refused):
    """Somebody else changed the same thing since it was shown here."""


class NoStore(StoreError):
    """There are no records where they were looked for."""

    exit_status = 10


class StoreLocked(StoreError):
    """Another window is writing and did not finish in time."""

    exit_status = 11


class MadeByNewer(StoreError):
    """The records were written by a newer release than this one."""

    exit_status = 12


class StoreDamaged(StoreError):
    """The file is not ours, cut short, or does not say what it said."""

    exit_status = 13


class DiskFull(StoreError):
    """There is no room left to write."""

    exit_status = 14
