"""Two confirmations typed within a minute: the one filed last is what the supplier says now."""

from dataclasses import replace

from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.orders import lines_to_come
from tests.trade.conftest import OAK, an_order, when


def test_of_two_confirmations_of_one_minute_the_one_filed_last_holds() -> None:
    at = when("2026-11-11 09:00")
    four, eight = (
        ConfirmationDraft(at=at, lines=(ConfirmedLine(product=OAK.code, packs=packs, due_on=None),)) for packs in (4, 8)
    )
    assert [one.packs for one in lines_to_come(replace(an_order(12), confirmed=(four, eight)))] == [8]
    assert [one.packs for one in lines_to_come(replace(an_order(12), confirmed=(eight, four)))] == [4]
