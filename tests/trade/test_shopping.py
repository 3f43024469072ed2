"""What a job still has to order, and what its orders still have to bring."""

from store.trade.events import OrderLine
from store.trade.shopping import still_to_come, still_to_order
from tests.trade.conftest import MS, OAK, a_delivery, a_job, a_room, an_order, laid, standing, when

DAY = "2026-11-12 08:00"


def to_order(facts, moment=DAY):
    return still_to_order(facts, standing(facts, moment), when(moment).date())


def test_nothing_ordered_asks_for_the_packs_and_the_tubs_of_the_rooms() -> None:
    # 21.32 m² with 10 % over 2.166 m² a pack is 11 packs; 21.32 kg of glue in tubs of 15 kg are 2 tubs.
    assert to_order(a_job()) == (OrderLine(product="OAK-190", packs=11), OrderLine(product="MS-15", packs=2))


def test_what_is_on_order_is_not_asked_for_again() -> None:
    assert to_order(a_job(an_order(8), an_order(1, of=MS.code))) == (
        OrderLine(product="OAK-190", packs=3),
        OrderLine(product="MS-15", packs=1),
    )
    assert to_order(a_job(an_order(11), an_order(2, of=MS.code))) == ()


def test_glue_is_counted_over_all_rooms_that_take_it_and_not_for_floors_that_are_laid() -> None:
    hall = a_room("Hall", wide=3000, deep=2000, id=2)
    both = a_job(an_order(20), rooms=(a_room(), hall))
    assert to_order(both) == (OrderLine(product="MS-15", packs=2),)  # 27.32 kg
    done = a_job(
        an_order(20),
        a_delivery("2026-11-10 08:00", 20),
        laid("2026-11-11 08:00", "2026-11-11 16:00", 21.32),
        rooms=(a_room(), hall),
    )
    assert [line for line in to_order(done) if line.product == MS.code] == [OrderLine(product="MS-15", packs=1)]


def test_a_floor_without_glue_asks_for_none() -> None:
    assert to_order(a_job(an_order(11), rooms=(a_room(glue=None),))) == ()


def test_what_orders_still_owe_is_summed_by_product_and_damaged_packs_use_up_their_order() -> None:
    facts = a_job(an_order(10), an_order(5), an_order(2, of=MS.code), a_delivery("2026-11-11 08:00", 9, damaged=2))
    assert still_to_come(facts) == (OrderLine(product=OAK.code, packs=6), OrderLine(product=MS.code, packs=2))
    assert still_to_come(a_job(an_order(12), a_delivery(packs=12))) == ()
