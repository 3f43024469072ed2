"""What a job folder may leave out, and what it may not."""

import re
from collections.abc import Callable
from typing import Any

import pytest

from store.papers.reading_in import read_folder

Spoiled = Callable[[str, object], bytes]

MAY_BE_LEFT_OUT = [
    "people",
    "firm.working_days",
    "firm.day_starts",
    "firm.day_ends",
    "firm.holidays",
    "firm.currency",
    "firm.climate",
    "firm.clock_form",
    "firm.log_gap_hours",
    "firm.flat_limit_mm",
    "firm.reading_good_days",
    "products[0].build",
    "products[0].species",
    "products[0].price_minor",
    "products[0].climate",
    "products[1].price_minor",
    "jobs[0].customer.phone",
    "jobs[0].customer.email",
    "jobs[0].site",
    "jobs[0].site.address",
    "jobs[0].promised_on",
    "jobs[0].rooms[1].cut_outs",
    "jobs[0].rooms[1].heated",
    "jobs[0].rooms[1].glue",
    "jobs[0].rooms[1].gap_mm",
    "jobs[0].rooms[1].cut_loss_percent",
    "jobs[0].rooms[1].screed_mm",
    "jobs[0].rooms[1].screed_laid_on",
    "jobs[0].rooms[1].site_ready_on",
    "jobs[0].rooms[1].direction_deg",
    "jobs[0].rooms[1].start",
    "jobs[0].orders",
    "jobs[0].orders[0].due_on",
    "jobs[0].orders[0].supplier",
    "jobs[0].orders[0].freight_minor",
    "jobs[0].orders[0].lines[0].price_minor",
    "jobs[0].orders[0].confirmed",
    "jobs[0].orders[0].confirmed[0].number",
    "jobs[0].orders[0].confirmed[0].lines[0].due_on",
    "jobs[0].orders[0].confirmed[0].lines[0].price_minor",
    "jobs[0].deliveries",
    "jobs[0].deliveries[0].lines[0].batch",
    "jobs[0].deliveries[0].lines[0].damaged_packs",
    "jobs[0].moves",
    "jobs[0].moves[0].batch",
    "jobs[0].openings",
    "jobs[0].openings[0].batch",
    "jobs[0].readings",
    "jobs[0].readings[0].taken_by",
    "jobs[0].readings[0].note",
    "jobs[0].smoothings",
    "jobs[0].smoothings[0].note",
    "jobs[0].laid",
    "jobs[0].laid[0].tubs",
    "jobs[0].counts",
    "jobs[0].counts[0].batch",
    "jobs[0].snags",
    "jobs[0].snags[0].room",
    "jobs[0].snags[0].mended_at",
    "jobs[0].notes",
    "jobs[0].handover",
]


@pytest.mark.parametrize("place", MAY_BE_LEFT_OUT)
def test_what_may_be_left_out_may_also_be_null(place: str, spoiled: Spoiled) -> None:
    assert read_folder(spoiled(place, None)) == read_folder(spoiled(place, "(left out)"))
    assert read_folder(spoiled(place, None)) != read_folder(spoiled("jobs[0].title", "Another"))


def every_key(value: object, place: str = "") -> list[str]:
    if isinstance(value, list):
        return [key for index, one in enumerate(value) for key in every_key(one, f"{place}[{index}]")]
    if not isinstance(value, dict):
        return []
    own = [f"{place}.{key}" if place else key for key in value]
    return own + [key for name, one in zip(own, value.values(), strict=True) for key in every_key(one, name)]


def anywhere(place: str) -> str:
    return re.sub("[0-9]+", "*", place)


def test_everything_else_must_be_there(
    whole_folder: dict[str, Any], spoiled: Spoiled, refusal: Callable[[bytes], str]
) -> None:
    # Without its list of products a folder speaks of boards that it does not hold; without jobs it is whole.
    may = {anywhere(place) for place in MAY_BE_LEFT_OUT} | {"products", "jobs"}
    must = [place for place in every_key(whole_folder) if anywhere(place) not in may]
    assert len(must) > 60
    for place in must:
        assert refusal(spoiled(place, "(left out)")).startswith(f"{place}: is missing")
