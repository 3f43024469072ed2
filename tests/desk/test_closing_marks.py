"""The note of when a job closed keeps in step with its facts, whatever is filed or taken back afterwards."""

import random
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.errors import Refused
from store.trade.events import HandoverDraft, LayingDraft
from store.trade.products import Glue
from tests.desk.shop_floor import Hand, desk_at, history, in_order, marks
from tests.desk.test_every_deed import COUNT, NOTE, OPENING, ORDER, PARLOUR, READING, ROOM, SIGNED, SNAG, facts

# DONE was laid by Tue 24 Nov 15:00 in Brussels (14:00 UTC); its glue may be loaded after 72 h: Fri 27 Nov 14:00 UTC.
CURED = "2026-11-27T14:00:00.000000Z"
SIGNED_AT = "2026-12-01T09:00:00.000000Z"


@pytest.fixture
def closed(records: Path) -> Path:
    with desk_at(records) as desk:
        desk.closing.count("DONE", (COUNT,))
        desk.closing.sign("DONE", SIGNED)
    return records


def test_a_job_is_open_until_it_is_cured_signed_and_counted(records: Path) -> None:
    with desk_at(records) as desk:
        desk.closing.sign("DONE", SIGNED)
        assert marks(records) == {"FRESH": None, "LAYING": None, "DONE": None}
        desk.closing.count("DONE", (COUNT,))
        assert marks(records) == {"FRESH": None, "LAYING": None, "DONE": SIGNED_AT}
        assert {card.ref for card in desk.jobs.today()} == {"FRESH", "LAYING"}


def test_a_job_signed_while_it_cures_closes_when_it_has_cured(records: Path) -> None:
    early = datetime(2026, 11, 25, 9, tzinfo=UTC)
    hand = Hand()
    with desk_at(records, hand) as desk:
        hand.shows = early
        desk.closing.sign("DONE", HandoverDraft(signed_at=early, by="K. Harbour"))
        desk.closing.count("DONE", (replace(COUNT, at=early),))
        assert marks(records)["DONE"] == CURED
        assert "DONE" in {card.ref for card in desk.jobs.today()}
        hand.shows = datetime(2026, 11, 27, 14, tzinfo=UTC)
        assert "DONE" not in {card.ref for card in desk.jobs.today()}


@pytest.mark.parametrize("what", ["handover", "counts", "layings"])
def test_taking_back_what_closed_a_job_opens_it_again(closed: Path, what: str) -> None:
    with desk_at(closed) as desk:
        fact = getattr(facts(desk, "DONE"), what)
        desk.closing.take_back("DONE", fact if what == "handover" else fact[0], "slip")
        assert marks(closed)["DONE"] is None
        assert "DONE" in {card.ref for card in desk.jobs.today()}
        assert in_order(desk) == []


def test_a_room_added_to_a_closed_job_opens_it_again(closed: Path) -> None:
    with desk_at(closed) as desk:
        desk.jobs.add_room("DONE", PARLOUR)
        assert marks(closed)["DONE"] is None
        desk.jobs.remove_room("DONE", facts(desk, "DONE").room("Parlour"))
        assert marks(closed)["DONE"] == SIGNED_AT
        assert in_order(desk) == []


def test_a_glue_whose_hours_are_put_right_moves_every_closing_that_hung_on_it(closed: Path) -> None:
    with desk_at(closed) as desk:
        glue = next(one for one in desk.products.all() if isinstance(one, Glue))
        longer = desk.products.change(glue, replace(glue, full_load_hours=240))
        # 240 h from 24 Nov 14:00 UTC is 4 Dec 14:00 UTC: signed or not, the floor is curing again.
        assert marks(closed)["DONE"] == "2026-12-04T14:00:00.000000Z"
        assert "DONE" in {card.ref for card in desk.jobs.today()}
        assert in_order(desk) == []
        desk.products.change(longer, replace(longer, full_load_hours=72))
        assert marks(closed)["DONE"] == SIGNED_AT
        assert in_order(desk) == []


def test_whatever_is_done_in_any_order_the_marks_agree_with_the_facts(records: Path) -> None:
    for seed in range(3):
        dice = random.Random(seed)
        with desk_at(records) as desk:
            for _ in range(12):
                before = len(history(records))
                done = False
                with suppress(Refused):
                    dice.choice(MOVES)(desk, dice)
                    done = True
                assert len(history(records)) == before + done
                assert in_order(desk) == []


def _lay(desk: Desk, dice: random.Random) -> None:
    room = dice.choice(facts(desk, "DONE").rooms)
    begun = SIGNED.signed_at - timedelta(hours=dice.randrange(1, 90))
    share = dice.choice([room.net_mm2, room.net_mm2 // 2])
    draft = LayingDraft(room=room.name, begun_at=begun, ended_at=begun + timedelta(hours=1), area_mm2=share)
    desk.laying.start("DONE", draft)


def _take_back(desk: Desk, dice: random.Random) -> None:
    mine = facts(desk, "DONE")
    lines = [*mine.layings, *mine.counts, *mine.readings, *mine.deliveries, *mine.openings]
    desk.closing.take_back("DONE", dice.choice([*lines, mine.handover] if mine.handover else lines), "slip")


def _glue(desk: Desk, dice: random.Random) -> None:
    glue = next(one for one in desk.products.all() if isinstance(one, Glue))
    desk.products.change(glue, replace(glue, full_load_hours=dice.choice([24, 72, 500])))


def _room(desk: Desk, dice: random.Random) -> None:
    room = dice.choice(facts(desk, "DONE").rooms)
    desk.jobs.change_room("DONE", room, replace(room, cut_loss_percent=float(dice.randrange(20))))


MOVES = (
    _lay,
    _take_back,
    _take_back,
    _glue,
    _room,
    lambda desk, dice: desk.closing.count("DONE", (COUNT,)),
    lambda desk, dice: desk.closing.sign("DONE", SIGNED),
    lambda desk, dice: desk.jobs.add_room("DONE", PARLOUR),
    lambda desk, dice: desk.jobs.remove_room("DONE", facts(desk, "DONE").room("Parlour")) if _has(desk) else _no(),
    lambda desk, dice: desk.packs.order("DONE", ORDER),
    lambda desk, dice: desk.packs.open("DONE", OPENING),
    lambda desk, dice: desk.readings.take("DONE", READING),
    lambda desk, dice: desk.closing.add_snag("DONE", SNAG),
    lambda desk, dice: desk.closing.add_note("DONE", NOTE),
)


def _has(desk: Desk) -> bool:
    return any(room.name != ROOM for room in facts(desk, "DONE").rooms)


def _no() -> None:
    raise Refused("There is no such room.")
