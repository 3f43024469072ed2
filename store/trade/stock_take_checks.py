"""What is wrong with a stock-take, given what the file says by now."""

from collections.abc import Iterator, Mapping

from store.errors import Problem
from store.trade.checks import MOST_PACKS
from store.trade.stock_take import CountedLine, DifferenceDraft, StockTake


def problems_with_stock_take(
    take: StockTake, on_file: Mapping[tuple[str, str, str], int], per_pack: Mapping[str, int]
) -> tuple[Problem, ...]:
    """Return what is wrong with a stock-take.

    Args:
        take: what was counted.
        on_file: what the file says now of each product, batch and job, in single boards (tubs).
        per_pack: the boards in a pack of each product on file, 1 for a glue.
    """
    return tuple(_problems(take, on_file, per_pack))


def _problems(
    take: StockTake, on_file: Mapping[tuple[str, str, str], int], per_pack: Mapping[str, int]
) -> Iterator[Problem]:
    if not take.lines:
        yield Problem(field="lines", say="Count at least one line; write 0 where nothing lies.")
    seen: set[tuple[str, str, str]] = set()
    for index, line in enumerate(take.lines):
        yield from _line_problems(f"lines.{index}", line, per_pack)
        if line.where in seen:
            yield Problem(field=f"lines.{index}.batch", say="This batch stands in another line; count it once.")
        elif line.filed != on_file.get(line.where, 0):
            say = "The file has changed since this line was shown; leave the form and count it again."
            yield Problem(field=f"lines.{index}.packs", say=say)
        seen.add(line.where)
    differs = any(one.packs * per_pack.get(one.product, 1) + one.boards != one.filed for one in take.lines)
    if differs and not take.why.strip():
        yield Problem(field="why", say="Say why the unit and the file differ, as far as you know.")


def _line_problems(place: str, line: CountedLine, per_pack: Mapping[str, int]) -> Iterator[Problem]:
    if line.product not in per_pack:
        yield Problem(field=f"{place}.product", say=f"There is no product “{line.product}” on file.")
    if not 0 <= line.packs <= MOST_PACKS:
        yield Problem(field=f"{place}.packs", say=f"A count is a whole number from 0 to {MOST_PACKS:,}.")
    elif not 0 <= line.boards <= MOST_PACKS:
        yield Problem(field=f"{place}.boards", say=f"Loose boards are a whole number from 0 to {MOST_PACKS:,}.")
    elif line.boards and (line.job_ref or per_pack.get(line.product) == 1):
        say = "Loose boards are kept as free stock only; count full packs here."
        yield Problem(field=f"{place}.boards", say=say)


def problems_with_difference(draft: DifferenceDraft, *, of_job: bool) -> tuple[Problem, ...]:
    """Return what is wrong with a difference that comes from outside."""
    if not 0 <= draft.packs <= MOST_PACKS:
        return (Problem(field="packs", say=f"packs are a whole number from 0 to {MOST_PACKS:,}."),)
    if not 0 <= draft.boards <= MOST_PACKS:
        return (Problem(field="boards", say=f"boards are a whole number from 0 to {MOST_PACKS:,}."),)
    if not draft.packs and not draft.boards:
        return (Problem(field="packs", say="nothing found and nothing missing is no difference."),)
    if of_job and draft.boards:
        return (Problem(field="boards", say="only full packs are kept for a job in the unit."),)
    return () if draft.why.strip() else (Problem(field="why", say="a difference has a reason."),)
