"""Materials and stairs at the desk: what may not be changed under the lines that name it, and two of one name."""

from dataclasses import replace
from pathlib import Path

import pytest

from store.errors import DraftRefused
from store.trade.flights import FlightDraft
from store.trade.materials import Material, MaterialDraft
from store.trade.things import Thing
from tests.desk.shop_floor import desk_at

STICK = MaterialDraft(code="SK-24", name="Oak skirting", thing=Thing.SKIRTING, size=2400, price_minor=1950)
STAIRS = FlightDraft(name="Hall stairs", rise_mm=2600, width_mm=860, code="ad-k-private", going_mm=225)


def test_a_material_stays_the_thing_it_is_and_keeps_its_kind(records: Path) -> None:
    with desk_at(records) as desk:
        stick = desk.products.add(STICK)
        assert isinstance(stick, Material)
        with pytest.raises(DraftRefused, match="stays the thing it is"):
            desk.products.change(stick, replace(STICK, thing=Thing.NOSING))
        board = next(one for one in desk.products.all() if one.thing is Thing.BOARDS)
        with pytest.raises(DraftRefused, match="keeps its code"):
            desk.products.change(board, replace(STICK, code=board.code))
        changed = desk.products.change(stick, replace(STICK, size=3000))
        assert changed == replace(stick, size=3000, rev=2)


def test_two_flights_of_one_job_have_two_names(records: Path) -> None:
    with desk_at(records) as desk:
        with pytest.raises(DraftRefused, match="already"):
            desk.flights.add("FRESH", STAIRS)
        assert desk.flights.add("DONE", STAIRS).rev == 1


def test_a_room_cannot_be_glued_with_a_material(records: Path) -> None:
    with desk_at(records) as desk:
        desk.products.add(replace(STICK, code="PR", thing=Thing.PRIMER, size=10))
        room = desk.jobs.card("FRESH").facts.rooms[0]
        assert [one.field for one in desk.jobs.room_problems("FRESH", replace(room, glue="PR"), room=room)] == ["glue"]
