"""Which first pieces leave the rows to come a way on, where joints can hardly be kept apart."""

from store.errors import Refused
from store.trade.layout.place import Task

MOST_WORK = 2_000_000
MOST_TRIES = 3_000


def leading_on(task: Task) -> list[list[int]]:
    """Return for every run the first pieces that leave each neighbour in the next row one of its own.

    Method: from the last run back to the first (arc consistency, textbook constraint satisfaction). A set
    of first pieces is a whole number whose bit *f* stands for first piece *f*; a joint forbids a stretch of
    bits.

    Raises:
        Refused: a run has none left, so that no lay keeps these rules.
    """
    if len(task.runs) * task.length_mm > MOST_WORK:
        raise Refused(refusal(task))
    neighbours = task.neighbours()
    left: list[list[int]] = [[] for _ in task.runs]
    bits: list[int] = [0] * len(task.runs)
    for run in reversed(range(len(task.runs))):
        later = [other for other in neighbours[run] if other > run]
        left[run] = [
            first
            for first in task.firsts(run, 1)
            if all(bits[other] & ~_forbidden(task, task.joints(run, first), other) for other in later)
        ]
        if not left[run]:
            raise Refused(refusal(task))
        bits[run] = sum(1 << first for first in left[run])
    return left


def some_way(task: Task, choices: list[list[int]]) -> tuple[int, ...]:
    """Return first pieces that keep the joints apart, taken from the choices for each run.

    Run after run takes the first of its choices that suits the runs before it; where none does, the run
    before it takes its next one (chronological backtracking, textbook).

    Raises:
        Refused: there are none, or none was found in 3,000 tries.
    """
    neighbours = task.neighbours()
    firsts: list[int] = []
    untried = [list(choices[0])]
    for _ in range(MOST_TRIES):
        run = len(firsts)
        before = [(other, firsts[other]) for other in neighbours[run] if other < run]
        first = next(
            (
                untried[run].pop(at)
                for at in reversed(range(len(untried[run])))
                if all(task.apart(run, untried[run][at], other, there) for other, there in before)
            ),
            None,
        )
        if first is not None:
            firsts.append(first)
            if len(firsts) == len(task.runs):
                return tuple(firsts)
            untried.append(list(choices[len(firsts)]))
        elif firsts:
            firsts.pop()
            untried.pop()
        else:
            break
    raise Refused(refusal(task))


def refusal(task: Task) -> str:
    """Return the sentence that says no lay keeps the rules."""
    return (
        f"With boards {task.length_mm} mm long no lay keeps joints {task.stagger_mm} mm apart and pieces "
        f"{task.shortest_mm} mm long or more; allow less."
    )


def _forbidden(task: Task, joints: range, other: int) -> int:
    """Return the first pieces of another run whose joints would come nearer to these than the stagger."""
    left, length = task.runs[other].left_mm, task.runs[other].length_mm
    mask = 0
    for joint in joints:
        for whole in range(left, left + length, task.length_mm):
            lowest = max(1, joint - whole - task.stagger_mm + 1)
            highest = min(task.length_mm, left + length - whole - 1, joint - whole + task.stagger_mm - 1)
            if lowest <= highest:
                mask |= ((1 << (highest - lowest + 1)) - 1) << lowest
    return mask
