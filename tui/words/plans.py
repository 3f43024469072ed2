"""Sentences for lay plans: what a room's plan opens, and what the packs needed by plan are made of."""

from store.trade.plans import Plan
from store.trade.verdict import Need
from tui.words.wording import clean, counted, figure, say_packs


def say_plan(plan: Plan) -> str:
    """Return one plan as a sentence: its rows, boards, and how good it is."""
    lay = plan.lay
    best = "no lay takes fewer" if lay.proved_best else f"no lay takes fewer than {lay.least_boards}"
    return (
        f"{clean(plan.room)}: {counted(lay.boards, 'board')} of {clean(plan.board)} in {counted(lay.rows, 'row')}, "
        f"{best}; cut loss {figure(lay.cut_loss_percent, 1)} %"
    )


def say_need(need: Need) -> str:
    """Return what the packs of one board are made of, where a plan has a say in it."""
    parts = [f"{counted(need.lay_boards, 'board')} by plan"]
    if need.cull_boards:
        parts.append(f"{need.cull_boards} in case some are not good")
    if need.pattern_boards:
        parts.append(f"{need.pattern_boards} for patterns and borders")
    if need.allowed_boards:
        parts.append(f"{need.allowed_boards} for rooms without a plan")
    if need.spare_packs:
        parts.append(f"{say_packs(need.spare_packs)} to spare")
    return f"{clean(need.product)}: {', '.join(parts)}: {say_packs(need.packs)} in all"
