"""What closed jobs taught: lessons read off their facts, and the figures of many floors together."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from statistics import mean

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from store.errors import Refused
from store.trade.bookings import Booking
from store.trade.buying.nouns import OwnLine, Thing
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.events import Handover, OrderLine
from store.trade.jobs import Subfloor
from store.trade.surveyed import Pattern
from store.trade.taught.figures import (
    expected_percent,
    own_weight,
    quantile,
    suggested_percent,
    trade_enough,
    trade_percent,
)
from store.trade.taught.hints import hint_for
from store.trade.taught.lessons import shape_class, taught_by
from store.trade.taught.nouns import FloorLesson, GlueLesson, PastFloor, PastGlue, Shape, SizeBand, Taught
from store.trade.taught.report import By, report_on
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_room,
    an_opening,
    an_order,
    laid,
    when,
)

LAID = laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32)
SIGNED = Handover(id=1, signed_at=when("2026-12-01 10:00"), by="K. Harbour")
HERE = (an_order(12), a_delivery(packs=12), an_opening("2026-11-24 10:00", 11))
LEFT = (a_count("2026-12-01 09:00", packs=1), a_count("2026-12-01 09:00", boards=2, to="scrap"))
CLOSED = datetime(2026, 12, 1, 9, tzinfo=UTC)


def closed(*events, **changes):
    return replace(a_job(*HERE, LAID, *LEFT, *events), handover=SIGNED, **changes)


def booked(person, room="", cancelled=False):
    day = when("2026-11-24 10:00").date()
    return Booking(id=1, ref="L-0007", person=person, first=day, last=day, room=room, cancelled=cancelled)


def lesson(**changes):
    usual = {
        "product": OAK.code,
        "rooms": 1,
        "pattern": Pattern.STRAIGHT,
        "shape": Shape.RECTANGLE,
        "size": SizeBand.MIDDLE,
        "fitters": (),
        "planned": False,
        "allowed_percent": 10.0,
        "laid_mm2": 20 * OAK.board_mm2 * 10 // 11,
        "ordered": 24,
        "used": 20,
        "kept": 4,
        "scrapped": 0,
        "gone": 0,
        "adds_up": True,
    }
    return FloorLesson(**(usual | changes))


def past(number=1, *, loss=None, board=OAK, **changes):
    """A floor of 2,000 boards, closed so many days later than the first; ``loss`` in % of the floor laid."""
    if loss is not None:
        changes |= {"used": 2000, "laid_mm2": round(2000 * board.board_mm2 / (1 + loss / 100))}
    at = CLOSED + timedelta(days=number)
    return PastFloor(ref=f"L-{number:04}", title="Oak floor", closed_at=at, board=board, lesson=lesson(**changes))


def test_a_closed_job_teaches_where_its_boards_went():
    (one,) = taught_by(closed()).floors
    # 11 packs of 6 opened, 2 loose boards counted: 64 boards went into 21.32 m²; a pack of 6 stayed.
    assert (one.used, one.kept, one.scrapped, one.gone, one.ordered) == (64, 6, 2, 0, 72)
    assert (one.laid_mm2, one.allowed_percent, one.planned, one.adds_up) == (21_320_000, 10, False, True)
    assert (one.pattern, one.shape, one.size) == (Pattern.STRAIGHT, Shape.RECTANGLE, SizeBand.MIDDLE)
    # 64 × 0.361 m² = 23.104 m², 1.784 m² more than was laid: 8.37 %.
    floor = PastFloor(ref="L", title="", closed_at=CLOSED, board=OAK, lesson=one)
    assert floor.real_percent == pytest.approx(100 * 1.784 / 21.32)


@pytest.mark.parametrize("missing", ["counts", "layings", "handover"])
def test_a_job_that_is_not_closed_teaches_nothing(missing):
    assert taught_by(replace(closed(), **{missing: None if missing == "handover" else ()})) == Taught()


def test_a_product_that_makes_no_sense_teaches_nothing_and_breaks_nothing():
    facts = closed()
    assert taught_by(replace(facts, products={**facts.products, OAK.code: replace(OAK, width_mm=0)})) == Taught()


def test_what_the_rooms_of_one_board_do_not_share_is_not_told():
    rooms = (a_room(), a_room("Hall", wide=2000, deep=2000, subfloor=Subfloor.CONCRETE, pattern=Pattern.HERRINGBONE))
    also = (laid("2026-11-25 10:00", "2026-11-25 16:00", 4, room="Hall"),)
    (one,) = taught_by(replace(closed(*also), rooms=rooms)).floors
    assert (one.rooms, one.pattern, one.shape, one.size) == (2, None, Shape.RECTANGLE, None)


def test_who_was_booked_on_the_room_or_the_whole_job_laid_it():
    bookings = (booked("Tern"), booked("Auk", READING_ROOM), booked("Auk"), booked("Skua", "Hall"))
    (one,) = taught_by(closed(bookings=bookings)).floors
    assert one.fitters == ("Auk", "Tern")


def test_glue_is_taught_by_the_tubs_counted_where_every_laying_counted_them():
    (one,) = taught_by(closed(layings=(replace(LAID, tubs=2),))).glues
    assert (one.product, one.tubs, one.glued_mm2, one.base, one.notch) == (MS.code, 2, 21_320_000, Subfloor.OSB, "")
    assert PastGlue(ref="L", title="", closed_at=CLOSED, glue=MS, lesson=one).grams == 30_000


def test_glue_that_nobody_counted_teaches_nothing():
    assert taught_by(closed()).glues == ()


def test_glue_opened_says_how_much_was_used_where_the_laying_does_not():
    opened = replace(an_opening("2026-11-24 10:00", 3), product=MS.code)
    (one,) = taught_by(closed(opened)).glues
    assert one.tubs == 3


def test_the_notch_is_the_one_last_set_by_hand():
    def line(number, notch):
        at = when(f"2026-11-{number} 10:00")
        return OwnLine(id=number, thing=Thing.GLUE, at=at, why="", product=MS.code, notch=notch)

    facts = closed(layings=(replace(LAID, tubs=2),), own_lines=(line(12, "b11"), line(11, "b3")))
    assert taught_by(facts).glues[0].notch == "B11"


L_SHAPE = ((0, 0), (5000, 0), (5000, 2000), (2000, 2000), (2000, 4000), (0, 4000))
BAY = ((0, 0), (1000, 0), (1400, -600), (2600, -600), (3000, 0), (4000, 0), (4000, 3000), (0, 3000))
STAR = (*L_SHAPE[:-1], (1000, 4000), (1000, 3500), (500, 3500), (500, 4000), (0, 4000))
SPLIT_WALL = ((0, 0), (1500, 0), (4000, 0), (4000, 3000), (0, 3000))
HEARTH = (((1000, 1000), (2000, 1000), (2000, 1500), (1000, 1500)),)


@pytest.mark.parametrize(
    ("outline", "cut_outs", "shape"),
    [
        (SPLIT_WALL, (), Shape.RECTANGLE),
        (L_SHAPE, (), Shape.CORNERS),
        (BAY, (), Shape.CORNERS),
        (SPLIT_WALL, HEARTH, Shape.CORNERS),
        (L_SHAPE, HEARTH, Shape.CUT_UP),
        (STAR, (), Shape.CUT_UP),
    ],
)
def test_a_room_is_as_cut_up_as_its_corners_are_many(outline, cut_outs, shape):
    assert shape_class(a_room(outline=outline, cut_outs=cut_outs)) is shape


losses = st.lists(st.floats(0, 60), min_size=1, max_size=40)
parts = st.floats(0, 1)


@given(losses, parts)
def test_a_quantile_is_numpys(values, part):
    # numpy.quantile, method "linear", is the definition that quantile() names.
    assert quantile(values, part) == pytest.approx(float(np.quantile(values, part)), abs=1e-9)


@pytest.mark.parametrize(("values", "part"), [([], 0.5), ([1.0], 1.1), ([1.0], -0.1)])
def test_a_quantile_of_nothing_or_beyond_all_is_refused(values, part):
    with pytest.raises(Refused):
        quantile(values, part)


def test_without_floors_the_trades_quantile_is_suggested():
    # Handbook on layout and materials, §10.5: prior 8 %, spread 3 points, no jobs: 8.00, 10.14, 11.84 % for these parts
    # (its middle figure, .1014, is read between pseudo-observations; scipy's normal quantile says .1002).
    assert trade_enough(8, 0.5) == pytest.approx(8)
    assert trade_enough(8, 0.9) == pytest.approx(11.84, abs=0.005)
    assert trade_enough(8, 0.75) == pytest.approx(norm.ppf(0.75, loc=8, scale=3))
    assert suggested_percent([], 8) == trade_enough(8)


@given(losses, st.floats(0, 30))
def test_what_is_suggested_lies_between_the_firms_own_and_the_trades_and_nears_its_own(values, trade):
    own, book = float(np.quantile(values, 0.9)), 3 * norm.ppf(0.9) + trade
    told = suggested_percent(values, trade)
    assert min(own, book) - 1e-9 <= told <= max(own, book) + 1e-9
    many = values * 20
    assert abs(suggested_percent(many, trade) - quantile(many, 0.9)) <= abs(quantile(many, 0.9) - book) * 0.2 + 1e-9
    assert own_weight(len(values)) == len(values) / (len(values) + 5)


def test_the_expected_loss_has_the_handbooks_check_values():
    # Handbook on layout and materials, §10.5: jobs (floor, loss) in m², prior 8 %, five pseudo-jobs of 30 m².
    jobs = [(44.3, 2.26), (20, 1.90), (12, 1.32), (60, 3.00), (33, 1.65)]
    told = [(round(floor * 1e6), round(loss * 1e6)) for floor, loss in jobs]
    found = [expected_percent(told[:count], 8) for count in (0, 1, 2, 3, 5)]
    assert found == pytest.approx([8.0, 7.339, 7.541, 7.724, 6.931], abs=0.0006)
    assert expected_percent(told * 4, 8) == pytest.approx(6.349, abs=0.0006)


def test_the_trades_figures_lie_in_what_people_quote():
    # Handbook, §2: rows 5–10 %, herringbone 10–15 %, chevron 15–20 %, small or cut-up rooms 3–5 points more.
    quoted = {Pattern.STRAIGHT: (5, 10), Pattern.HERRINGBONE: (10, 15), Pattern.CHEVRON: (15, 20)}
    for pattern, (least, most) in quoted.items():
        assert least <= trade_percent(pattern, Shape.RECTANGLE, SizeBand.LARGE) <= most
        assert least + 3 <= trade_percent(pattern, Shape.RECTANGLE, SizeBand.SMALL) <= most + 5


def test_the_report_weighs_floors_by_their_area_and_leaves_out_what_does_not_add_up():
    floors = [past(1, loss=5.0), past(2, loss=15.0, allowed_percent=12.0), past(3, loss=50.0, adds_up=False)]
    report = report_on(floors, ())
    assert (report.floors, report.left_out) == (2, 1)
    line = report.losses[0]
    areas = np.array([one.lesson.laid_mm2 for one in floors[:2]], dtype=float)
    assert (line.by, line.floors) == (By.ALL, 2)
    assert line.real_percent == pytest.approx(float(np.average([5, 15], weights=areas)), abs=1e-6)
    assert line.allowed_percent == pytest.approx(float(np.average([10, 12], weights=areas)))
    assert line.enough_percent == pytest.approx(14, abs=1e-4)
    assert line.suggested_percent == pytest.approx(2 / 7 * 14 + 5 / 7 * (7.5 + 3 * norm.ppf(0.9)), abs=1e-4)


def test_a_floor_laid_by_two_counts_for_each_and_one_nobody_was_booked_on_for_nobody():
    floors = [past(1, fitters=("Auk", "Tern")), past(2, fitters=("Tern",)), past(3)]
    told = [(line.of, line.floors) for line in report_on(floors, ()).losses if line.by is By.FITTER]
    assert told == [("Tern", 2), ("Auk", 1)]


def test_every_way_of_sorting_has_every_floor_but_that_by_fitter():
    wide = replace(OAK, code="ASH-220", width_mm=220)
    floors = [past(1), past(2, board=wide, pattern=None), past(3, shape=Shape.CUT_UP, size=None)]
    lines = report_on(floors, ()).losses
    for by in set(By) - {By.FITTER}:
        assert sum(line.floors for line in lines if line.by is by) == 3, by
    assert [line.of for line in lines if line.by is By.WIDTH] == [190, 220]


def test_glue_is_told_by_product_notch_and_base():
    def glue(number, tubs, notch="B11"):
        told = GlueLesson(
            product=MS.code, rooms=1, notch=notch, base=Subfloor.OSB, glued_mm2=20_000_000, ordered=3, tubs=tubs
        )
        return PastGlue(ref=f"L-{number}", title="", closed_at=CLOSED, glue=MS, lesson=told)

    one, other = report_on((), (glue(1, 2), glue(2, 1), glue(3, 2, "B3"))).glues
    # 3 tubs of 15 kg under 40 m² are 1,125 g/m²; the floors took 1,500 and 750.
    assert (one.notch, one.floors, one.real_g_per_m2) == ("B11", 2, 1125)
    assert one.enough_g_per_m2 == pytest.approx(float(np.quantile([1500, 750], 0.9)))
    assert (other.notch, other.floors, other.real_g_per_m2, other.sheet_g_per_m2) == ("B3", 1, 1500, 1000)


def test_worth_is_told_at_the_prices_on_file_and_says_which_have_none():
    floor = past(1, used=22, laid_mm2=20 * OAK.board_mm2, ordered=30, kept=6, scrapped=1, gone=1)
    free = PastGlue(
        ref=floor.ref,
        title="",
        closed_at=CLOSED,
        glue=replace(MS, price_minor=0),
        lesson=GlueLesson(product=MS.code, rooms=1, notch="", base=None, glued_mm2=20_000_000, ordered=3, tubs=2),
    )
    (worth,) = report_on((floor,), (free,)).worths
    # A board costs 30.40. Two were cut off, one scrapped, one gone: four are wasted.
    assert (worth.ordered_minor, worth.used_minor, worth.wasted_minor, worth.left_minor) == (91200, 66880, 12160, 18240)
    assert worth.unpriced == (MS.code,)


def test_worth_is_told_at_what_was_paid_where_the_orders_say_it():
    """12 packs for 2,000.00 are 27.7778 a board: 22 of them 611.11, four 111.11."""
    floor = past(1, used=22, laid_mm2=20 * OAK.board_mm2, ordered=30, kept=6, scrapped=1, gone=1)
    paid = replace(floor, lesson=replace(floor.lesson, paid_packs=12, paid_minor=200_000))
    (worth,) = report_on((paid,), ()).worths
    assert (worth.ordered_minor, worth.used_minor, worth.wasted_minor, worth.left_minor) == (83333, 61111, 11111, 16667)
    given = replace(floor, lesson=replace(floor.lesson, paid_packs=12, paid_minor=0))
    (worth,) = report_on((given,), ()).worths
    assert (worth.used_minor, worth.unpriced) == (0, (OAK.code,))
    tubs = GlueLesson(
        product=MS.code,
        rooms=1,
        notch="",
        base=None,
        glued_mm2=20_000_000,
        ordered=3,
        tubs=2,
        paid_packs=3,
        paid_minor=25_000,
    )
    glue = PastGlue(ref=floor.ref, title="", closed_at=CLOSED, glue=MS, lesson=tubs)
    with_glue, without = (report_on((paid,), some).worths[0] for some in ((glue,), ()))
    assert with_glue.used_minor - without.used_minor == 16667
    assert with_glue.left_minor - without.left_minor == 8333


def test_a_lesson_knows_what_orders_and_suppliers_named_as_price_and_nothing_else():
    def paid(*orders):
        lesson = taught_by(replace(closed(), orders=orders)).floors[0]
        return lesson.paid_packs, lesson.paid_minor

    priced = replace(an_order(12), lines=(OrderLine(product=OAK.code, packs=12, price_minor=17_000),))
    said = ConfirmationDraft(
        at=when("2026-11-11 09:00"), lines=(ConfirmedLine(product=OAK.code, packs=10, due_on=None, price_minor=16_500),)
    )
    assert paid(an_order(12)) == (0, 0)
    assert paid(priced) == (12, 12 * 17_000)
    assert paid(an_order(4), priced) == (12, 12 * 17_000)
    assert paid(replace(priced, confirmed=(said,))) == (10, 10 * 16_500)


def test_no_floors_make_an_empty_report():
    report = report_on((), ())
    assert (report.floors, report.losses, report.glues, report.worths) == (0, (), (), ())


HERRINGBONE = a_room(pattern=Pattern.HERRINGBONE)


def test_a_hint_is_of_the_narrowest_kind_that_has_three_floors():
    herring = [past(number, loss=10.0 + number, pattern=Pattern.HERRINGBONE) for number in range(1, 8)]
    hint = hint_for(HERRINGBONE, OAK, [*herring, past(9, loss=4.0)])
    assert (hint.width_mm, hint.shape, hint.line.floors) == (190, Shape.RECTANGLE, 7)
    assert hint.line.real_percent == pytest.approx(mean(range(11, 18)), abs=0.1)
    wider = replace(OAK, width_mm=220)
    assert hint_for(HERRINGBONE, wider, herring).width_mm is None
    two_like_it = [past(1, pattern=Pattern.HERRINGBONE, shape=Shape.CUT_UP), *herring[:2]]
    assert (hint_for(HERRINGBONE, OAK, two_like_it).shape, hint_for(HERRINGBONE, OAK, two_like_it).line.floors) == (
        None,
        3,
    )


def test_a_hint_is_silent_where_no_floor_of_the_pattern_was_closed():
    assert hint_for(HERRINGBONE, OAK, [past(1), past(2, pattern=None)]) is None
    assert hint_for(a_room(), OAK, [past(1, adds_up=False)]) is None


def test_a_hint_is_of_the_latest_twenty():
    old = [past(number, loss=50.0) for number in range(10)]
    new = [past(100 + number, loss=5.0) for number in range(20)]
    hint = hint_for(a_room(), OAK, [*new, *old])
    assert hint.line.floors == 20
    assert hint.line.real_percent == pytest.approx(5, abs=1e-4)
