"""What cladding does to the first and the last step: the ones people stumble on."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.clad_rises import clad_rises

# Rise, cladding, lower and upper floor, first and last rise: handbook 2, section 8.
PUBLISHED = [
    (190, 15, 0, 0, 205, 175),
    (190, 15, 15, 15, 190, 190),
    (190, 15, 14, 10, 191, 185),
    (190, 20, 14, 14, 196, 184),
]


@pytest.mark.parametrize(("rise", "clad", "lower", "upper", "first", "last"), PUBLISHED)
def test_the_handbooks_stairs_come_out(rise: int, clad: int, lower: int, upper: int, first: int, last: int) -> None:
    found = clad_rises(rise_mm=rise, clad_mm=clad, lower_floor_mm=lower, upper_floor_mm=upper)
    assert found == (first, last)


_layers = st.integers(0, 60)


@given(st.integers(100, 250), st.integers(2, 20), _layers, _layers, _layers)
def test_the_steps_still_add_up_to_the_height_between_the_floors(
    rise: int, risers: int, clad: int, lower: int, upper: int
) -> None:
    first, last = clad_rises(rise_mm=rise, clad_mm=clad, lower_floor_mm=lower, upper_floor_mm=upper)
    assert first + (risers - 2) * rise + last == risers * rise - lower + upper


@pytest.mark.parametrize("wrong", [{"rise_mm": 0}, {"rise_mm": 190, "clad_mm": -1}, {"rise_mm": float("nan")}])
def test_what_cannot_be_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(Refused):
        clad_rises(**({"rise_mm": 190, "clad_mm": 14} | wrong))
