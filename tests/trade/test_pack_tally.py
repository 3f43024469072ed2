"""The packs of a job, tallied from order to laid."""

from tests.trade.conftest import (
    a_delivery,
    a_job,
    air,
    an_order,
    laid,
    standing,
    straightedge,
    timber,
)

COME = (an_order(), a_delivery("2026-11-17 09:30"))
MEASURED = (air("2026-11-17 09:30"), straightedge("2026-11-17 09:30"), timber("2026-11-20 09:00"))


def tally(facts, moment):
    (found,) = standing(facts, moment).packs
    return found.needed, found.ordered, found.on_site, found.in_unit, found.ready


def test_packs_are_tallied_from_order_to_ready():
    facts = a_job(*COME, *MEASURED)
    assert tally(facts, "2026-11-09 12:00") == (11, 0, 0, 0, 0)
    assert tally(facts, "2026-11-12 12:00") == (11, 12, 0, 0, 0)
    assert tally(facts, "2026-11-20 12:00") == (11, 12, 12, 0, 0)
    assert tally(facts, "2026-11-24 09:30") == (11, 12, 12, 0, 12)


def test_before_anything_is_laid_every_pack_on_site_is_left():
    (found,) = standing(a_job(*COME, *MEASURED), "2026-11-20 12:00").packs
    assert (found.laid, found.left) == (0, 12)


def test_damaged_packs_are_not_on_site_and_unit_packs_are_in_the_unit():
    facts = a_job(an_order(), a_delivery(packs=7, damaged=2), a_delivery(packs=5, into="unit", damaged=1))
    assert tally(facts, "2026-11-20 12:00") == (11, 12, 5, 4, 0)


def test_packs_laid_and_packs_left_are_the_packs_that_came_to_site():
    facts = a_job(*COME, *MEASURED, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32))
    (before_count,) = standing(facts, "2026-11-25 12:00").packs
    assert before_count.laid + before_count.left == before_count.on_site
    assert 10 <= before_count.laid <= 11
