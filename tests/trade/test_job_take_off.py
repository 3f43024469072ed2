"""The take-off of a whole job: a line for each thing, how each was worked out, and what somebody set by hand."""

import random
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.buying.beside import skirting_line
from store.trade.buying.job_take_off import job_take_off
from store.trade.buying.nouns import (
    ByDepth,
    ByDoorways,
    ByNeed,
    ByPieces,
    BySpread,
    BySticks,
    ByStrips,
    Caution,
    Fill,
    Gap,
    Missing,
    OwnLine,
    OwnLineDraft,
    Strips,
)
from store.trade.buying.own_line_checks import problems_with_own_line
from store.trade.buying.sheets import taken
from store.trade.facts import JobFacts
from store.trade.jobs import Method, Subfloor
from store.trade.needs import wanted
from store.trade.outline import rectangle
from store.trade.readings import LevelGrid
from store.trade.skirting import End, PieceEnd, SkirtingPiece
from store.trade.surveyed import Doorway
from store.trade.things import Thing
from store.trade.trims import trims
from tests.trade.conftest import FIRM, MS, OAK, a_job, a_reading, a_room, hours, smoothed, straightedge, when

NOW = when("2026-11-25 07:00")
HALL = a_room("Hall", wide=4000, deep=2500, subfloor=Subfloor.CEMENT_SCREED)
FLOATING = {"method": Method.FLOATING, "glue": None}


def line_of(facts: JobFacts, thing: Thing):
    """The one line of a thing; None where the job has none."""
    found = [one for one in job_take_off(facts, FIRM).lines if one.thing is thing]
    assert len(found) <= 1
    return found[0] if found else None


def own(thing: Thing, number: int = 1, **said: object) -> OwnLine:
    return OwnLine(**{"thing": thing, "at": NOW, "why": "as told", "id": number} | said)


def with_own(facts: JobFacts, *lines: OwnLine) -> JobFacts:
    return replace(facts, own_lines=lines)


def test_boards_are_bought_in_the_packs_that_the_rooms_need_and_say_what_those_are_made_of() -> None:
    facts = a_job()
    line = line_of(facts, Thing.BOARDS)
    need = wanted(facts, OAK.code)
    assert (line.product, line.units, line.how) == (OAK.code, need.packs, ByNeed(need=need, pack_mm2=OAK.pack_mm2))


def test_glue_goes_by_the_area_laid_of_every_room_glued_with_it() -> None:
    # 5.2 × 4.1 + 4 × 2.5 = 31.32 m² at 1,000 g: 31.32 kg, three tubs of 15.
    line = line_of(a_job(rooms=(a_room(), HALL)), Thing.GLUE)
    assert line.how == BySpread(area_mm2=31_320_000, g_per_m2=1000, kg=31.32)
    assert (line.units, line.size) == (3, 15)


def test_glue_goes_by_a_rate_or_a_notch_set_by_hand() -> None:
    facts = a_job(rooms=(a_room(),))
    # 21.32 m² at 700 g are 14.924 kg, one tub; B11 on a rough base spreads 1,250 g (from memory): 26.65 kg, two.
    sparing = line_of(with_own(facts, own(Thing.GLUE, product=MS.code, rate=700.0)), Thing.GLUE)
    assert (sparing.units, sparing.how.g_per_m2) == (1, 700)
    notched = line_of(with_own(facts, own(Thing.GLUE, product=MS.code, notch="b11")), Thing.GLUE)
    assert (notched.units, notched.how.notch, notched.usual) == (2, "b11", True)


def test_a_glued_room_without_a_glue_is_told_and_hides_nothing() -> None:
    take_off = job_take_off(a_job(rooms=(a_room(glue=None),)), FIRM)
    assert Gap(thing=Thing.GLUE, missing=Missing.NO_GLUE, room="Reading room") in take_off.gaps
    assert Thing.SKIRTING in {one.thing for one in take_off.lines}


def test_primer_is_offered_on_a_mineral_base_and_bought_once_somebody_takes_it_up() -> None:
    assert line_of(a_job(), Thing.PRIMER) is None
    facts = a_job(rooms=(a_room(), HALL))
    offered = line_of(facts, Thing.PRIMER)
    # The hall alone, 10 m² at 150 g.
    assert offered.how == BySpread(area_mm2=10_000_000, g_per_m2=150, kg=1.5)
    assert (offered.to_buy, offered.units, offered.cautions) == (0, 1, (Caution.PRIMER_SHEET,))
    taken_up = line_of(with_own(facts, own(Thing.PRIMER, rate=300.0, size=2.0)), Thing.PRIMER)
    assert (taken_up.to_buy, taken_up.how.kg) == (2, 3)


GRID = LevelGrid(spacing_mm=500, heights_mm=((0, -2, -8, -2, 0),))


def test_compound_is_reckoned_from_the_latest_grid_of_a_room_that_is_not_flat() -> None:
    # 12 mm in five points: 2.4 mm on average; 21.32 m² × 2.4 × 1.7 kg = 86.9856 kg, four bags of 25.
    facts = a_job(a_reading("2026-11-20 09:00", GRID))
    line = line_of(facts, Thing.COMPOUND)
    fill = Fill(room="Reading room", area_mm2=21_320_000, depth_mm=2.4, kg=pytest.approx(86.9856))
    assert line.how == ByDepth(fills=(fill,), rate=1.7, kg=pytest.approx(86.9856))
    assert (line.units, line.cautions) == (4, (Caution.HEAVY, Caution.DUST))
    # A rate of the bag's sheet and bags of 20: 21.32 × 2.4 × 1.5 = 76.752 kg.
    assert line_of(with_own(facts, own(Thing.COMPOUND, rate=1.5, size=20.0)), Thing.COMPOUND).units == 4


def test_no_compound_is_bought_for_a_room_that_is_flat_or_was_levelled_since() -> None:
    flat = LevelGrid(spacing_mm=500, heights_mm=((0, -1, -2, -1, 0),))
    assert line_of(a_job(a_reading("2026-11-20 09:00", flat)), Thing.COMPOUND) is None
    levelled = a_job(a_reading("2026-11-20 09:00", GRID), smoothed("2026-11-21 09:00"))
    assert line_of(levelled, Thing.COMPOUND) is None
    assert not job_take_off(levelled, FIRM).gaps


def test_a_room_that_is_not_flat_and_has_no_grid_is_told() -> None:
    take_off = job_take_off(a_job(straightedge("2026-11-20 09:00", gap=6)), FIRM)
    assert take_off.gaps == (Gap(thing=Thing.COMPOUND, missing=Missing.NO_GRID, room="Reading room"),)


def test_a_grid_with_holes_is_reckoned_with_and_told() -> None:
    holes = LevelGrid(spacing_mm=500, heights_mm=((0, -2, -8, None, 0),))
    take_off = job_take_off(a_job(a_reading("2026-11-20 09:00", holes)), FIRM)
    assert [gap.missing for gap in take_off.gaps] == [Missing.UNREAD_POINTS]
    assert any(one.thing is Thing.COMPOUND for one in take_off.lines)


def test_film_lies_under_floating_floors_on_mineral_bases_and_underlay_under_every_one() -> None:
    upstairs = a_room("Loft", wide=3000, deep=2500, **FLOATING)
    ground = a_room("Parlour", wide=5000, deep=4000, subfloor=Subfloor.CONCRETE, **FLOATING)
    facts = a_job(rooms=(upstairs, ground))
    film = line_of(facts, Thing.FILM)
    # Of a roll 2 m wide, lapped by 200 mm and turned up by 100, 5 m take three strips of 4.2 m; 4 m would take three of
    # 5.2 m (a worked value), which is more film.
    assert film.how == ByStrips(
        rooms=(Strips(room="Parlour", strips=3, strip_mm=4200),), width_mm=2000, overlap_mm=200, turn_up_mm=100
    )
    assert film.units == 1
    # Butted strips of 1 m: four of 5 m make two rolls of 15 m.
    # The loft's three of 2.5 m fit what is left of the second.
    underlay = line_of(facts, Thing.UNDERLAY)
    assert [(one.room, one.strips, one.strip_mm) for one in underlay.how.rooms] == [
        ("Loft", 3, 2500),
        ("Parlour", 4, 5000),
    ]
    assert underlay.units == 2
    assert line_of(facts, Thing.GLUE) is None
    wider = line_of(with_own(facts, own(Thing.FILM, width_mm=4000, size=5.0)), Thing.FILM)
    # 5.2 m across takes two strips of 4 m, each 4.2 m long: a roll of 5 m for each.
    assert (wider.how.width_mm, wider.units) == (4000, 2)


def test_skirting_of_all_rooms_is_cut_from_the_fewest_sticks_together() -> None:
    # Four walls of 1.2 m in each of two rooms: 2.4 m hold one (1200 + 3 + 1200 is more), 2.403 m hold two.
    two = a_job(rooms=(a_room(wide=1200, deep=1200), a_room("Box", wide=1200, deep=1200)))
    assert line_of(two, Thing.SKIRTING).units == 8
    longer = line_of(with_own(two, own(Thing.SKIRTING, size=2403.0)), Thing.SKIRTING)
    assert (longer.units, longer.how) == (4, BySticks(along_mm=9600, pieces=8, at_least=4, proved=True))
    # By the trade's worked values 1.2 m takes ceil(1100 ÷ 400) + 1 = 4 screws: 32 in all, a box.
    screws = line_of(two, Thing.SCREWS)
    assert (screws.how, screws.units) == (ByPieces(screws=32, pieces=8, spacing_mm=400), 1)
    assert Caution.HIDDEN in screws.cautions


def test_skirting_that_is_hard_to_cut_names_the_sticks_found_and_claims_no_proof() -> None:
    # 22 times three walls that with two cuts of 3 mm fill a stick wholly: 22 sticks hold all, and a sum finds them.
    rng = random.Random(4)
    walls = []
    for _ in range(22):
        longest = rng.randint(900, 1170)
        middle = rng.randint(600, (2394 - longest) // 2)
        walls += [longest, middle, 2394 - longest - middle]
    ends = PieceEnd(how=End.BUTTED)
    pieces = [
        SkirtingPiece(ring=0, wall=0, letter="A", from_mm=0, along_mm=one, cut_mm=one, begins=ends, ends=ends)
        for one in walls
    ]
    line = skirting_line(pieces, taken(a_job(rooms=(a_room(),)), Thing.SKIRTING))
    assert line.how == BySticks(along_mm=sum(walls), pieces=66, at_least=22, proved=False)
    assert line.units == 23
    assert trims(stick_mm=2400, kerf_mm=3, pieces_mm=walls).sticks == 22


def test_a_doorway_between_two_rooms_takes_one_profile_however_often_it_is_drawn() -> None:
    door = Doorway(wall=0, from_mm=500, width_mm=900)
    both = a_job(
        rooms=(
            a_room(doorways=(replace(door, to="Hall"), replace(door, wall=1))),
            replace(HALL, doorways=(replace(door, to="Reading room"), replace(door, wall=2, width_mm=1600))),
        )
    )
    line = line_of(both, Thing.PROFILES)
    # The way between the rooms, one out of each; the one of 1.6 m takes two profiles of 1 m.
    assert (line.how, line.units) == (ByDoorways(doorways=3, widest_mm=1600), 4)
    assert line_of(a_job(), Thing.PROFILES) is None


def test_wedges_go_by_the_room_with_the_most_wall_and_the_rest_by_count() -> None:
    facts = a_job(rooms=(a_room(), HALL))
    # 18.6 m of wall, one for every 0.5 m: 38, a bag of 50.
    assert (line_of(facts, Thing.WEDGES).how.wedges, line_of(facts, Thing.WEDGES).units) == (38, 1)
    assert (line_of(facts, Thing.FELT_PADS).to_buy, line_of(facts, Thing.CARE_SET).to_buy) == (2, 1)
    assert all(line_of(facts, one).usual for one in (Thing.WEDGES, Thing.FELT_PADS, Thing.CARE_SET))


def test_the_latest_line_set_by_hand_holds_and_one_left_out_buys_nothing() -> None:
    facts = a_job()
    earlier, later = own(Thing.SKIRTING, 1, units=9), own(Thing.SKIRTING, 2, units=11)
    assert line_of(with_own(facts, later, earlier), Thing.SKIRTING).to_buy == 11
    out = own(Thing.SKIRTING, 3, wanted=False)
    line = line_of(with_own(facts, earlier, later, out), Thing.SKIRTING)
    assert (line.is_left_out, line.to_buy, line.units > 0) == (True, 0, True)
    set_earlier = replace(later, at=NOW - hours(1))
    assert line_of(with_own(facts, earlier, set_earlier), Thing.SKIRTING).own == earlier


def test_a_line_set_by_hand_that_nothing_asks_for_any_longer_is_still_seen() -> None:
    line = line_of(with_own(a_job(), own(Thing.FILM, units=2)), Thing.FILM)
    assert (line.how, line.to_buy) == (None, 2)


def test_a_heavy_pack_or_bag_says_so() -> None:
    # 2.166 m² of 14 mm at 650 kg/m³ are 19.7 kg (a maker's sheet: 26.3 kg for 2.888 m²); 16 kg is HSE's lower figure.
    assert line_of(a_job(), Thing.BOARDS).unit_kg == pytest.approx(19.71, abs=0.01)
    assert Caution.HEAVY in line_of(a_job(), Thing.BOARDS).cautions
    thin = replace(OAK, thickness_mm=10)
    assert Caution.HEAVY not in line_of(a_job(products=(thin, MS)), Thing.BOARDS).cautions
    trained = replace(MS, needs_training=True)
    assert line_of(a_job(products=(OAK, trained)), Thing.GLUE).cautions == (Caution.TRAINING,)


def test_a_job_without_a_room_has_nothing_to_buy() -> None:
    take_off = job_take_off(replace(a_job(), rooms=()), FIRM)
    assert (take_off.lines, take_off.gaps) == ((), ())


@given(st.integers(1000, 12_000), st.integers(1000, 12_000), st.sampled_from(Method), st.sampled_from(Subfloor))
def test_whatever_the_room_what_is_bought_is_enough(wide, deep, method, subfloor) -> None:
    facts = a_job(rooms=(replace(a_room(method=method, subfloor=subfloor), outline=rectangle(wide, deep)),))
    take_off = job_take_off(facts, FIRM)
    assert [one.thing for one in take_off.lines] == sorted((one.thing for one in take_off.lines), key=list(Thing).index)
    for line in take_off.lines:
        assert line.units >= 1
        match line.how:
            case BySpread(kg=kg):
                assert line.units * line.size >= kg > (line.units - 1) * line.size
            case BySticks(along_mm=along):
                assert line.units * line.size >= along
            case ByStrips(rooms=rooms):
                assert line.units * line.size * 1000 >= sum(one.strips * one.strip_mm for one in rooms)
            case ByNeed():
                assert line.units * line.size >= wide * deep


@pytest.mark.parametrize(
    ("said", "field"),
    [
        ({"thing": Thing.SKIRTING}, "units"),
        ({"thing": Thing.SKIRTING, "units": -1}, "units"),
        ({"thing": Thing.SKIRTING, "size": 20.0}, "size"),
        ({"thing": Thing.SKIRTING, "size": 2400.5}, "size"),
        ({"thing": Thing.SKIRTING, "rate": 2.0}, "rate"),
        ({"thing": Thing.SKIRTING, "units": 1, "product": OAK.code}, "product"),
        ({"thing": Thing.BOARDS, "product": MS.code, "units": 1}, "product"),
        ({"thing": Thing.BOARDS, "product": OAK.code, "size": 3.0}, "size"),
        ({"thing": Thing.GLUE, "product": MS.code, "notch": "Z9"}, "notch"),
        ({"thing": Thing.GLUE, "product": MS.code, "notch": "B3", "rate": 900.0}, "notch"),
        ({"thing": Thing.GLUE, "product": MS.code, "notch": "b 11" + " " * 90}, "notch"),
        ({"thing": Thing.FILM, "width_mm": 20}, "width_mm"),
        ({"thing": Thing.WEDGES, "units": 1, "notch": "B3"}, "notch"),
        ({"thing": Thing.CARE_SET, "units": 1, "why": "  "}, "why"),
        ({"thing": Thing.CARE_SET, "units": 1, "at": NOW + hours(1)}, "at"),
    ],
)
def test_what_cannot_be_set_is_said_beside_its_field(said: dict[str, object], field: str) -> None:
    draft = OwnLineDraft(**{"at": NOW, "why": "as told"} | said)
    assert [one.field for one in problems_with_own_line(draft, a_job(), NOW)] == [field]


def test_primer_may_be_taken_up_as_it_is_and_anything_left_out() -> None:
    for draft in (
        OwnLineDraft(thing=Thing.PRIMER, at=NOW, why="The glue's sheet asks for it"),
        OwnLineDraft(thing=Thing.SKIRTING, at=NOW, why="The customer has it", wanted=False),
    ):
        assert problems_with_own_line(draft, a_job(), NOW) == ()
