"""Free stock kept before an order, what suppliers confirm, and credits followed until they come."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from store.errors import DraftRefused, Refused
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft, CreditFor
from store.trade.events import (
    SHELF,
    UNIT,
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    OrderDraft,
    OrderLine,
    PlaceKind,
)
from store.trade.from_stock import FreeLot
from store.trade.products import Board
from store.trade.stock_take import StockTake
from tests.desk.shop_floor import NOW, desk_at, dump
from tests.desk.test_every_deed import EARLIER, MOVE, SIGNED, counted, facts
from tests.tui.somebodys_folder import run

FIVE_OAK = (OrderLine(product="OAK-190", packs=5),)


def with_free(desk, packs: int, batch: str) -> None:  # type: ignore[no-untyped-def]
    desk.stock.book(StockTake(lines=(counted("", packs, 0, batch),), why="behind the door"))


def test_free_packs_of_the_jobs_own_batch_are_offered_and_no_other(records: Path) -> None:
    with desk_at(records) as desk:
        with_free(desk, 2, "K41")
        with_free(desk, 9, "K9")
        # FRESH has packs of K41 already.
        assert desk.orders.free_for("FRESH", FIVE_OAK) == (FreeLot(product="OAK-190", batch="K41", packs=2),)


def test_what_is_kept_lies_in_the_unit_for_the_job_and_is_free_no_longer(records: Path) -> None:
    with desk_at(records) as desk:
        with_free(desk, 3, "K41")
        before = desk.jobs.card("FRESH").standing.packs[0].in_unit
        desk.orders.keep("FRESH", desk.orders.free_for("FRESH", FIVE_OAK))
        assert desk.jobs.card("FRESH").standing.packs[0].in_unit == before + 3
        assert desk.packs.on_shelf("OAK-190") == {}
        # Nobody else is offered it.
        assert desk.orders.free_for("DONE", FIVE_OAK) == ()


def test_free_stock_that_somebody_took_meanwhile_is_not_kept_in_part(records: Path) -> None:
    with desk_at(records) as desk:
        with_free(desk, 3, "K41")
        with_free(desk, 1, "K42")
        lots = (FreeLot(product="OAK-190", batch="K42", packs=1), FreeLot(product="OAK-190", batch="K41", packs=4))
        said = dump(records)
        with pytest.raises(DraftRefused):
            desk.orders.keep("FRESH", lots)
        assert dump(records) == said


def test_a_confirmed_day_is_the_one_the_job_waits_for_and_an_order_put_off_again_keeps_its_paper(records: Path) -> None:
    with desk_at(records) as desk:
        desk.packs.order("FRESH", OrderDraft(on=NOW.date(), due_on=None, lines=FIVE_OAK))
        order = facts(desk, "FRESH").orders[2]
        line = ConfirmedLine(product="OAK-190", packs=5, due_on=date(2026, 12, 8), price_minor=17_000)
        desk.orders.confirm("FRESH", order, ConfirmationDraft(at=EARLIER, lines=(line,), number="C-7"))
        order = facts(desk, "FRESH").orders[2]
        desk.packs.postpone("FRESH", order, date(2026, 12, 15), "The kiln broke")
        again = facts(desk, "FRESH").orders[2]
        assert again.id == order.id
        assert [len(one.lines) for one in again.confirmed] == [1, 1]
        (told,) = again.confirmed[-1].lines
        assert (told.due_on, told.price_minor, again.confirmed[-1].number) == (date(2026, 12, 15), 17_000, "C-7")
        assert facts(desk, "FRESH").notes[-1].text == "The kiln broke"


def test_nothing_is_put_off_that_has_come(records: Path) -> None:
    with desk_at(records) as desk:
        line = ConfirmedLine(product="OAK-190", packs=12, due_on=date(2026, 12, 8))
        desk.orders.confirm("FRESH", facts(desk, "FRESH").orders[0], ConfirmationDraft(at=EARLIER, lines=(line,)))
        said = dump(records)
        with pytest.raises(Refused, match="Nothing of that order"):
            desk.packs.postpone("FRESH", facts(desk, "FRESH").orders[0], date(2026, 12, 15))
    assert dump(records) == said


def test_the_command_line_says_of_which_order_none_comes_and_calls_it_no_other_thing(records: Path) -> None:
    with desk_at(records) as desk:
        desk.packs.order("DONE", OrderDraft(on=NOW.date(), due_on=None, lines=FIVE_OAK))
        *_, order = facts(desk, "DONE").orders
        line = ConfirmedLine(product="OAK-190", packs=0, due_on=None)
        desk.orders.confirm("DONE", order, ConfirmationDraft(at=NOW, lines=(line,)))
    moment = ("--file", records, "--at", "2026-12-01T11:00:00+01:00")
    first, last = run("job", "DONE", "--json", *moment).answer["orders"]
    assert (first["state"], first["never_sent"]) == ("all_come", [])
    assert (last["state"], last["never_sent"], last["owed"]) == (
        "none_comes",
        [{"product": "OAK-190", "packs": 5}],
        [],
    )
    said = run("job", "DONE", *moment).said
    assert "5 packs of OAK-190, ▲ none comes" in said
    assert said.count("all came") == 1


def test_what_was_confirmed_later_is_not_known_at_an_earlier_moment(records: Path) -> None:
    with desk_at(records) as desk:
        order = facts(desk, "FRESH").orders[0]
        line = ConfirmedLine(product="OAK-190", packs=12, due_on=date(2026, 12, 8))
        desk.orders.confirm("FRESH", order, ConfirmationDraft(at=EARLIER, lines=(line,)))
        desk.look_at(EARLIER - timedelta(hours=1))
        assert desk.jobs.card("FRESH").facts.orders[0].confirmed == ()


def test_a_closed_jobs_credit_is_followed_until_it_has_come(records: Path) -> None:
    back = CountDraft(at=EARLIER, product="OAK-190", batch="K41", packs=2, boards=0, to=Destination.RETURN)
    with desk_at(records) as desk:
        assert desk.orders.credits_due() == ()
        desk.closing.count("DONE", (back,))
        desk.closing.sign("DONE", SIGNED)
        (due,) = desk.orders.credits_due()
        assert (due.job_ref, due.due_minor) == ("DONE", 2 * 18_240)
        part = CreditDraft(at=NOW, product="OAK-190", amount_minor=10_000, settles=False)
        desk.orders.credit("DONE", part)
        assert [one.due_minor for one in desk.orders.credits_due()] == [2 * 18_240 - 10_000]
        desk.orders.credit("DONE", replace(part, amount_minor=20_000, settles=True))
        assert desk.orders.credits_due() == ()
        # Taken back, the last one is awaited again.
        desk.closing.take_back("DONE", facts(desk, "DONE").credits[-1], "another job's")
        assert [one.due_minor for one in desk.orders.credits_due()] == [2 * 18_240 - 10_000]


def test_what_came_damaged_is_followed_until_it_is_made_good(records: Path) -> None:
    broken = DeliveryLine(product="OAK-190", batch="K41", packs=12, damaged_packs=2)
    note = CreditDraft(at=NOW, product="OAK-190", amount_minor=0, owed_for=CreditFor.DAMAGE, replaced_packs=1)
    with desk_at(records) as desk:
        desk.packs.take_in("FRESH", DeliveryDraft(at=NOW, into=UNIT, lines=(broken,)))
        (due,) = desk.orders.credits_due()
        assert (due.job_ref, due.owed_for, due.packs, due.due_minor) == ("FRESH", CreditFor.DAMAGE, 2, 2 * 18_240)
        (claim,) = desk.jobs.card("FRESH").claims
        assert claim.due_minor == due.due_minor
        desk.orders.credit("FRESH", replace(note, settles=False))
        assert [one.due_minor for one in desk.orders.credits_due()] == [18_240]
        desk.orders.credit("FRESH", replace(note, replaced_packs=0, amount_minor=15_000))
        assert desk.orders.credits_due() == ()
        # Taken back, it is awaited again; a delivery that was taken back is not claimed.
        desk.closing.take_back("FRESH", facts(desk, "FRESH").credits[-1], "another job's")
        assert [one.due_minor for one in desk.orders.credits_due()] == [18_240]
        desk.closing.take_back("FRESH", facts(desk, "FRESH").deliveries[-1], "typed twice")
        assert desk.orders.credits_due() == ()


def test_damage_that_nobody_settled_within_a_year_is_not_followed_any_more(records: Path) -> None:
    broken = DeliveryLine(product="OAK-190", batch="K41", packs=12, damaged_packs=2)
    with desk_at(records) as desk:
        desk.packs.take_in("FRESH", DeliveryDraft(at=NOW, into=UNIT, lines=(broken,)))
        desk.look_at(NOW + timedelta(days=365))
        assert [one.due_minor for one in desk.orders.credits_due()] == [2 * 18_240]
        desk.look_at(NOW + timedelta(days=366))
        assert desk.orders.credits_due() == ()
        # Its job still says what was not made good.
        (claim,) = desk.jobs.card("FRESH").claims
        assert claim.due_minor == 2 * 18_240


def test_what_went_back_and_what_came_damaged_of_one_board_are_followed_each_on_its_own(records: Path) -> None:
    back = CountDraft(at=NOW, product="OAK-190", batch="K41", packs=1, boards=0, to=Destination.RETURN)
    broken = DeliveryLine(product="OAK-190", batch="K41", packs=3, damaged_packs=3)
    note = CreditDraft(at=NOW, product="OAK-190", amount_minor=18_240)
    with desk_at(records) as desk:
        desk.packs.take_in("DONE", DeliveryDraft(at=NOW, into=UNIT, lines=(broken,)))
        desk.closing.count("DONE", (back,))
        due = {one.owed_for: one.due_minor for one in desk.orders.credits_due()}
        assert due == {CreditFor.RETURN: 18_240, CreditFor.DAMAGE: 3 * 18_240}
        desk.orders.credit("DONE", note)
        assert [one.owed_for for one in desk.orders.credits_due()] == [CreditFor.DAMAGE]
        desk.closing.take_back("DONE", facts(desk, "DONE").credits[-1], "another job's")
        # After a year the damage is not followed any more, the return is.
        desk.look_at(NOW + timedelta(days=366))
        assert [one.owed_for for one in desk.orders.credits_due()] == [CreditFor.RETURN]


def test_a_job_costs_what_came_less_what_is_credited(records: Path) -> None:
    back = CountDraft(at=EARLIER, product="OAK-190", batch="K41", packs=2, boards=0, to=Destination.RETURN)
    with desk_at(records) as desk:
        desk.closing.count("DONE", (back,))
        oak = next(one for one in desk.orders.cost(facts(desk, "DONE")).lines if one.product == "OAK-190")
        assert oak.real_minor == (12 - 2) * 18_240


def test_tubs_past_their_day_are_not_brought_to_a_room_any_more(records: Path) -> None:
    line = DeliveryLine(product="MS-15", batch="G1", packs=2, use_by=date(2026, 11, 30))
    with desk_at(records) as desk:
        desk.packs.order("FRESH", OrderDraft(on=NOW.date(), due_on=None, lines=(OrderLine(product="MS-15", packs=2),)))
        desk.packs.take_in("FRESH", DeliveryDraft(at=NOW, into=UNIT, lines=(line,)))
        said = dump(records)
        move = replace(MOVE, at=NOW, product="MS-15", batch="G1", packs=1)
        with pytest.raises(DraftRefused, match="past its last day"):
            desk.packs.carry("FRESH", move)
        assert dump(records) == said
        # To the shelf they may go, to be written off by a stock-take.
        desk.packs.carry("FRESH", replace(move, target=SHELF))


def test_the_age_of_a_batch_follows_it_to_the_shelf_and_tubs_without_one_keep_to_their_job(records: Path) -> None:
    lines = (
        DeliveryLine(product="MS-15", batch="G1", packs=1, use_by=date(2027, 2, 1)),
        DeliveryLine(product="MS-15", batch="", packs=1, use_by=date(2027, 1, 1)),
    )
    with desk_at(records) as desk:
        desk.packs.order("FRESH", OrderDraft(on=NOW.date(), due_on=None, lines=(OrderLine(product="MS-15", packs=2),)))
        desk.packs.take_in("FRESH", DeliveryDraft(at=NOW, into=UNIT, lines=lines))
        for batch in ("G1", ""):
            desk.packs.carry("FRESH", replace(MOVE, at=NOW, product="MS-15", batch=batch, packs=1, target=SHELF))
        free = {one.batch: (one.use_by, one.since) for one in desk.packs.stock() if one.place is PlaceKind.SHELF}
        # Whose tubs without a batch stand on the shelf nobody knows, so nobody is told when they go off.
        assert free == {"G1": (date(2027, 2, 1), NOW), "": (None, None)}


def test_damage_without_a_price_stands_among_the_credits_to_come(records: Path) -> None:
    broken = DeliveryLine(product="OAK-190", batch="K41", packs=12, damaged_packs=2)
    with desk_at(records) as desk:
        oak = next(one for one in desk.products.all() if one.code == "OAK-190")
        assert isinstance(oak, Board)
        desk.products.change(oak, replace(oak, price_minor=0))
        desk.packs.take_in("FRESH", DeliveryDraft(at=NOW, into=UNIT, lines=(broken,)))
        (due,) = desk.orders.credits_due()
        assert (due.packs, due.due_minor) == (2, 0)
