"""A screed's own pace: the order of entry never matters, and a stricter limit never comes sooner."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from store.trade.drying_pace import drying_pace

LAID = date(2026, 10, 1)
taken = st.lists(st.tuples(st.integers(1, 200), st.floats(0.5, 6)), min_size=2, max_size=6)


def pace(readings, limit=2.0):
    return drying_pace(
        [(LAID + timedelta(days=age), one) for age, one in readings], laid_on=LAID, limit=limit, step=0.1
    )


@given(taken, st.randoms(use_true_random=False))
@settings(max_examples=60, deadline=None)
def test_readings_in_any_order_show_one_pace(readings, chance) -> None:
    mixed = list(readings)
    chance.shuffle(mixed)
    assert pace(mixed) == pace(readings)


@given(taken)
@settings(max_examples=60, deadline=None)
def test_a_stricter_limit_is_never_met_sooner(readings) -> None:
    usual, strict = pace(readings, 2.0), pace(readings, 1.8)
    if usual and strict:
        assert strict.earliest >= usual.earliest
        assert usual.latest is not None or strict.latest is None


def test_a_screed_that_gets_no_drier_or_was_read_once_shows_no_pace() -> None:
    assert pace([(40, 3.0), (60, 3.1)]) is None
    assert pace([(40, 3.0), (40, 2.8)]) is None
