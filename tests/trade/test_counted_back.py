"""What goes back to a supplier is whole and unopened: published return policies agree on that."""

import pytest

from store.trade.count_checks import problems_with_counts
from store.trade.events import CountDraft, Destination
from tests.trade.conftest import OAK, a_count, a_delivery, a_job, an_opening, an_order, when

NOW = when("2026-12-02 08:00")
CAME = (an_order(), a_delivery("2026-11-17 09:30", packs=12))


def back(packs: int, boards: int = 0, *, to: str = "return") -> CountDraft:
    return CountDraft(
        at=when("2026-12-01 09:00"), product=OAK.code, batch="K41", packs=packs, boards=boards, to=Destination(to)
    )


def said(*drafts: CountDraft, events: tuple[object, ...] = ()) -> list[tuple[str, str]]:
    return [(one.field, one.say) for one in problems_with_counts(drafts, a_job(*CAME, *events), NOW)]


def test_loose_boards_do_not_go_back() -> None:
    ((field, say),) = said(back(1, 3))
    assert field == "lines.0.boards"
    assert say.startswith("Suppliers take back whole packs only")
    assert said(back(1, 3, to="unit")) == []


def test_opened_packs_do_not_go_back() -> None:
    opened = (an_opening("2026-11-25 08:00", 10),)
    assert said(back(2), events=opened) == []
    assert said(back(3), events=opened) == [
        ("lines.0.packs", "2 packs of OAK-190, batch K41 are unopened; opened ones are not taken back.")
    ]
    assert said(back(3, to="customer"), events=opened) == []


def test_two_lines_of_one_batch_are_counted_together_and_what_was_counted_before_is_gone() -> None:
    opened = (an_opening("2026-11-25 08:00", 10),)
    assert [field for field, _ in said(back(1), back(2), events=opened)] == ["lines.1.packs"]
    gone = (*opened, a_count("2026-11-30 09:00", 1))
    assert [field for field, _ in said(back(2), events=gone)] == ["lines.0.packs"]


@pytest.mark.parametrize("packs", [1, 12])
def test_where_nobody_wrote_down_what_was_opened_nothing_is_known_against_it(packs: int) -> None:
    assert said(back(packs)) == []
