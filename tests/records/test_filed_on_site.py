"""Morning lists, voidings and training come back as they were filed, whatever is in their fields."""

import itertools
from datetime import date, datetime, timedelta, timezone

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.trade.morning import MorningCheckDraft
from store.trade.people import PersonDraft
from store.trade.voiding import VoidedBy, VoidingDraft

SERIAL = itertools.count(1)
ONE_FILE = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], deadline=None, max_examples=30
)
words = st.text(max_size=30) | st.sampled_from(["[/]", "\x1b]52;c;x\x07", "O'Brien\"; --", "\u202eleft", "\x00"])
zones = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
moments = st.datetimes(min_value=datetime(3, 1, 1), max_value=datetime(9997, 1, 1), timezones=zones)  # noqa: DTZ001
degrees, percents, days = st.floats(-40, 80), st.floats(0, 100), st.none() | st.dates()
mornings = st.builds(
    MorningCheckDraft,
    room=st.just("Reading room"),
    at=moments,
    temp_c=degrees,
    rh_percent=percents,
    surface_c=degrees,
    mixed=st.booleans(),
    wedges=st.booleans(),
    extraction=st.booleans(),
    who=words,
    note=words,
)
voidings = st.builds(
    VoidingDraft, room=st.just("Reading room"), at=moments, cause=st.sampled_from(VoidedBy), note=words
)


@given(mornings, voidings)
@ONE_FILE
def test_what_is_noted_on_site_comes_back_as_it_was_filed(shop, morning, voiding) -> None:
    with shop.cabinet.deed():
        noted = shop.cabinet.events.add_morning(shop.job.id, morning)
        voided = shop.cabinet.events.add_voiding(shop.job.id, voiding)
    facts = shop.cabinet.facts.of_ref(shop.job.ref)
    assert (facts.mornings[-1], facts.voidings[-1]) == (noted, voided)


@given(days, days)
@ONE_FILE
def test_somebodys_training_comes_back_as_it_was_noted(shop, first: date | None, then: date | None) -> None:
    name = f"Wren {next(SERIAL)}"
    with shop.cabinet.deed():
        person = shop.cabinet.people.add(PersonDraft(name=name, isocyanates_until=first))
    assert person in shop.cabinet.people.all()
    with shop.cabinet.deed():
        trained = shop.cabinet.people.change(person.id, PersonDraft(name=name, isocyanates_until=then), person.rev)
    assert trained in shop.cabinet.facts.of_ref(shop.job.ref).people
