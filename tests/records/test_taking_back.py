"""What was filed in error is taken back: it stays on file, and nothing shows it any more."""

import pytest

from store.errors import ChangedMeanwhile, Refused
from store.trade.events import HandoverDraft, LayingDraft
from store.trade.facts import JobFacts

KINDS = (
    "order",
    "delivery",
    "move",
    "opening",
    "count",
    "reading",
    "smoothing",
    "laying",
    "handover",
    "snag",
    "note",
    "plan",
    "morning list",
    "voiding",
    "stock-take",
    "own line",
    "confirmation",
    "credit",
)


def numbers_shown(facts: JobFacts, kind: str) -> set[int]:
    if kind == "handover":
        return {facts.handover.id} if facts.handover else set()
    if kind == "confirmation":
        return {one.id for order in facts.orders for one in order.confirmed}
    plural = {
        "delivery": "deliveries",
        "morning list": "mornings",
        "stock-take": "differences",
        "own line": "own_lines",
    }.get(kind, f"{kind}s")
    return {one.id for one in getattr(facts, plural)}


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_taken_back_disappears_from_facts_and_nothing_else_does(shop, kind: str) -> None:
    with shop.cabinet.deed():
        filed = shop.let_everything_happen_to(shop.job)
    before = {name: numbers_shown(shop.cabinet.facts.of_ref("L-0001"), name) for name in KINDS}
    assert filed[kind] in before[kind]
    with shop.cabinet.deed():
        shop.cabinet.events.take_back(kind, filed[kind], at=shop.now, who="Wren", why="wrong job")
    after = {name: numbers_shown(shop.cabinet.facts.of_ref("L-0001"), name) for name in KINDS}
    gone = {kind: before[kind] - {filed[kind]}}
    if kind == "order":
        gone["confirmation"] = set()  # what was said of an order goes with it
    assert after == before | gone


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_taken_back_stays_on_file(shop, kind: str) -> None:
    tables = {"order": "purchase", "plan": "lay_plan", "morning list": "morning_check", "stock-take": "difference"}
    tables |= {"own line": "own_line"}
    tables |= dict.fromkeys(("move", "opening", "count"), "movement")
    table = tables.get(kind, kind)
    with shop.cabinet.deed():
        filed = shop.let_everything_happen_to(shop.job)
        shop.cabinet.events.take_back(kind, filed[kind], at=shop.now, who="Wren", why="wrong job")
    query = f"SELECT count(*) FROM {table} WHERE id = ?"
    assert shop.cabinet.file.connection.execute(query, (filed[kind],)).fetchone() == (1,)


def test_a_delivery_taken_back_takes_its_packs_out_of_the_stock(shop) -> None:
    with shop.cabinet.deed():
        shop.let_everything_happen_to(shop.job)
        second = shop.let_everything_happen_to(shop.another_job("L-0002")[0])
        shop.cabinet.events.take_back("delivery", second["delivery"], at=shop.now, who="Wren", why="")
    told = [(movement.job_ref, movement.cause) for movement in shop.cabinet.stock.movements(shop.now)]
    assert told == [
        *(("L-0001", cause) for cause in ("delivery", "move", "opening", "count")),
        *(("L-0002", cause) for cause in ("move", "opening", "count")),
        *((ref, "stock-take") for ref in ("L-0001", "L-0002")),
    ]


def test_a_move_taken_back_is_not_mistaken_for_a_delivery_of_the_same_number(shop) -> None:
    with shop.cabinet.deed():
        shop.let_everything_happen_to(shop.job)
        second = shop.let_everything_happen_to(shop.another_job("L-0002")[0])
        shop.cabinet.events.take_back("delivery", second["delivery"], at=shop.now, who="Wren", why="")
    assert len(shop.cabinet.facts.of_ref("L-0001").moves) == 1
    assert len(shop.cabinet.facts.of_ref("L-0001").deliveries) == 1
    assert shop.cabinet.facts.of_ref("L-0002").deliveries == ()


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_taken_back_twice(shop, kind: str) -> None:
    with shop.cabinet.deed():
        filed = shop.let_everything_happen_to(shop.job)
        shop.cabinet.events.take_back(kind, filed[kind], at=shop.now, who="Wren", why="")
    with pytest.raises(Refused), shop.cabinet.deed():
        shop.cabinet.events.take_back(kind, filed[kind], at=shop.now, who="Tern", why="")


def test_a_row_of_another_kind_is_not_taken_back(shop) -> None:
    with shop.cabinet.deed():
        filed = shop.let_everything_happen_to(shop.job)
    with pytest.raises(Refused), shop.cabinet.deed():
        shop.cabinet.events.take_back("count", filed["move"], at=shop.now, who="Wren", why="")


def test_a_job_is_signed_once_until_the_signature_is_taken_back(shop) -> None:
    draft = HandoverDraft(signed_at=shop.now, by="R. Quill")
    with shop.cabinet.deed():
        first = shop.cabinet.events.add_handover(shop.job.id, draft)
    with pytest.raises(Refused), shop.cabinet.deed():
        shop.cabinet.events.add_handover(shop.job.id, draft)
    with shop.cabinet.deed():
        shop.cabinet.events.take_back("handover", first.id, at=shop.now, who="Wren", why="wrong floor")
        second = shop.cabinet.events.add_handover(shop.job.id, draft)
    assert shop.cabinet.facts.of_ref("L-0001").handover == second


def test_a_laying_taken_back_can_no_longer_be_ended(shop) -> None:
    draft = LayingDraft(room=shop.room.name, begun_at=shop.now)
    with shop.cabinet.deed():
        laying = shop.cabinet.events.add_laying(shop.job.id, draft)
        shop.cabinet.events.take_back("laying", laying.id, at=shop.now, who="Wren", why="")
    with pytest.raises(ChangedMeanwhile), shop.cabinet.deed():
        shop.cabinet.events.end_laying(laying.id, draft, laying.rev)
