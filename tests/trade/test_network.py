"""Networks of waits and work: earliest and latest times, float, the deciding chain, held against outside sources."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.planning.activities import Activity, Bound, Fixed, Pace
from store.trade.planning.hours import hours_worked, with_days_off, work_begun_by, work_done_at
from store.trade.planning.network import in_order, timetable
from tests.trade.conftest import FIRM, ZERO, hours, when

ONE_DAY_WEEK = replace(FIRM, working_days=(2,))


def act(name, took=0.0, *after, **more):
    return Activity(name=name, hours=took, after=after, **more)


def work(name, took, *after, **more):
    return act(name, took, *after, pace=Pace.WORKING, **more)


# ---- a published worked example
# Hillier & Lieberman, Introduction to Operations Research, the building contractor's project (from memory): durations
# in weeks, the chain A B C E F J L N of 44 weeks, and the slack of every activity.

CONTRACTOR = {
    "A": (2, "", 0),
    "B": (4, "A", 0),
    "C": (10, "B", 0),
    "D": (6, "C", 4),
    "E": (4, "C", 0),
    "F": (5, "E", 0),
    "G": (7, "D", 4),
    "H": (9, "EG", 4),
    "I": (7, "C", 2),
    "J": (8, "FI", 0),
    "K": (4, "J", 1),
    "L": (5, "J", 0),
    "M": (2, "H", 4),
    "N": (6, "KL", 0),
}


def test_the_contractors_project_of_the_textbook_takes_44_weeks_and_has_the_printed_slack():
    network = [act(name, took, *before) for name, (took, before, _) in CONTRACTOR.items()]
    table = timetable(FIRM, network, ZERO, promised=ZERO + hours(44))
    assert table.finish == ZERO + hours(44)
    assert "".join(one.activity.name for one in table.chain()) == "ABCEFJLN"
    slack = {name: table.of(name).float_hours for name in CONTRACTOR}
    assert slack == {name: printed for name, (_, _, printed) in CONTRACTOR.items()}


# ---- networkx, longest paths


@st.composite
def networks(draw):
    size = draw(st.integers(1, 12))
    found = []
    for number in range(size):
        before = draw(st.sets(st.integers(0, number - 1), max_size=4)) if number else set()
        found.append(act(str(number), draw(st.integers(0, 200)), *(str(one) for one in sorted(before))))
    return draw(st.permutations(found))


@settings(max_examples=60)
@given(network=networks(), spare=st.integers(-50, 50))
def test_earliest_and_latest_times_are_the_longest_paths_of_networkx(network, spare):
    graph = nx.DiGraph()
    for one in network:
        graph.add_edge("begin", (one.name, "in"), weight=0)
        graph.add_edge((one.name, "in"), (one.name, "out"), weight=one.hours)
        graph.add_edge((one.name, "out"), "end", weight=0)
        for before in one.after:
            graph.add_edge((before, "out"), (one.name, "in"), weight=0)
    longest = nx.dag_longest_path_length(graph)
    table = timetable(FIRM, network, ZERO, promised=ZERO + hours(longest + spare))
    assert table.finish == ZERO + hours(longest)
    for one in table.times:
        node = (one.activity.name, "in")
        into = graph.subgraph(nx.ancestors(graph, node) | {node})
        out_of = graph.subgraph(nx.descendants(graph, node) | {node})
        start = nx.dag_longest_path_length(into)
        assert one.earliest_start == ZERO + hours(start)
        assert one.float_hours == longest + spare - start - nx.dag_longest_path_length(out_of)
    assert sum(one.activity.hours for one in table.chain()) == longest
    assert min(one.float_hours for one in table.times) == spare


# ---- waits and work


def test_the_boards_decide_and_levelling_may_be_done_at_any_time_meanwhile():
    monday = when("2026-11-16 08:00")
    network = [act("boards", 168), work("level", 6), work("lay", 8, "boards", "level")]
    table = timetable(FIRM, network, monday, promised=when("2026-11-24 16:30"))
    assert table.of("lay").earliest_start == when("2026-11-23 08:00")
    assert table.of("lay").latest_start == when("2026-11-24 08:30")
    assert [one.activity.name for one in table.chain("lay")] == ["boards", "lay"]
    assert table.of("boards").float_hours == 24.5


def test_a_wait_runs_through_the_night_and_work_does_not():
    friday = when("2026-11-20 15:00")
    table = timetable(FIRM, [act("cure", 24), work("skirting", 3)], friday)
    assert table.of("cure").earliest_finish == when("2026-11-21 15:00")
    assert table.of("skirting").earliest_finish == when("2026-11-23 09:30")


def test_work_that_ends_with_the_day_ends_that_evening():
    assert work_done_at(FIRM, when("2026-11-20 08:00"), 8.5) == when("2026-11-20 16:30")


def test_a_window_keeps_work_back_and_says_so():
    table = timetable(FIRM, [work("lay", 4, not_before=when("2026-11-25 10:00"))], when("2026-11-20 08:00"))
    assert table.of("lay").earliest_start == when("2026-11-25 10:00")
    assert table.of("lay").bound is Bound.WINDOW


def test_a_window_that_closes_too_early_leaves_less_than_no_float():
    closing = work("lay", 8.5, not_after=when("2026-11-20 16:30"))
    assert timetable(FIRM, [closing], when("2026-11-20 08:00")).of("lay").float_hours == 0
    assert timetable(FIRM, [closing], when("2026-11-20 09:00")).of("lay").float_hours == -1


def test_without_a_promise_there_is_no_latest_and_no_float():
    only = timetable(FIRM, [act("cure", 24)], ZERO).of("cure")
    assert (only.latest_start, only.latest_finish, only.float_hours) == (None, None, None)


def test_what_happened_is_not_moved_and_decides_what_follows():
    network = [
        act("order", 400),
        act("boards", 168, "order", fixed=Fixed(begun_at=when("2026-11-10 09:00"), ended_at=when("2026-11-17 09:00"))),
        work("lay", 8, "boards"),
    ]
    table = timetable(FIRM, network, when("2026-11-16 08:00"), promised=when("2026-11-16 12:00"))
    assert table.of("lay").earliest_start == when("2026-11-17 09:00")
    assert table.of("boards").float_hours is None
    assert table.of("order").float_hours < 0  # the promise itself still counts for it
    assert [one.activity.name for one in table.chain("lay")] == ["boards", "lay"]


def test_a_site_that_is_shut_and_people_with_days_off_keep_only_their_own_work():
    off = with_days_off(FIRM, [date(2026, 11, 23), date(2026, 11, 24)])
    table = timetable(FIRM, [work("lay", 1, calendar=off), work("level", 1)], when("2026-11-21 08:00"))
    assert table.of("lay").earliest_start == when("2026-11-25 08:00")
    assert table.of("level").earliest_start == when("2026-11-23 08:00")


def test_an_order_takes_whole_days_and_is_over_in_the_morning():
    lead = act("lead", 14 * 24, pace=Pace.DAYS)
    table = timetable(FIRM, [lead], when("2026-10-20 15:00"), promised=when("2026-11-04 12:00"))
    assert table.of("lead").earliest_finish == when("2026-11-03 08:00")  # over the change of the clocks
    assert table.of("lead").latest_start == when("2026-10-22 00:00") - datetime.resolution
    early = timetable(FIRM, [lead], when("2026-10-20 15:00"), promised=when("2026-11-04 07:00"))
    assert early.of("lead").latest_start == when("2026-10-21 00:00") - datetime.resolution


# ---- clock changes, holidays, a firm that works one day a week


def test_a_wait_over_a_clock_change_keeps_its_hours_and_work_its_wall_clock():
    saturday = when("2026-10-24 12:00")
    table = timetable(FIRM, [act("cure", 24), work("lay", 2, "cure")], saturday)
    assert table.of("cure").earliest_finish == when("2026-10-25 11:00")
    assert table.of("lay").earliest_start == when("2026-10-26 08:00")


def test_work_over_a_holiday_goes_on_after_it_and_back_again():
    firm = replace(FIRM, holidays=(date(2026, 12, 25),))
    table = timetable(firm, [work("lay", 17)], when("2026-12-24 08:00"), promised=when("2026-12-28 16:30"))
    assert table.of("lay").earliest_finish == when("2026-12-28 16:30")
    assert table.of("lay").float_hours == 0


def test_a_firm_that_works_wednesdays_lays_two_days_of_floor_in_two_weeks():
    table = timetable(ONE_DAY_WEEK, [work("lay", 17)], when("2026-11-19 08:00"), promised=when("2026-12-03 12:00"))
    lay = table.of("lay")
    assert (lay.earliest_start, lay.earliest_finish) == (when("2026-11-25 08:00"), when("2026-12-02 16:30"))
    assert lay.latest_start == when("2026-11-25 08:00")


def test_a_firm_that_never_works_is_told_so_forward_and_back():
    never = replace(FIRM, working_days=())
    with pytest.raises(Refused, match="no working day"):
        timetable(never, [work("lay", 1)], ZERO)
    with pytest.raises(Refused, match="no working day"):
        work_begun_by(never, ZERO, 1)


instants = st.datetimes(datetime(2026, 1, 1), datetime(2027, 12, 31), timezones=st.just(UTC))  # noqa: DTZ001
firms = st.builds(
    lambda days, off, zone: replace(
        FIRM,
        working_days=tuple(sorted(days)),
        holidays=tuple(date(2026, 1, 1) + timedelta(days=one) for one in off),
        time_zone=zone,
    ),
    st.sets(st.integers(0, 6), min_size=1),
    st.sets(st.integers(0, 700), max_size=20),
    st.sampled_from(["Europe/Brussels", "America/New_York", "Australia/Lord_Howe"]),
)


@settings(max_examples=60)
@given(firm=firms, at=instants, took=st.integers(1, 600).map(lambda tenths: tenths / 10))
def test_work_begun_at_its_latest_is_done_in_time_and_begun_later_it_is_not(firm, at, took):
    start = work_begun_by(firm, at, took)
    assert work_done_at(firm, start, took) <= at
    assert work_done_at(firm, start + datetime.resolution, took) > at
    assert hours_worked(firm, start, work_done_at(firm, start, took)) == pytest.approx(took)
    done = work_done_at(firm, at, took)
    assert hours_worked(firm, at, done) == pytest.approx(took)
    assert work_begun_by(firm, done, took) >= at


def test_work_that_takes_no_time_is_done_at_the_last_working_moment_of_the_day():
    last = work_begun_by(FIRM, when("2026-11-22 12:00"), 0)
    assert last == when("2026-11-20 16:30") - datetime.resolution
    assert work_done_at(FIRM, last, 0) == last
    assert work_begun_by(replace(FIRM, day_starts=time(9)), when("2026-11-20 08:30"), 0).date() == date(2026, 11, 19)


# ---- what is no network


def test_a_circle_is_refused_with_a_sentence_that_names_it():
    circle = [act("order", 1), act("lay", 1, "cure", "order"), act("cure", 1, "skirting"), act("skirting", 1, "lay")]
    with pytest.raises(Refused) as refused:
        timetable(FIRM, [*circle, act("handover", 1, "cure")], ZERO)
    assert str(refused.value) == "This plan goes round in a circle: “lay” → “skirting” → “cure” → “lay”."


def test_what_follows_itself_is_a_circle_too():
    with pytest.raises(Refused, match="“lay” → “lay”"):
        in_order([act("lay", 1, "lay")])


def test_unknown_forerunners_twin_names_and_negative_times_are_refused():
    with pytest.raises(Refused, match="“lay” follows “dry”, which is not in the plan"):
        in_order([act("lay", 1, "dry")])
    with pytest.raises(Refused, match="one name"):
        in_order([act("lay", 1), act("lay", 2)])
    with pytest.raises(Refused, match="backwards"):
        in_order([act("lay", -1)])


def test_an_empty_network_has_no_finish_and_no_chain():
    table = timetable(FIRM, [], ZERO)
    assert (table.finish, table.chain(), table.times) == (None, (), ())
