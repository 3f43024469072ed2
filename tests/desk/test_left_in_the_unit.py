"""Packs that still lie in the unit for a job as it closes: they are free from then on, and never lost sight of."""

from datetime import timedelta
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.errors import Refused
from store.trade.events import (
    SHELF,
    UNIT,
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    PlaceKind,
    in_room,
)
from store.trade.stock_take import CountedLine, StockTake
from tests.desk.shop_floor import NOW, desk_at, in_order
from tests.desk.test_every_deed import COUNT, EARLIER, ROOM, SIGNED, facts

OAK = "OAK-190"
CAME = DeliveryDraft(at=EARLIER, into=UNIT, lines=(DeliveryLine(product=OAK, batch="K9", packs=4),))


def lying(desk: Desk) -> dict[tuple[PlaceKind, str], int]:
    """The packs of batch K9 by place and job."""
    return {(one.place, one.job_ref): one.packs for one in desk.packs.stock() if one.batch == "K9"}


@pytest.fixture
def shop(records: Path) -> Path:
    """The job DONE with four packs more that were put into the unit and never used."""
    with desk_at(records) as desk:
        desk.packs.take_in("DONE", CAME)
    return records


def close(desk: Desk) -> None:
    desk.closing.count("DONE", (COUNT,))
    desk.closing.sign("DONE", SIGNED)


def test_what_lay_in_the_unit_for_a_job_is_free_stock_once_it_is_closed(shop: Path) -> None:
    with desk_at(shop) as desk:
        assert lying(desk) == {(PlaceKind.UNIT, "DONE"): 4}
        close(desk)
        assert lying(desk) == {(PlaceKind.SHELF, ""): 4}
        assert in_order(desk) == []
        # It is offered, kept and carried as any free stock; and carried off for the closed job it stays where it was.
        desk.packs.carry("FRESH", MoveDraft(at=NOW, product=OAK, batch="K9", packs=3, source=SHELF, target=UNIT))
        assert lying(desk) == {(PlaceKind.SHELF, ""): 1, (PlaceKind.UNIT, "FRESH"): 3}
        assert in_order(desk) == []


def test_what_went_on_into_a_room_is_in_the_floor_and_not_free(shop: Path) -> None:
    with desk_at(shop) as desk:
        move = MoveDraft(at=EARLIER, product=OAK, batch="K9", packs=3, source=UNIT, target=in_room(ROOM))
        desk.packs.carry("DONE", move)
        close(desk)
        assert lying(desk) == {(PlaceKind.SHELF, ""): 1}


def test_what_a_stock_take_missed_before_the_job_closed_is_not_free(shop: Path) -> None:
    with desk_at(shop) as desk:
        line = CountedLine(product=OAK, batch="K9", job_ref="DONE", packs=3, boards=0, filed=24)
        desk.stock.book(StockTake(lines=(line,), why="lent"))
        close(desk)
        kept = {place: packs for place, packs in lying(desk).items() if place[0] is not PlaceKind.MISSING}
        assert kept == {(PlaceKind.SHELF, ""): 3}
        assert in_order(desk) == []


def test_a_note_can_be_taken_back_whatever_was_counted(shop: Path) -> None:
    """All packs opened and a full one counted back: no place is short, and nothing that was short gets shorter."""
    with desk_at(shop) as desk:
        desk.packs.carry(
            "DONE", MoveDraft(at=EARLIER, product=OAK, batch="K9", packs=4, source=UNIT, target=in_room(ROOM))
        )
        desk.packs.open(
            "DONE", OpeningDraft(at=EARLIER + timedelta(minutes=1), room=ROOM, product=OAK, batch="K9", packs=4)
        )
        back = CountDraft(
            at=EARLIER + timedelta(minutes=2), product=OAK, batch="K9", packs=1, boards=0, to=Destination.UNIT
        )
        desk.closing.count("DONE", (back,))
        note = desk.closing.add_note("DONE", NoteDraft(at=NOW, text="Key under the mat"))
        desk.closing.take_back("DONE", note, "the wrong job")
        assert facts(desk, "DONE").notes == ()
        # The packs that were opened cannot be as if they had never come.
        with pytest.raises(Refused, match="K9 would be less than nothing then"):
            desk.closing.take_back("DONE", facts(desk, "DONE").deliveries[-1], "typed twice")


def test_free_stock_that_was_kept_for_a_job_and_laid_is_not_free_again(shop: Path) -> None:
    with desk_at(shop) as desk:
        off = MoveDraft(at=EARLIER, product=OAK, batch="K9", packs=4, source=UNIT, target=SHELF)
        desk.packs.carry("DONE", off)
        desk.packs.carry("DONE", MoveDraft(at=NOW, product=OAK, batch="K9", packs=2, source=SHELF, target=UNIT))
        desk.packs.carry("DONE", MoveDraft(at=NOW, product=OAK, batch="K9", packs=2, source=UNIT, target=in_room(ROOM)))
        close(desk)
        assert lying(desk) == {(PlaceKind.SHELF, ""): 2}
        assert in_order(desk) == []
