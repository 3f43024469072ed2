"""Glue by the notch: what a trowel usually spreads, where the maker's sheet is not at hand."""

import pytest

from store.errors import Refused
from store.trade.notches import BASES, USUAL_G_PER_M2, rate_or_usual, usual_rate


def test_a_rough_base_takes_the_most_and_a_smooth_one_the_least() -> None:
    # The notch's name by TKB note 6; its 1,000 to 1,250 g/m² from memory.
    assert (usual_rate(notch="B11"), usual_rate(notch=" b11 ", base="smooth")) == (1250, 1000)
    assert all(usual_rate(notch=one, base=BASES[0]) < usual_rate(notch=one) for one in USUAL_G_PER_M2)


def test_the_rate_of_the_sheet_goes_before_the_notch() -> None:
    assert rate_or_usual(rate_g_per_m2=930, notch=None) == 930
    assert rate_or_usual(rate_g_per_m2=None, notch="A2") == 350
    with pytest.raises(Refused, match="not both"):
        rate_or_usual(rate_g_per_m2=930, notch="B3")


@pytest.mark.parametrize("notch", [None, "", "B4", "[bold]B3", "x" * 10_000])
def test_a_notch_that_is_not_in_the_table_is_refused_in_a_sentence(notch: str | None) -> None:
    with pytest.raises(Refused) as no:
        rate_or_usual(rate_g_per_m2=None, notch=notch)
    assert len(str(no.value)) < 200
