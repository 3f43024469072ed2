"""What lies where: every line with its worth, batches of one board in one job counted, and the sum of it all."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.desk.shelves import by_place, stock_lines, stock_sum
from store.trade.events import PlaceKind
from store.trade.ledger import Age, Heap
from store.trade.worth import worth_minor
from tests.tui.made_up import made_up_desk
from tests.tui.shop_window import GLUE, OAK

PRICED_OAK = replace(OAK, price_minor=18_240)
PRICED_GLUE = replace(GLUE, price_minor=9_900)
PRODUCTS = {"OAK-190": PRICED_OAK, "MS-15": PRICED_GLUE}
TODAY = date(2026, 11, 25)
TITLES = {"L-0007": "Oak floor in the reading room"}


def heap(kind: PlaceKind, *, batch: str = "K41", job: str = "L-0007", room: str = "", product: str = "OAK-190") -> Heap:
    return Heap(product=product, batch=batch, kind=kind, room=room, job_ref=job)


# By hand: a pack of six costs 182.40, so a board costs 30.40.
@pytest.mark.parametrize(
    ("packs", "boards", "cents"), [(0, 0, 0), (1, 0, 18_240), (0, 1, 3_040), (2, 4, 48_640), (0, -3, -9_120)]
)
def test_boards_cost_their_share_of_a_pack(packs: int, boards: int, cents: int) -> None:
    assert worth_minor(PRICED_OAK, packs, boards) == cents


def test_a_share_that_does_not_come_out_even_is_rounded_half_up() -> None:
    # A pack of six at 1.00: a board is 16.67 cents, three are 50.
    cheap = replace(OAK, price_minor=100)
    assert [worth_minor(cheap, 0, boards) for boards in range(7)] == [0, 17, 33, 50, 67, 83, 100]


def test_a_line_tells_full_packs_and_loose_boards_and_their_worth() -> None:
    (line,) = stock_lines({heap(PlaceKind.ROOM, room="Reading room"): 16}, PRODUCTS, TITLES, {})
    assert (line.packs, line.boards, line.worth_minor) == (2, 4, 48_640)
    assert (line.job_title, line.room, line.batches) == ("Oak floor in the reading room", "Reading room", 1)


def test_batches_are_counted_for_each_job_and_board_and_not_for_glue_or_what_is_not_for_the_job() -> None:
    heaps = {
        heap(PlaceKind.ROOM, room="Hall"): 60,
        heap(PlaceKind.OPENED, batch="K42"): 6,
        heap(PlaceKind.UNIT, batch="K43", job="L-0008"): 6,
        heap(PlaceKind.SHELF, batch="K44", job=""): 6,
        heap(PlaceKind.ASIDE, batch="K45"): 6,
        heap(PlaceKind.UNIT, product="MS-15", batch="A"): 2,
        heap(PlaceKind.UNIT, product="MS-15", batch="B"): 2,
    }
    lines = stock_lines(heaps, PRODUCTS, TITLES, {})
    assert {(one.batch, one.batches) for one in lines} == {
        ("K41", 2), ("K42", 2), ("K43", 1), ("K44", 1), ("K45", 1), ("A", 1), ("B", 1),
    }  # fmt: skip


def test_the_sum_counts_what_is_unopened_and_sound_and_nothing_else() -> None:
    heaps = {
        heap(PlaceKind.ROOM, room="Hall"): 12,
        heap(PlaceKind.UNIT): 6,
        heap(PlaceKind.SHELF, job=""): 8,
        heap(PlaceKind.OPENED): 60,
        heap(PlaceKind.ASIDE): 60,
        heap(PlaceKind.CUSTOMER): 60,
        heap(PlaceKind.UNIT, product="MS-15", batch=""): 2,
    }
    sums = stock_sum(stock_lines(heaps, PRODUCTS, TITLES, {}), TODAY)
    # 4 packs and 2 boards: 4 × 182.40 + 2 × 30.40 = 790.40; two tubs: 198.00.
    assert (sums.packs, sums.boards, sums.tubs, sums.worth_minor) == (4, 2, 2, 79_040 + 19_800)


def test_by_place_free_stock_comes_first_then_job_by_job() -> None:
    heaps = {
        heap(PlaceKind.ROOM, room="Hall", job="L-0009"): 6,
        heap(PlaceKind.UNIT, job="L-0008"): 6,
        heap(PlaceKind.ROOM, room="Attic", job="L-0008"): 6,
        heap(PlaceKind.SHELF, job=""): 6,
    }
    ordered = by_place(stock_lines(heaps, PRODUCTS, {}, {}))
    assert [(one.job_ref, one.place) for one in ordered] == [
        ("", PlaceKind.SHELF),
        ("L-0008", PlaceKind.UNIT),
        ("L-0008", PlaceKind.ROOM),
        ("L-0009", PlaceKind.ROOM),
    ]


def test_tubs_past_their_day_are_neither_sound_nor_worth_anything() -> None:
    heaps = {heap(PlaceKind.UNIT, product="MS-15", batch="G1"): 2, heap(PlaceKind.UNIT, product="MS-15", batch="G2"): 3}
    ages = {("MS-15", batch, ""): Age(use_by=TODAY + timedelta(days=days)) for batch, days in (("G1", -1), ("G2", 0))}
    sums = stock_sum(stock_lines(heaps, PRODUCTS, TITLES, ages), TODAY)
    assert (sums.tubs, sums.stale, sums.worth_minor) == (3, 2, 3 * 9_900)


def test_the_made_up_firm_has_in_all_what_its_story_says(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        lines = desk.packs.stock()
    # From the story: oak 2 free, 1 + 11 + 15 + 9 for jobs; ash 2 + 2 + 9 + 8 + 5; walnut 2; glue 3 and seven times 2.
    oak, ash, walnut, tubs = 2 + 1 + 11 + 15 + 9, 2 + 2 + 9 + 8 + 5, 2, 3 + 7 * 2
    sums = stock_sum(lines, TODAY)
    assert (sums.packs, sums.boards, sums.tubs) == (oak + ash + walnut, 0, tubs)
    assert sums.worth_minor == oak * 18_240 + ash * 20_880 + walnut * 17_650 + tubs * 9_900


def test_at_an_earlier_moment_a_job_closed_since_still_has_its_packs(tmp_path: Path) -> None:
    def with_packs(desk: Desk) -> set[str]:
        lasting = {PlaceKind.SHELF, PlaceKind.CUSTOMER}
        return {line.job_ref for line in desk.packs.stock() if line.place not in lasting}

    with made_up_desk(tmp_path / "records.layday") as desk:
        closings = {line.ref: line.closed_at for line in desk.jobs.lines()}
        ref, at = next((ref, at) for ref, at in closings.items() if at is not None and at <= desk.now())
        assert ref not in with_packs(desk)
        desk.look_at(at - timedelta(seconds=1))
        assert ref in with_packs(desk)
