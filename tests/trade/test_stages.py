"""The stages of a job, worked out from what is on file, from survey to closed."""

from dataclasses import replace

import pytest

from store.trade.jobs import Method
from store.trade.laying import is_wholly_laid
from store.trade.standing import closed_at
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    cold,
    laid,
    signed,
    standing,
    when,
)

HALL = "Hall"
COME = (an_order(), a_delivery("2026-11-17 09:30"))
LAID = laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32)  # the glue bears full load on 27 November at 16:00
COUNTED = a_count("2026-11-24 17:00", packs=1)
SIGNED = signed("2026-11-30 10:00")


def stage(facts, moment):
    return standing(facts, moment).stage


def test_a_job_with_nothing_ordered_is_being_surveyed():
    assert stage(a_job(), "2026-11-20 12:00") == "survey"
    assert stage(a_job(air("2026-11-19 12:00")), "2026-11-20 12:00") == "survey"


def test_a_job_ordered_waits_for_delivery_until_enough_packs_are_on_site():
    assert stage(a_job(an_order()), "2026-11-12 12:00") == "delivery"
    assert stage(a_job(an_order(10)), "2026-11-12 12:00") == "delivery"
    assert stage(a_job(an_order(), a_delivery(packs=10)), "2026-11-20 12:00") == "delivery"
    assert stage(a_job(an_order(), a_delivery(packs=12, damaged=2)), "2026-11-20 12:00") == "delivery"


def test_packs_in_the_unit_are_not_on_site_yet():
    assert stage(a_job(an_order(), a_delivery(into="unit")), "2026-11-20 12:00") == "delivery"


def test_a_job_with_enough_packs_acclimatises_until_all_it_needs_are_ready():
    assert stage(a_job(*COME), "2026-11-20 12:00") == "acclimatisation"
    assert stage(a_job(*COME), "2026-11-24 09:29") == "acclimatisation"
    assert stage(a_job(*COME), "2026-11-24 09:30") == "install"


def test_a_late_spare_pack_does_not_put_a_job_back():
    facts = a_job(an_order(), a_delivery("2026-11-17 09:30", packs=11), a_delivery("2026-11-23 09:30", packs=1))
    assert stage(facts, "2026-11-24 09:30") == "install"


def test_a_stopped_clock_leaves_a_job_acclimatising():
    assert stage(a_job(*COME, cold("2026-11-19 09:00")), "2026-11-26 12:00") == "acclimatisation"


def test_a_job_is_being_installed_from_the_first_board_even_if_laid_too_early():
    facts = a_job(*COME, laid("2026-11-20 10:00"))
    assert stage(facts, "2026-11-20 12:00") == "install"


@pytest.mark.parametrize(("m2", "expected"), [(21.1068, "cure"), (21.1067, "install"), (22.0, "cure")])
def test_a_room_is_wholly_laid_at_ninety_nine_hundredths_of_its_floor(m2, expected):
    # 99 % of 21.32 m² is 21.1068 m².
    assert stage(a_job(*COME, laid("2026-11-24 10:00", "2026-11-24 16:00", m2)), "2026-11-25 12:00") == expected


def test_the_floor_laid_on_several_days_is_summed():
    first, second = laid("2026-11-24 10:00", "2026-11-24 16:00", 12), laid("2026-11-25 08:00", "2026-11-25 14:00", 9.3)
    assert stage(a_job(*COME, first), "2026-11-25 15:00") == "install"
    assert stage(a_job(*COME, first, second), "2026-11-25 15:00") == "cure"


def test_cut_outs_need_not_be_laid():
    hearth = ((0, 0), (2000, 0), (2000, 2000), (0, 2000))
    room = a_room(cut_outs=(hearth,))
    facts = a_job(laid("2026-11-24 10:00", "2026-11-24 16:00", 17.32), rooms=(room,))
    assert is_wholly_laid(facts, room)


def test_the_floor_of_one_room_is_not_another_rooms():
    rooms = (a_room(), a_room(HALL))
    facts = a_job(an_order(24), a_delivery(packs=24), replace(LAID, room=HALL), rooms=rooms)
    assert stage(facts, "2026-11-25 12:00") == "install"


def test_a_floor_cures_until_it_bears_full_load():
    facts = a_job(*COME, LAID, COUNTED, handover=SIGNED)
    assert stage(facts, "2026-11-24 16:00") == "cure"
    assert stage(facts, "2026-11-27 15:59") == "cure"
    assert stage(facts, "2026-11-27 16:00") == "handover"


def test_the_room_that_cures_longest_keeps_the_job_curing():
    rooms = (a_room(), a_room(HALL))
    later = laid("2026-11-25 10:00", "2026-11-25 16:00", 21.32, room=HALL)
    facts = a_job(an_order(24), a_delivery(packs=24), LAID, later, rooms=rooms)
    assert stage(facts, "2026-11-28 15:59") == "cure"
    assert stage(facts, "2026-11-28 16:00") == "handover"


def test_a_floating_floor_has_nothing_to_cure():
    rooms = (a_room(method=Method.FLOATING, glue=None),)
    assert stage(a_job(*COME, LAID, rooms=rooms), "2026-11-24 16:00") == "handover"


def test_a_cured_floor_is_handed_over_until_it_is_signed_and_the_leftovers_are_counted():
    moment = "2026-12-01 12:00"
    assert stage(a_job(*COME, LAID), moment) == "handover"
    assert stage(a_job(*COME, LAID, COUNTED), moment) == "handover"
    assert stage(a_job(*COME, LAID, handover=SIGNED), moment) == "handover"
    assert stage(a_job(*COME, LAID, COUNTED, handover=SIGNED), moment) == "closed"


def test_every_board_of_the_job_must_be_counted():
    ash = replace(OAK, code="ASH-140", id=3)
    rooms = (a_room(), a_room(HALL, board="ASH-140"))
    facts = a_job(
        *COME,
        an_order(of="ASH-140"),
        a_delivery(of="ASH-140", into=HALL),
        LAID,
        replace(LAID, room=HALL),
        COUNTED,
        rooms=rooms,
        products=(OAK, ash, MS),
        handover=SIGNED,
    )
    assert stage(facts, "2026-12-01 12:00") == "handover"
    counted = replace(facts, counts=(*facts.counts, replace(COUNTED, product="ASH-140")))
    assert stage(counted, "2026-12-01 12:00") == "closed"


def test_a_floor_signed_for_before_it_cured_is_closed_only_when_it_has():
    facts = a_job(*COME, LAID, COUNTED, handover=signed("2026-11-25 10:00"))
    assert stage(facts, "2026-11-26 12:00") == "cure"
    assert stage(facts, "2026-11-27 16:00") == "closed"


@pytest.mark.parametrize(
    ("count", "sign", "closed"),
    [
        ("2026-11-24 17:00", "2026-11-30 10:00", "2026-11-30 10:00"),
        ("2026-12-02 09:00", "2026-11-30 10:00", "2026-12-02 09:00"),
        ("2026-11-24 17:00", "2026-11-25 10:00", "2026-11-27 16:00"),
    ],
    ids=["signed last", "counted last", "cured last"],
)
def test_a_job_closes_at_the_last_of_cured_signed_and_counted(count, sign, closed):
    facts = a_job(*COME, LAID, a_count(count, packs=1), handover=signed(sign))
    assert closed_at(facts) == when(closed)
    assert stage(facts, closed) == "closed"


def test_a_job_that_lacks_any_of_them_is_not_closed():
    assert closed_at(a_job(*COME, COUNTED, handover=SIGNED)) is None
    assert closed_at(a_job(*COME, LAID, handover=SIGNED)) is None
    assert closed_at(a_job(*COME, LAID, COUNTED)) is None


def test_a_job_is_in_the_earliest_stage_that_one_of_its_rooms_is_in():
    ash = replace(OAK, code="ASH-140", id=3)
    rooms = (a_room(), a_room(HALL, board="ASH-140"))

    def with_ash(*events):
        return a_job(*COME, LAID, *events, rooms=rooms, products=(OAK, ash, MS))

    order, come = an_order(of="ASH-140"), a_delivery("2026-11-20 09:30", of="ASH-140", into=HALL)
    assert stage(with_ash(), "2026-11-25 12:00") == "survey"
    assert stage(with_ash(order), "2026-11-25 12:00") == "delivery"
    assert stage(with_ash(order, come), "2026-11-25 12:00") == "acclimatisation"
    assert stage(with_ash(order, come), "2026-11-28 12:00") == "install"
    assert stage(with_ash(order, come, replace(LAID, room=HALL)), "2026-11-25 12:00") == "cure"


def test_packs_put_into_one_room_make_every_room_of_that_board_acclimatise():
    rooms = (a_room(wide=2000, deep=2000), a_room(HALL, wide=2000, deep=2000))
    facts = a_job(an_order(5), a_delivery("2026-11-17 09:30", packs=5, into=READING_ROOM), rooms=rooms)
    assert stage(facts, "2026-11-20 12:00") == "acclimatisation"
    assert stage(facts, "2026-11-24 12:00") == "install"


def test_a_floor_with_more_laid_than_it_has_is_laid_all_the_same():
    facts = a_job(*COME, laid("2026-11-24 10:00", "2026-11-24 16:00", 30))
    assert stage(facts, "2026-11-25 12:00") == "cure"
