"""Lines of a take-off set by hand come back as they were filed, and an old file has room for them."""

import sqlite3
from datetime import UTC

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.records.seals import broken_seals, seal_row
from store.records.steps import STEPS, materials, step_up
from store.trade.buying.nouns import OwnLineDraft
from store.trade.things import Thing

ONE_FILE = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=30, deadline=None)
moments = st.datetimes(timezones=st.just(UTC))
words = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=40)
own_lines = st.builds(
    OwnLineDraft,
    thing=st.sampled_from([one for one in Thing if not one.is_product]),
    at=moments,
    why=words,
    wanted=st.booleans(),
    units=st.none() | st.integers(0, 100_000),
    size=st.none() | st.floats(0, 1_000_000),
    width_mm=st.none() | st.integers(1, 100_000),
    rate=st.none() | st.floats(0, 1_000_000),
    notch=words,
) | st.builds(OwnLineDraft, thing=st.just(Thing.BOARDS), product=st.just("OAK-190"), at=moments, why=words)


@given(own_lines)
@ONE_FILE
def test_a_line_set_by_hand_comes_back_as_it_was_filed(shop, draft) -> None:
    with shop.cabinet.deed():
        line = shop.cabinet.events.add_own_line(shop.job.id, draft)
    assert shop.cabinet.facts.of_ref(shop.job.ref).own_lines[-1] == line


def test_a_line_for_a_product_that_the_job_no_longer_takes_still_names_it(shop) -> None:
    draft = OwnLineDraft(thing=Thing.GLUE, product="MS-15", at=shop.now, why="One tub stands open", units=1)
    with shop.cabinet.deed():
        job, _ = shop.another_job("L-0009")
        shop.cabinet.events.add_own_line(job.id, draft)
    facts = shop.cabinet.facts.of_ref("L-0009")
    assert facts.own_lines[0].product in facts.products


def test_a_line_for_a_product_nobody_knows_is_refused(shop) -> None:
    draft = OwnLineDraft(thing=Thing.GLUE, product="NONE", at=shop.now, why="", units=1)
    with pytest.raises(Refused), shop.cabinet.deed():
        shop.cabinet.events.add_own_line(shop.job.id, draft)


def test_lines_filed_before_materials_were_products_stay_as_they_were_with_their_seals() -> None:
    file = sqlite3.connect(":memory:", isolation_level=None)
    step_up(file, STEPS[: STEPS.index(materials)])
    file.execute("INSERT INTO customer VALUES (1, 'The Lamp Room', '', '')")
    file.execute("INSERT INTO site VALUES (1, 1, 'Quay 1')")
    file.execute("INSERT INTO job (id, rev, ref, title, site_id) VALUES (1, 1, 'L-0007', 'Hall', 1)")
    for number, size in ((3, "2400.5"), (9, "NULL")):
        file.execute(
            "INSERT INTO own_line (id, job_id, thing, at, wanted, size, notch, why) VALUES"
            f" ({number}, 1, 'skirting', '2026-11-25T07:00:00.000000Z', 1, {size}, '', 'so sold')"
        )
        seal_row(file, "own_line", number)
    before = file.execute("SELECT * FROM own_line ORDER BY id").fetchall()
    step_up(file, STEPS)
    assert file.execute("SELECT * FROM own_line ORDER BY id").fetchall() == before
    assert list(broken_seals(file)) == []
    file.execute(
        "INSERT INTO own_line (job_id, thing, at, wanted, notch, why) VALUES"
        " (1, 'nosing', '2026-11-25T07:00:00.000000Z', 1, '', 'new')"
    )
    assert file.execute("SELECT max(id) FROM own_line").fetchone() == (10,), "no number is given twice"
    with pytest.raises(sqlite3.IntegrityError, match="never changed"):
        file.execute("UPDATE own_line SET why = 'other' WHERE id = 3")
    file.close()
