"""Old copies are thinned out: few of long ago, many of late, and a clock that jumps loses none that matters."""

from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from store.desk.thinning import ALL_OF_DAYS, ONE_OF_DAYS, ONE_OF_MONTHS, CopyMade, to_go

BEGIN = datetime(2026, 1, 5, 7, tzinfo=UTC)
THREE_YEARS = timedelta(days=3 * 365)
A_DAY = timedelta(days=1)

steps = st.one_of(
    st.timedeltas(min_value=timedelta(minutes=5), max_value=timedelta(days=4)),
    st.sampled_from([timedelta(days=-365), timedelta(days=-1), timedelta(hours=-1), timedelta(days=3650)]),
)


def kept_after(moments: list[datetime]) -> list[CopyMade]:
    """Make a copy at each moment, in this order, and thin out after each, as the desk does."""
    kept: list[CopyMade] = []
    for number, at in enumerate(moments, start=1):
        kept.append(CopyMade(number=number, at=at))
        going = set(to_go(kept))
        assert kept[-1] not in going
        assert kept[0] not in going
        kept = [copy for copy in kept if copy not in going]
    return kept


def moments_from(changes: list[timedelta]) -> list[datetime]:
    moments = [BEGIN]
    for change in changes:
        later = moments[-1] + change
        if not BEGIN - THREE_YEARS < later < BEGIN + 5 * THREE_YEARS:
            later = BEGIN
        moments.append(later)
    return moments


@given(st.lists(steps, min_size=1, max_size=300))
@settings(max_examples=60, deadline=None)
def test_the_newest_and_the_oldest_stay_and_the_number_is_bounded_whatever_the_clock_says(
    changes: list[timedelta],
) -> None:
    kept = kept_after(moments_from(changes))
    newest_days: list[object] = []
    for copy in reversed(kept):
        if copy.at.date() not in newest_days:
            newest_days.append(copy.at.date())
    of_late = [copy for copy in kept if copy.at.date() in newest_days[:ALL_OF_DAYS]]
    assert len(kept) <= len(of_late) + ONE_OF_DAYS + ONE_OF_MONTHS + 1
    assert kept[0].number == 1
    assert kept[-1].number == len(changes) + 1


@given(st.lists(st.integers(min_value=1, max_value=4), min_size=1, max_size=4))
@settings(max_examples=20, deadline=None)
def test_over_three_years_every_late_day_and_every_late_month_keeps_a_copy(a_day: list[int]) -> None:
    days = [BEGIN + A_DAY * count for count in range(3 * 365)]
    made = [day + timedelta(hours=hour) for place, day in enumerate(days) for hour in range(a_day[place % len(a_day)])]
    kept = kept_after(made)
    kept_days = {copy.at.date() for copy in kept}
    assert {day.date() for day in days[-ONE_OF_DAYS:]} <= kept_days
    months = sorted({(day.year, day.month) for day in days})[-ONE_OF_MONTHS:]
    assert set(months) <= {(copy.at.year, copy.at.month) for copy in kept}
    last_two = {day.date() for day in days[-ALL_OF_DAYS:]}
    assert [copy.at for copy in kept if copy.at.date() in last_two] == [at for at in made if at.date() in last_two]
    assert len(kept) <= ALL_OF_DAYS * max(a_day) + ONE_OF_DAYS + ONE_OF_MONTHS + 1


def test_a_clock_that_jumps_ten_years_ahead_once_costs_no_copy() -> None:
    steady = [BEGIN + A_DAY * count for count in range(10)]
    before = kept_after(steady)
    after = kept_after([*steady, BEGIN + timedelta(days=3650)])
    assert {copy.number for copy in before} <= {copy.number for copy in after}


def test_a_clock_set_back_does_not_make_new_copies_look_old() -> None:
    ahead = [BEGIN + timedelta(days=3650) + A_DAY * count for count in range(40)]
    right = [BEGIN + A_DAY * count for count in range(20)]
    kept = kept_after([*ahead, *right])
    assert {at.date() for at in right[-ONE_OF_DAYS:]} <= {copy.at.date() for copy in kept}


def test_of_a_hundred_copies_of_one_day_none_goes_until_two_newer_days_have_some() -> None:
    one_day = [BEGIN + timedelta(minutes=count) for count in range(100)]
    assert len(kept_after(one_day)) == 100
    assert len(kept_after([*one_day, BEGIN + A_DAY])) == 101
    # The oldest of all, the newest of the first day, and one of each of the two days after it.
    assert len(kept_after([*one_day, BEGIN + A_DAY, BEGIN + 2 * A_DAY])) == 4
