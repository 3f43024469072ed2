"""Every deed at the desk writes one line of history, leaves the records in order, and is refused when looking back."""

import inspect
from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import cast

import pytest

from store.desk.desk import Desk, open_desk
from store.errors import Refused
from store.trade.bookings import BookingDraft
from store.trade.buying.nouns import OwnLineDraft
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft
from store.trade.events import (
    UNIT,
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.flights import FlightDraft
from store.trade.from_stock import FreeLot
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.layout.lay import LayRules
from store.trade.morning import MorningCheckDraft
from store.trade.outline import rectangle
from store.trade.people import PersonDraft
from store.trade.plans import PlanDraft, shape_of
from store.trade.products import GlueDraft
from store.trade.readings import Air, ReadingDraft
from store.trade.stock_take import CountedLine, StockTake
from store.trade.suppliers import Supplier
from store.trade.taught.hints import Hint
from store.trade.taught.suggest import Suggestion
from store.trade.things import Thing
from store.trade.voiding import VoidedBy, VoidingDraft
from tests.desk.shop_floor import NOW, Hand, desk_at, dump, history, in_order

ROOM = "Reading room"
EARLIER = NOW - timedelta(hours=1)
CARD = JobDraft(ref="NEW-1", title="Hall", customer=CustomerDraft(name="Harbour Office"))
PARLOUR = RoomDraft(
    name="Parlour", outline=rectangle(4000, 3000), subfloor=Subfloor.OSB, method=Method.GLUED, board="OAK-190"
)
ORDER = OrderDraft(
    on=date(2026, 12, 1), due_on=date(2026, 12, 8), lines=(OrderLine(product="OAK-190", packs=3),), supplier="Mill"
)
DELIVERY = DeliveryDraft(
    at=EARLIER, into=in_room(ROOM), lines=(DeliveryLine(product="OAK-190", batch="K42", packs=1, damaged_packs=0),)
)
MOVE = MoveDraft(at=EARLIER, product="OAK-190", batch="K41", packs=1, source=UNIT, target=in_room(ROOM))
OPENING = OpeningDraft(at=EARLIER, room=ROOM, product="OAK-190", batch="K41", packs=2)
READING = ReadingDraft(room=ROOM, at=EARLIER, measure=Air(temp_c=20.0, rh_percent=50.0), taken_by="Wim")
COUNT = CountDraft(at=EARLIER, product="OAK-190", batch="K41", packs=1, boards=2, to=Destination.CUSTOMER)
BACK = CountDraft(at=EARLIER, product="OAK-190", batch="K41", packs=1, boards=0, to=Destination.RETURN)
SIGNED = HandoverDraft(signed_at=EARLIER, by="K. Harbour")
SNAG = SnagDraft(at=EARLIER, what="Skirting loose", room=ROOM)
NOTE = NoteDraft(at=EARLIER, text="The key is with the neighbour")
GLUE = GlueDraft(
    code="PU-6",
    name="Stiff",
    rate_g_per_m2=900,
    tub_kg=6,
    open_time_min=30,
    walk_on_hours=12,
    full_load_hours=48,
)


def facts(desk: Desk, ref: str) -> JobFacts:
    return desk.jobs.card(ref).facts


def finish(desk: Desk) -> object:
    (going_on,) = facts(desk, "LAYING").layings
    draft = LayingDraft(
        room=ROOM, begun_at=going_on.begun_at, ended_at=EARLIER, area_mm2=facts(desk, "LAYING").room(ROOM).net_mm2
    )
    return desk.laying.finish("LAYING", going_on, draft)


def change_product(desk: Desk) -> object:
    product = next(one for one in desk.products.all() if one.code == "OAK-190")
    return desk.products.change(product, replace(product, price_minor=1))


def change_room(desk: Desk) -> object:
    spare = facts(desk, "FRESH").room("Spare")
    return desk.jobs.change_room("FRESH", spare, replace(spare, name="Annexe"))


def change_job(desk: Desk) -> object:
    card = facts(desk, "FRESH").job
    return desk.jobs.change(card, replace(card, title="Another title"))


def change_firm(desk: Desk) -> object:
    firm = desk.firm.card()
    return desk.firm.change(replace(firm, reading_good_days=5), firm.rev)


def mend(desk: Desk) -> object:
    return desk.closing.mend("FRESH", facts(desk, "FRESH").snags[0], NOW)


def plan_for(desk: Desk, spare: RoomDraft) -> PlanDraft:
    board = facts(desk, "FRESH").board(spare.board)
    rules = LayRules(stagger_mm=400)
    return PlanDraft(
        room=spare.name,
        at=EARLIER,
        board=board.code,
        rules=rules,
        seed=1,
        shape=shape_of(spare, board),
        lay=next(desk.plans.search(spare, board, rules, 1)).lay,
    )


def plan(desk: Desk) -> object:
    return desk.plans.file("FRESH", plan_for(desk, facts(desk, "FRESH").room("Spare")))


def plan_with_room(desk: Desk) -> object:
    spare = facts(desk, "FRESH").room("Spare")
    turned = replace(spare, direction_deg=90.0)
    return desk.plans.file_for("FRESH", spare, turned, plan_for(desk, turned))


def postpone(desk: Desk) -> object:
    order = facts(desk, "FRESH").orders[0]
    return desk.packs.postpone("FRESH", order, date(2026, 12, 31), "The lorry broke down")


def confirm(desk: Desk) -> object:
    line = ConfirmedLine(product="OAK-190", packs=12, due_on=date(2026, 12, 3))
    said = ConfirmationDraft(at=EARLIER, lines=(line,), number="C-77")
    return desk.orders.confirm("FRESH", facts(desk, "FRESH").orders[0], said)


def take_up(desk: Desk) -> object:
    room = facts(desk, "FRESH").room("Spare")
    changed = (replace(room, cut_loss_percent=7.5),)
    hint = cast("Hint", None)  # what it is suggested by makes no difference to the deed
    return desk.taught.take_up(
        "FRESH", Suggestion(product="OAK-190", rooms=changed, packs_now=12, packs_then=11, hint=hint)
    )


def keep_free(desk: Desk) -> object:
    return desk.orders.keep("FRESH", (FreeLot(product="OAK-190", batch="K9", packs=2),))


def credit(desk: Desk) -> object:
    return desk.orders.credit("DONE", CreditDraft(at=EARLIER, product="OAK-190", amount_minor=13_425, number="N-5"))


def take_back(desk: Desk) -> object:
    return desk.closing.take_back("DONE", facts(desk, "DONE").readings[0], "typed in the wrong room")


def count_stock(desk: Desk) -> object:
    return desk.stock.book(StockTake(lines=(counted("FRESH", 1, 12),), why="one went to the customer"))


def counted(job_ref: str, packs: int, filed: int, batch: str = "K41") -> CountedLine:
    return CountedLine(product="OAK-190", batch=batch, job_ref=job_ref, packs=packs, boards=0, filed=filed)


STAIRS = FlightDraft(name="Hall stairs", rise_mm=2600, width_mm=860, code="ad-k-private", going_mm=225)
OWN_LINE = OwnLineDraft(thing=Thing.SKIRTING, at=EARLIER, size=3000, why="The merchant sells 3 m")
BOOKING = BookingDraft(person="Ode", room=ROOM, first=date(2026, 12, 2), last=date(2026, 12, 3))
Deed = Callable[[Desk], object]

DEEDS: dict[str, tuple[str, Deed]] = {
    "FirmCounter.change": ("", change_firm),
    "FirmCounter.take_on": ("", lambda desk: desk.firm.take_on(PersonDraft(name="Ari", stairs=True))),
    "FirmCounter.change_person": (
        "",
        lambda desk: desk.firm.change_person(desk.firm.people()[0], PersonDraft(name="Ode", herringbone=True)),
    ),
    "FirmCounter.remove_person": ("", lambda desk: desk.firm.remove_person(desk.firm.people()[1])),
    "FirmCounter.put_supplier": ("", lambda desk: desk.firm.put_supplier(Supplier(name="Wharf"))),
    "FirmCounter.remove_supplier": ("", lambda desk: desk.firm.remove_supplier("Yard")),
    "DiaryCounter.book": ("FRESH", lambda desk: desk.diary.book("FRESH", BOOKING)),
    "DiaryCounter.rebook": ("FRESH", lambda desk: desk.diary.rebook("plan taken up", (), (), [("FRESH", BOOKING)])),
    "DiaryCounter._put": ("FRESH", lambda desk: desk.diary.move(desk.diary.on_file()[0], 1)),
    "HolidayCounter.file": ("", lambda desk: desk.holidays.file([date(2026, 12, 25)])),
    "ProductCounter.add": ("", lambda desk: desk.products.add(GLUE)),
    "ProductCounter.change": ("", change_product),
    "JobCounter.take_on": ("NEW-1", lambda desk: desk.jobs.take_on(CARD)),
    "JobCounter.change": ("FRESH", change_job),
    "JobCounter.add_room": ("FRESH", lambda desk: desk.jobs.add_room("FRESH", PARLOUR)),
    "JobCounter.change_room": ("FRESH", change_room),
    "JobCounter.remove_room": (
        "FRESH",
        lambda desk: desk.jobs.remove_room("FRESH", facts(desk, "FRESH").room("Spare")),
    ),
    "PlanCounter.file": ("FRESH", plan),
    "PlanCounter.file_for": ("FRESH", plan_with_room),
    "BuyingCounter.set_line": ("FRESH", lambda desk: desk.buying.set_line("FRESH", OWN_LINE)),
    "FlightCounter.add": ("FRESH", lambda desk: desk.flights.add("FRESH", replace(STAIRS, name="Cellar stairs"))),
    "FlightCounter.change": (
        "FRESH",
        lambda desk: desk.flights.change("FRESH", facts(desk, "FRESH").flights[0], replace(STAIRS, width_mm=900)),
    ),
    "FlightCounter.remove": (
        "FRESH",
        lambda desk: desk.flights.remove("FRESH", facts(desk, "FRESH").flights[0]),
    ),
    "PackCounter.order": ("FRESH", lambda desk: desk.packs.order("FRESH", ORDER)),
    "PackCounter.postpone": ("FRESH", postpone),
    "OrderCounter.keep": ("FRESH", keep_free),
    "OrderCounter.confirm": ("FRESH", confirm),
    "OrderCounter.credit": ("DONE", credit),
    "TaughtCounter.take_up": ("FRESH", take_up),
    "PackCounter.take_in": ("FRESH", lambda desk: desk.packs.take_in("FRESH", DELIVERY)),
    "PackCounter.carry": ("FRESH", lambda desk: desk.packs.carry("FRESH", MOVE)),
    "PackCounter.open": ("FRESH", lambda desk: desk.packs.open("FRESH", OPENING)),
    "ReadingCounter.take": ("FRESH", lambda desk: desk.readings.take("FRESH", READING)),
    "ReadingCounter.put_right": (
        "FRESH",
        lambda desk: desk.readings.put_right("FRESH", desk.jobs.card("FRESH").facts.readings[0], READING, "misread"),
    ),
    "ReadingCounter.smoothed": (
        "FRESH",
        lambda desk: desk.readings.smoothed("FRESH", SmoothingDraft(room=ROOM, at=EARLIER, note="two bags")),
    ),
    "ReadingCounter.void": (
        "FRESH",
        lambda desk: desk.readings.void("FRESH", VoidingDraft(room=ROOM, at=EARLIER, cause=VoidedBy.LEAK)),
    ),
    "LayingCounter.look_round": (
        "FRESH",
        lambda desk: desk.laying.look_round(
            "FRESH", MorningCheckDraft(room=ROOM, at=EARLIER, temp_c=20, rh_percent=50, surface_c=18)
        ),
    ),
    "LoggerCounter.take_in": ("FRESH", lambda desk: desk.loggers.take_in("FRESH", ROOM, b"2026-11-01 09:30;20;50")),
    "LayingCounter.start": (
        "FRESH",
        lambda desk: desk.laying.start("FRESH", LayingDraft(room=ROOM, begun_at=EARLIER), (OPENING,)),
    ),
    "LayingCounter.finish": ("LAYING", finish),
    "ClosingCounter.count": ("DONE", lambda desk: desk.closing.count("DONE", (COUNT,))),
    "ClosingCounter.sign": ("DONE", lambda desk: desk.closing.sign("DONE", SIGNED)),
    "ClosingCounter.add_snag": ("FRESH", lambda desk: desk.closing.add_snag("FRESH", SNAG)),
    "ClosingCounter.mend": ("FRESH", mend),
    "ClosingCounter.add_note": ("FRESH", lambda desk: desk.closing.add_note("FRESH", NOTE)),
    "ClosingCounter.take_back": ("DONE", take_back),
    "StockCounter.book": ("FRESH", count_stock),
    "StockCounter.take_back": ("", lambda desk: desk.stock.take_back(desk.stock.booked()[0], "counted twice")),
}
ELSEWHERE = {"FirmCounter.set_up", "PaperCounter.file"}  # tried in tests of their own


@pytest.fixture
def shop(records: Path) -> Path:
    with desk_at(records) as desk:
        desk.closing.add_snag("FRESH", SNAG)
        desk.diary.book("FRESH", replace(BOOKING, person="Ode"))
        desk.readings.take("FRESH", READING)
        desk.firm.put_supplier(Supplier(name="Yard"))
        desk.stock.book(StockTake(lines=(counted("", 2, 0, "K9"),), why="behind the door"))
        desk.closing.count("DONE", (BACK,))
    return records


def test_every_deed_that_the_desk_knows_is_tried_here(shop: Path) -> None:
    with desk_at(shop) as desk:
        counters = [part for name, part in vars(desk).items() if not name.startswith("_")]
    found = {
        f"{type(counter).__name__}.{name}"
        for counter in counters
        for name, method in inspect.getmembers(type(counter), inspect.isfunction)
        if "_bench.deed()" in inspect.getsource(method)
    }
    assert found == set(DEEDS) | ELSEWHERE


@pytest.mark.parametrize("name", DEEDS)
def test_a_deed_writes_one_line_of_history_and_leaves_all_in_order(shop: Path, name: str) -> None:
    ref, deed = DEEDS[name]
    before, said = history(shop), dump(shop)
    with desk_at(shop, who="Ari") as desk:
        deed(desk)
        assert in_order(desk) == []
    assert dump(shop) != said
    *earlier, (who, what, about) = history(shop)
    assert earlier == before
    assert (who, about) == ("Ari", ref)
    assert what


@pytest.mark.parametrize("name", DEEDS)
def test_a_deed_is_refused_while_looking_at_another_moment(shop: Path, name: str) -> None:
    said = dump(shop)
    with desk_at(shop) as desk:
        desk.look_at(NOW)
        with pytest.raises(Refused):
            DEEDS[name][1](desk)
    assert dump(shop) == said


@pytest.mark.parametrize("name", DEEDS)
def test_a_deed_that_breaks_off_leaves_nothing_behind(shop: Path, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    said = dump(shop)
    with desk_at(shop) as desk:
        monkeypatch.setattr(type(desk._bench), "write_down", _broken)
        with pytest.raises(ZeroDivisionError):
            DEEDS[name][1](desk)
        monkeypatch.undo()
        DEEDS[name][1](desk)
    assert dump(shop) != said


def _broken(*_: object, **__: object) -> None:
    raise ZeroDivisionError


def test_setting_up_a_firm_is_one_deed_and_is_done_once(tmp_path: Path, records: Path) -> None:
    path = tmp_path / "new.layday"
    with open_desk(path, clock=Hand(), who="Ode", create=True) as desk:
        desk.look_at(NOW)
        with pytest.raises(Refused):
            desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
    with desk_at(path, who="Ode") as desk:
        desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
        said = dump(path)
        with pytest.raises(Refused):
            desk.firm.set_up(FirmDraft(name="Another"))
    assert history(path) == [("Ode", "firm set up", "")]
    assert dump(path) == said


def test_the_history_of_a_job_says_what_stood_there_before_and_after(shop: Path) -> None:
    with desk_at(shop) as desk:
        change_job(desk)
        line = desk.jobs.history("FRESH")[0]
    assert line.at == NOW
    assert "Reading room of the harbour school" in line.before
    assert "Another title" in line.after


def test_the_history_at_another_moment_tells_nothing_that_was_done_later(shop: Path) -> None:
    hand = Hand()
    with desk_at(shop, hand) as desk:
        change_job(desk)
        before = desk.jobs.history("FRESH")
        hand.shows = NOW + timedelta(hours=1)
        desk.closing.add_note("FRESH", NoteDraft(at=NOW, text="The key is with the neighbour."))
        assert len(desk.jobs.history("FRESH")) == len(before) + 1
        desk.look_at(NOW)
        assert desk.jobs.history("FRESH") == before
