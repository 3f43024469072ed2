"""Ten job cards with a known right answer: five floors that may be laid, and five that may not.

The limits are those of EN 1264-4:2021 table 2 and the German parquet trade (carbide), the UK timber trade body 2022
(hygrometer) and the US wood-floor association (boards against a wooden subfloor); the cards themselves are made up.
"""

from dataclasses import replace
from datetime import date

import pytest

from store.trade.facts import JobFacts
from store.trade.jobs import OldFloor, Sample, Subfloor
from store.trade.people import Person
from tests.trade.conftest import (
    FIRM,
    MS,
    OAK,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    board_moisture,
    carbide,
    hygrometer,
    standing,
    straightedge,
    timber,
    when,
)
from tui.words.holds import say_hold

NOON = "2026-11-25 12:00"
YESTERDAY = "2026-11-24 09:00"
CEMENT, CALCIUM = Subfloor.CEMENT_SCREED, Subfloor.CALCIUM_SULPHATE
LONG_SETTLED = {"heating_begun_on": date(2026, 10, 20), "heating_proved_on": date(2026, 10, 28)}
DRY_WOOD = (timber(YESTERDAY, 9.5), board_moisture(YESTERDAY, 8.5))
LAPSED = Person(id=1, rev=1, name="Wren", isocyanates_until=date(2026, 11, 24))
TRAINED_GLUE = replace(MS, needs_training=True)


def card(*events: object, glue=MS, people: tuple[Person, ...] = (), **room: object) -> JobFacts:
    """A floor with its packs long in the room, good air and a flat base; ``events`` tell of its moisture."""
    came = (
        an_order(),
        a_delivery("2026-11-10 09:00"),
        air("2026-11-10 09:00"),
        air(YESTERDAY),
        straightedge(YESTERDAY),
    )
    facts = a_job(*came, *events, rooms=(a_room(**room),), products=(OAK, glue))
    return replace(facts, people=people)


READY = {
    "boards on chipboard that agree with it": card(*DRY_WOOD),
    "a cement screed just at 2.0 %": card(carbide(YESTERDAY, 2.0), subfloor=CEMENT),
    "a heated calcium sulphate screed at 0.3 %, proved and off": card(
        carbide(YESTERDAY, 0.3), subfloor=CALCIUM, heated=True, heating_off_from=date(2026, 11, 20), **LONG_SETTLED
    ),
    "glue on concrete at 65 %": card(hygrometer(YESTERDAY, 65), subfloor=Subfloor.CONCRETE),
    "old black glue with a clear sample": card(*DRY_WOOD, old_floor=OldFloor.BLACK_GLUE, old_floor_sample=Sample.CLEAR),
}
NOT_READY = {
    "too damp": (card(carbide(YESTERDAY, 2.1), subfloor=CEMENT), "subfloor_dry", "too damp"),
    "an old floor": (
        card(*DRY_WOOD, old_floor=OldFloor.OLD_COVERING),
        "old_floor",
        "stop, do not sand, scrape or drill",
    ),
    "heating still on": (
        card(carbide(YESTERDAY, 1.8), subfloor=CEMENT, heated=True, **LONG_SETTLED),
        "heating",
        "off or held",
    ),
    "glue short": (
        card(*DRY_WOOD, a_delivery("2026-11-12 09:00", 1, of="MS-15", batch="")),
        "glue",
        "1 tub of MS-15 is missing",
    ),
    "nobody trained": (
        card(
            *DRY_WOOD,
            glue=TRAINED_GLUE,
            people=(Person(id=1, rev=1, name="Wren", isocyanates_until=date(2026, 11, 24)),),
        ),
        "people",
        "trained people only",
    ),
}


@pytest.mark.parametrize("facts", READY.values(), ids=READY)
def test_a_floor_that_a_fitter_would_sign_for_is_ready(facts: JobFacts) -> None:
    assert standing(facts, NOON).verdict == "ready"


@pytest.mark.parametrize(("facts", "kind", "words"), NOT_READY.values(), ids=NOT_READY)
def test_a_floor_that_a_fitter_would_not_sign_for_is_held_by_one_thing_that_is_said(
    facts: JobFacts, kind: str, words: str
) -> None:
    found = standing(facts, NOON)
    (held,) = (one for one in found.holds if one.state != "clear")
    assert (found.verdict, held.kind) == ("blocked", kind)
    assert words in say_hold(held, facts, FIRM, when(NOON))
