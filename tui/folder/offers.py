"""Which deeds a folder's footer offers: the ones that can help in the present section and at the present stage."""

from store.trade.verdict import Stage
from tui.folder.page import Page
from tui.folder.sections import PARTS, Section

_ONCE_LAID = {"count", "sign"}
_ONCE_CLOSED = {"snag", "note", "take_back"}
_FOR_A_LINE = {"edit", "plan", "take_back", "over_time"}


def offered_in(section: Section, page: Page | None, *, has_lines: bool) -> tuple[str, ...]:
    """Return the actions to offer, the likeliest first; every other key works all the same."""
    if page is None:
        return ("help", "back")
    stage = page.card.standing.stage
    laid = stage.step >= Stage.CURE.step
    deeds = [
        action
        for action in PARTS[section].offers
        if (stage is not Stage.CLOSED or action in _ONCE_CLOSED)
        and (laid or action not in _ONCE_LAID)
        and (has_lines or action not in _FOR_A_LINE)
        and (action != "add_stairs" or not has_lines)
        and (action not in {"read", "plan"} or page.facts.rooms)
        and (action != "lay" or (page.facts.rooms and not laid))
        and (action != "sign" or page.facts.handover is None)
    ]
    first = ("do_next",) if page.next_deed is not None else ()
    return (*first, *deeds, *(("filter",) if has_lines else ()), "help", "back")
