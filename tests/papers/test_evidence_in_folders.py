"""What stands behind a reading is left out of a folder when there is nothing, and refused where it does not belong."""

import json

import pytest

from store.errors import Refused
from store.papers.events_in import reading as read_reading
from store.papers.events_out import reading as write_reading
from store.papers.json_text import parsed
from store.papers.named import Named
from store.papers.spot import Spot
from store.trade.evidence import Evidence
from store.trade.readings import ReadingDraft

CARBIDE = {"room": "Hall", "at": "2026-11-17T09:30:00+01:00", "kind": "carbide", "percent": 1.8}
NAMED = Named(boards=frozenset(), glues=frozenset(), rooms=frozenset({"Hall"}))


def read(**more: object) -> ReadingDraft:
    spot = Spot(value=parsed(json.dumps(CARBIDE | more).encode()), place="readings[0]")
    return read_reading(spot, NAMED)


def test_a_reading_without_more_is_written_as_it_always_was() -> None:
    assert write_reading(read(), lambda at: at.isoformat()) == CARBIDE


def test_what_stands_behind_it_is_written_and_read_again() -> None:
    more = {"point": "3", "instrument": "bottle 2", "sample_g": 50, "gauge_bar": 0.9, "depth_mm": 30}
    draft = read(**more)
    assert draft.evidence == Evidence(point="3", instrument="bottle 2", sample_g=50.0, gauge_bar=0.9, depth_mm=30)
    assert write_reading(draft, lambda at: at.isoformat()) == CARBIDE | more


@pytest.mark.parametrize("more", [{"hours": 72}, {"sample_g": 0}, {"depth_mm": 2.5}, {"gauge_bar": "1"}, {"point": 3}])
def test_what_does_not_belong_to_it_is_refused_by_its_place(more: dict[str, object]) -> None:
    with pytest.raises(Refused, match=rf"readings\[0\]\.{next(iter(more))}: "):
        read(**more)
