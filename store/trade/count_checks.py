"""What is wrong with a count of leftovers: more than there was, or what no supplier takes back."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime

from store.errors import Problem
from store.trade.checks import MOST_PACKS, Problems, batch_word, future, so_many
from store.trade.events import CountDraft, Destination
from store.trade.facts import JobFacts
from store.trade.on_hand import counts_leave_short, spare_boards, unopened_in_room
from store.trade.products import Board


def problems_with_counts(drafts: tuple[CountDraft, ...], facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a count of leftovers, its lines together; fields are ``lines.N.what``."""
    found = tuple(_count_problems(drafts, facts, now))
    if not found and counts_leave_short(facts, drafts):
        say = "Packs were opened or carried off after that moment which would be missing then; count as of a later one."
        found = (Problem(field="lines.0.packs", say=say),)
    return found


def problems_with_loose_boards(draft: CountDraft, *, of_board: bool) -> Problems:
    """Return what is wrong with the loose ``boards`` of a count: only boards have any, a tub is counted whole."""
    if of_board or not draft.boards:
        return ()
    return (Problem(field="boards", say=f"Only boards are counted loose; count {draft.product} whole, as packs."),)


def _count_problems(drafts: tuple[CountDraft, ...], facts: JobFacts, now: datetime) -> Iterator[Problem]:
    if not drafts:
        yield Problem(field="lines", say="Count at least one batch, even if nothing of it is left.")
    taken: dict[tuple[str, str], int] = {}
    for index, draft in enumerate(drafts):
        yield from future(f"lines.{index}.at", draft.at, now)
        product = facts.products.get(draft.product)
        if product is None:
            say = f"There is no product “{draft.product}” in this job."
            yield Problem(field=f"lines.{index}.product", say=say)
            continue
        per_pack = product.boards_per_pack if isinstance(product, Board) else 1
        if not 0 <= draft.packs <= MOST_PACKS or not 0 <= draft.boards <= MOST_PACKS:
            say = f"Packs and boards are whole numbers from 0 to {MOST_PACKS:,}."
            yield Problem(field=f"lines.{index}.packs", say=say)
            continue
        loose_ones = problems_with_loose_boards(draft, of_board=isinstance(product, Board))
        if loose_ones:
            yield from (replace(one, field=f"lines.{index}.{one.field}") for one in loose_ones)
            continue
        key = (draft.product, draft.batch)
        taken[key] = taken.get(key, 0) + draft.packs * per_pack + draft.boards
        there = max(0, spare_boards(facts, draft.product, draft.batch, draft.at))
        if taken[key] > there:
            full, loose = divmod(there, per_pack)
            loose_too = f" and {so_many(loose, 'board')}" if loose else ""
            say = f"{batch_word(*key)}: {so_many(full, 'pack')}{loose_too} on site then, and no more to count."
            yield Problem(field=f"lines.{index}.packs", say=say)
    yield from _return_problems(drafts, facts)


def _return_problems(drafts: tuple[CountDraft, ...], facts: JobFacts) -> Iterator[Problem]:
    """Suppliers take back whole packs, closed and dry: published return policies agree on that."""
    back: dict[tuple[str, str], int] = {}
    for index, draft in enumerate(drafts):
        if draft.to is not Destination.RETURN or draft.product not in facts.products:
            continue
        if draft.boards and isinstance(facts.products[draft.product], Board):
            say = "Suppliers take back whole packs only; loose boards go to the unit, the customer, or are thrown away."
            yield Problem(field=f"lines.{index}.boards", say=say)
        key = (draft.product, draft.batch)
        back[key] = back.get(key, 0) + draft.packs
        opened = sum(one.packs for one in facts.openings if (one.product, one.batch) == key)
        if not opened:
            continue  # nobody wrote down what was opened
        closed = max(0, sum(unopened_in_room(facts, room.name, *key) for room in facts.rooms))
        if back[key] > closed:
            whole = f"{so_many(closed, 'pack')} of {batch_word(*key)} {'is' if closed == 1 else 'are'} unopened"
            say = f"{whole[0].upper()}{whole[1:]}; opened ones are not taken back."
            yield Problem(field=f"lines.{index}.packs", say=say)
