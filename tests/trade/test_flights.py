"""A flight of stairs of a job: its steps, the length there is, winders, and the boards and nosings it takes."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.buying.job_take_off import job_take_off
from store.trade.buying.nouns import Caution, Missing, OwnLine, StepPiece
from store.trade.buying.steps import parts_of
from store.trade.counts import reckon
from store.trade.facts import JobFacts
from store.trade.flight_sum import flight_sum
from store.trade.flights import Flight, FlightDraft, Turn, problems_with_flight
from store.trade.materials import Material
from store.trade.things import Thing
from tests.trade.conftest import FIRM, OAK, a_count, a_delivery, a_job, an_order, laid, when

HALL = Flight(id=1, rev=1, name="Hall stairs", rise_mm=2600, width_mm=860, code="ad-k-private", going_mm=225, risers=13)
CORNER = ((0, 0), (900, 0), (900, 900), (0, 900))
WOUND = replace(HALL, going_mm=None, run_mm=2000, turn=Turn.QUARTER, winders=CORNER, winder_treads=3)


def lines(*flights: Flight, materials: tuple[Material, ...] = (), own: tuple[OwnLine, ...] = ()) -> dict[Thing, object]:
    facts = replace(a_job(), flights=flights, materials=materials, own_lines=own)
    return {line.thing: line for line in job_take_off(facts, FIRM).lines}


def with_stairs(*flights: Flight) -> JobFacts:
    return replace(a_job(), flights=flights)


# Heights, fewest risers and rise: handbook 2, section 8, worked for the 220 mm of Approved Document K, Table 1.1.
@pytest.mark.parametrize(
    ("height", "risers", "rise"),
    [(2600, 12, 216.7), (2700, 13, 207.7), (2800, 13, 215.4), (3000, 14, 214.3), (2420, 11, 220.0), (2200, 10, 220)],
)
def test_without_a_count_a_flight_has_the_fewest_risers_that_its_code_allows(height, risers, rise) -> None:
    found = flight_sum(replace(HALL, rise_mm=height, risers=None).measured)
    assert (found.steps.risers, round(found.steps.rise_mm, 1)) == (risers, rise)
    assert found.straight_treads == risers - 1


# Rise, going, 2R + G and whether Approved Document K lets it be: handbook 2, section 8.
@pytest.mark.parametrize(
    ("rise", "going", "broken"),
    [
        (200, 225, []),
        (220, 220, ["pitch"]),
        (150, 300, []),
        (190, 250, []),
        (220, 240, ["pitch"]),
        (220, 280, ["2R + G"]),
    ],
)
def test_a_flight_says_which_rule_it_breaks(rise, going, broken) -> None:
    found = flight_sum(replace(HALL, rise_mm=rise * 13, going_mm=going).measured)
    assert [check.what for check in found.checks if not check.ok] == broken
    assert found.ok is (not broken)


def test_the_length_there_is_shared_out_over_the_straight_treads_and_looked_at_where_a_going_is_wished() -> None:
    assert flight_sum(replace(HALL, going_mm=None, run_mm=2700).measured).steps.going_mm == 225
    short = flight_sum(replace(HALL, run_mm=2600).measured)
    assert [(check.what, check.value, check.most) for check in short.checks if not check.ok] == [("length", 2700, 2600)]
    assert flight_sum(replace(HALL, run_mm=2700).measured).ok


def test_winders_are_treads_that_take_no_length() -> None:
    found = flight_sum(WOUND.measured)
    assert (found.straight_treads, found.winder_treads, found.steps.treads) == (9, 3, 12)
    assert found.steps.going_mm == pytest.approx(2000 / 9)
    # 900 × 900 mm; its diagonal, 1272.8 mm, is as long as the front of a winder can be.
    assert (found.winders_mm2, found.winders_box_mm, found.winder_edge_mm) == (810_000, (900, 900), 1273)


def test_open_treads_overlap_by_sixteen_mm() -> None:
    # Approved Document K (2013), Diagram 1.1.
    for nosing, good in ((15, False), (16, True)):
        found = flight_sum(replace(HALL, nosing_mm=nosing, open_risers=True).measured)
        assert found.ok is good
    assert flight_sum(replace(HALL, nosing_mm=0).measured).ok


def test_more_winders_than_treads_are_refused() -> None:
    with pytest.raises(Refused, match="12 treads, and 13"):
        flight_sum(replace(WOUND, winder_treads=13).measured)
    with pytest.raises(Refused, match="going wished"):
        flight_sum(replace(WOUND, winder_treads=12).measured)


def test_the_pieces_of_a_flight_are_those_of_the_handbook() -> None:
    # Handbook 2, section 8: 13 risers × 860 wide, going 225 + 25, R 200: 12 treads of 2.580 m², 13 risers of 2.236 m²,
    # nosing 11.18 m.
    told = {part.piece: part for part in parts_of(HALL)}
    tread, riser, nosing = (told[one] for one in (StepPiece.TREAD, StepPiece.RISER, StepPiece.NOSING))
    assert tread.pieces * tread.long_mm * tread.deep_mm == 2_580_000
    assert riser.pieces * riser.long_mm * riser.deep_mm == 2_236_000
    assert nosing.pieces * nosing.long_mm == 11_180
    assert StepPiece.RISER not in {part.piece for part in parts_of(replace(HALL, open_risers=True))}


def test_boards_clad_a_flight_strip_by_strip_in_whole_packs() -> None:
    line = lines(replace(HALL, board=OAK.code))[Thing.CLADDING]
    # Two strips from a board of 1900; 12 treads of 250 mm are 24 strips, 12 boards; 13 risers of 200 mm 26, 13 boards.
    assert (line.product, line.how.boards, line.units) == (OAK.code, 25, 5)
    assert {Caution.STAIRS, Caution.DUST} <= set(line.cautions)


def test_winders_are_clad_by_the_rectangle_round_them() -> None:
    line = lines(replace(WOUND, board=OAK.code))[Thing.CLADDING]
    # 9 treads 248 mm deep: 18 strips, 9 boards; 900 × 900: 5 strips of 900, 3 boards; 13 risers: 13 boards.
    assert line.how.boards == 9 + 3 + 13


def test_a_board_shorter_than_a_step_is_told_and_hides_no_other_line() -> None:
    take_off = job_take_off(with_stairs(replace(HALL, width_mm=2000, board=OAK.code)), FIRM)
    (gap,) = (one for one in take_off.gaps if one.thing is Thing.CLADDING)
    assert "2000 mm wide, and no board of OAK-190 is so long" in gap.say
    assert any(line.thing is Thing.BOARDS for line in take_off.lines)


def test_a_flight_without_a_board_takes_ready_treads_risers_and_nosing() -> None:
    found = lines(HALL)
    assert (found[Thing.TREADS].units, found[Thing.RISERS].units) == (12, 13)  # one of 860 from each of 1000 mm
    assert found[Thing.NOSING].units == math.ceil(13 / 2)  # two of 860 from a stick of 2400 mm
    assert Thing.CLADDING not in found
    assert Thing.RISERS not in lines(replace(HALL, open_risers=True))


def test_two_flights_share_their_sticks_of_nosing() -> None:
    landing = replace(HALL, id=2, name="Cellar stairs", width_mm=600, risers=13)
    apart = lines(HALL)[Thing.NOSING].units + lines(landing)[Thing.NOSING].units
    # 2400 mm hold 860 + 860 + 600 with two cuts of 3 mm.
    assert lines(HALL, landing)[Thing.NOSING].units < apart


def test_winders_with_no_board_are_made_to_measure() -> None:
    gaps = job_take_off(with_stairs(WOUND), FIRM).gaps
    assert [(gap.room, gap.missing) for gap in gaps if gap.thing is Thing.TREADS] == [("Hall stairs", Missing.WINDERS)]


def test_a_tread_deeper_than_the_sheet_has_is_refused() -> None:
    shallow = Material(id=9, rev=1, code="TR", name="Tread", thing=Thing.TREADS, size=1000, width_mm=240)
    facts = replace(with_stairs(HALL), materials=(shallow,))
    (gap,) = (gap for gap in job_take_off(facts, FIRM).gaps if gap.thing is Thing.TREADS)
    assert "250 mm deep, and 240 mm" in gap.say
    assert lines(HALL, materials=(replace(shallow, width_mm=250),))[Thing.TREADS].product == "TR"


def test_a_flight_with_winders_wider_than_a_board_is_long_joins_strips() -> None:
    wide = ((0, 0), (2400, 0), (2400, 900), (0, 900))
    line = lines(replace(WOUND, winders=wide, board=OAK.code))[Thing.CLADDING]
    assert line.how.boards == 9 + math.ceil(5 * 2400 / 1900) + 13


@given(
    st.integers(200, 9000),
    st.integers(300, 1900),
    st.integers(50, 400),
    st.integers(0, 60),
    st.sampled_from(["ad-k-private", "ad-k-general", "din-18065", "irc"]),
)
def test_boards_hold_every_piece_of_a_flight(rise, width, going, nosing, code) -> None:
    flight = Flight(
        id=1, rev=1, name="Any", rise_mm=rise, width_mm=width, code=code, going_mm=going, nosing_mm=nosing,
        board=OAK.code,
    )  # fmt: skip
    line = lines(flight)[Thing.CLADDING]
    pieces = [part for part in parts_of(flight) if part.piece is not StepPiece.NOSING]
    area = sum(part.pieces * part.long_mm * part.deep_mm for part in pieces)
    assert line.how.boards * OAK.length_mm * OAK.width_mm >= area
    assert (line.units - 1) * OAK.boards_per_pack < line.how.boards <= line.units * OAK.boards_per_pack
    steps = flight_sum(flight.measured).steps
    assert steps.rise_mm * steps.risers == pytest.approx(rise)


BAD = {
    "name": ({"name": " "}, "name"),
    "twice": ({"name": "Cellar"}, "already"),
    "rise": ({"rise_mm": 40}, "height from floor to floor"),
    "width": ({"width_mm": 100}, "width"),
    "no going": ({"going_mm": None}, "Say the going"),
    "code": ({"code": "moon"}, "building code"),
    "straight": ({"winders": CORNER, "winder_treads": 3}, "straight flight has no winders"),
    "half told": ({"turn": Turn.HALF, "winder_treads": 3}, "give both"),
    "no outline": ({"turn": Turn.HALF, "winders": CORNER[:2], "winder_treads": 3}, "corner"),
    "board": ({"board": "NONE"}, "no board"),
    "too many winders": ({"turn": Turn.HALF, "winders": CORNER, "winder_treads": 14}, "cannot be winders"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_no_stairs_can_be_is_said(name) -> None:
    changes, say = BAD[name]
    (problem,) = problems_with_flight(replace(HALL, **changes), {OAK.code}, {"Cellar"})
    assert say in problem.say


def test_good_stairs_have_no_problem() -> None:
    for draft in (HALL, WOUND, replace(HALL, board=OAK.code), FlightDraft(
        name="x", rise_mm=2600, width_mm=860, code="irc", going_mm=254
    )):  # fmt: skip
        assert problems_with_flight(draft, {OAK.code}, set()) == ()


def test_a_line_for_stairs_is_set_by_hand_like_any_other() -> None:
    own = OwnLine(id=1, thing=Thing.NOSING, at=when("2026-11-25 07:00"), size=3000, why="sold so")
    assert lines(HALL, own=(own,))[Thing.NOSING].units == math.ceil(13 / 3)


def test_a_size_no_step_can_be_cut_from_is_told_as_that_and_not_as_stairs_that_went() -> None:
    own = OwnLine(id=1, thing=Thing.TREADS, at=when("2026-11-25 07:00"), size=800, why="sold so")
    facts = replace(with_stairs(HALL), own_lines=(own,))
    buying = job_take_off(facts, FIRM)
    (line,) = (one for one in buying.lines if one.thing is Thing.TREADS)
    assert line.beyond_sum
    assert any(gap.thing is Thing.TREADS and gap.missing is Missing.NO_SUM for gap in buying.gaps)
    gone = job_take_off(replace(facts, flights=()), FIRM)
    (line,) = (one for one in gone.lines if one.thing is Thing.TREADS)
    assert not line.beyond_sum


def test_boards_on_stairs_are_no_cut_loss_of_the_floors() -> None:
    def sums(*flights: Flight):
        events = (
            an_order(16),
            a_delivery("2026-11-10 08:00", 16),
            laid("2026-11-20 08:00", "2026-11-20 16:00", 21.32),
            a_count("2026-11-21 08:00", 1),
        )
        return reckon(replace(a_job(*events), flights=flights), OAK.code)

    # 15 packs of 6 were used, 25 of their boards for the stairs.
    assert (sums().used, sums().stairs) == (90, 0)
    clad = sums(replace(HALL, board=OAK.code))
    assert (clad.used, clad.stairs) == (90, 25)
    assert clad.real_loss_percent == pytest.approx(100 * (65 * 0.361 - 21.32) / 21.32)
    assert clad.real_loss_percent < sums().real_loss_percent
