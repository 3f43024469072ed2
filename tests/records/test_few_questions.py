"""However many jobs there are, a list costs the same few questions, and past jobs cost nothing."""

from datetime import timedelta

import pytest

from store.trade.events import CountDraft, Destination, PlaceKind

THE_MOST = 25  # about one question for each table


class Asked:
    """Counts what the database is asked, through peewee's own hook."""

    def __init__(self, shop) -> None:
        self._hooks = shop.cabinet.file.database.query_hooks
        self.questions: list[tuple[str, list[object]]] = []

    def __enter__(self) -> "Asked":
        self._hooks.append(self._note)
        return self

    def __exit__(self, *_: object) -> None:
        self._hooks.remove(self._note)

    def _note(self, event) -> None:
        self.questions.append((event.sql, event.params))


def take_on(shop, count: int, *, closed: bool = False) -> None:
    with shop.cabinet.deed():
        for number in range(count):
            job, _ = shop.another_job(f"{'P' if closed else 'L'}-{number:04}-{count}")
            shop.let_everything_happen_to(job)
            shop.write_history(job.ref)
            if closed:
                shop.cabinet.jobs.mark_closed(job.id, shop.now - timedelta(days=1))


QUESTIONS = {
    "open jobs whole": (lambda shop: shop.cabinet.facts.open_at(shop.now), THE_MOST),
    "all jobs whole": (lambda shop: shop.cabinet.facts.many(None), THE_MOST),
    "some jobs whole": (lambda shop: shop.cabinet.facts.many(shop.cabinet.jobs.refs()), THE_MOST + 1),
    "one job whole": (lambda shop: shop.cabinet.facts.of_ref("L-0001"), THE_MOST),
    "job lines": (lambda shop: shop.cabinet.jobs.lines(), 1),
    "stock": (lambda shop: shop.cabinet.stock.movements(shop.now), 2),
    "references": (lambda shop: shop.cabinet.jobs.refs(), 1),
    "history": (lambda shop: shop.cabinet.history.of_job("L-0001"), 1),
}


@pytest.mark.parametrize("name", QUESTIONS)
def test_a_list_of_thirty_jobs_costs_as_many_questions_as_one_of_two(shop, name: str) -> None:
    ask, most = QUESTIONS[name]
    costs = []
    for count in (1, 29):
        take_on(shop, count)
        with Asked(shop) as asked:
            assert ask(shop)
        costs.append(len(asked.questions))
    assert costs[0] == costs[1] <= most


@pytest.mark.parametrize("name", ["open jobs whole", "one job whole", "stock", "history"])
def test_no_question_about_open_jobs_reads_a_whole_table(shop, name: str) -> None:
    take_on(shop, 3)
    take_on(shop, 30, closed=True)
    ask, _ = QUESTIONS[name]
    with Asked(shop) as asked:
        ask(shop)
    assert asked.questions
    for sql, params in asked.questions:
        if 'FROM "person"' in sql:
            continue  # the people of the firm are a handful, and every one of them is wanted
        plan = shop.cabinet.file.connection.execute(f"EXPLAIN QUERY PLAN {sql}", params).fetchall()
        # What a question has gathered by indexes may be read through.
        # A list handed over by us may be read through, and so may the people of the firm, who are a handful.
        own = ("json_each", "SCAN person")
        scans = [step for *_, step in plan if step.startswith("SCAN") and not any(one in step for one in own)]
        assert all(step.startswith(("SCAN (subquery", "SCAN (join")) for step in scans), (scans, sql)


def test_past_jobs_are_left_out_and_come_back_when_opened_again(shop) -> None:
    job, _ = _closed_job(shop, shop.now - timedelta(hours=1))
    later, _ = _closed_job(shop, shop.now + timedelta(hours=1), "P-2")
    facts = shop.cabinet.facts
    assert [one.job.ref for one in facts.open_at(shop.now)] == ["L-0001", later.ref]
    assert [line.closed_at for line in shop.cabinet.jobs.lines()] == [
        None,
        shop.now - timedelta(hours=1),
        shop.now + timedelta(hours=1),
    ]
    with shop.cabinet.deed():
        shop.cabinet.jobs.mark_closed(job.id, None)
    assert [one.job.ref for one in facts.open_at(shop.now)] == ["L-0001", job.ref, later.ref]


def _closed_job(shop, closed_at, ref: str = "P-1"):
    with shop.cabinet.deed():
        job, room = shop.another_job(ref)
        shop.cabinet.jobs.mark_closed(job.id, closed_at)
    return job, room


def test_the_stock_is_told_with_what_past_jobs_left_on_the_shelf_and_with_customers_and_no_more(shop) -> None:
    with shop.cabinet.deed():
        past, _ = shop.another_job("P-1")
        shop.let_everything_happen_to(past)
        draft = CountDraft(at=shop.now, product="OAK-190", batch="K41", packs=1, boards=0, to=Destination.CUSTOMER)
        shop.cabinet.events.add_count(past.id, draft)
        shop.cabinet.jobs.mark_closed(past.id, shop.now)
        shop.let_everything_happen_to(shop.job)
    told = [(one.job_ref, one.job_closed, one.cause, one.target.kind) for one in shop.cabinet.stock.movements(shop.now)]
    assert told == [
        # What was carried to the unit did not all leave it again, and a stock-take spoke of it.
        ("P-1", True, "move", PlaceKind.UNIT),
        ("P-1", True, "count", PlaceKind.SHELF),
        ("P-1", True, "count", PlaceKind.CUSTOMER),
        ("L-0001", False, "delivery", PlaceKind.ROOM),
        ("L-0001", False, "move", PlaceKind.UNIT),
        ("L-0001", False, "opening", PlaceKind.OPENED),
        ("L-0001", False, "count", PlaceKind.SHELF),
        ("P-1", True, "stock-take", PlaceKind.UNIT),
        ("L-0001", False, "stock-take", PlaceKind.UNIT),
    ]


def test_facts_name_only_the_products_of_their_own_job(shop) -> None:
    take_on(shop, 1)
    whole = shop.cabinet.facts.many(None)
    assert [sorted(facts.products) for facts in whole] == [["MS-15", "OAK-190"], ["MS-15", "OAK-190"]]


def test_more_jobs_are_asked_for_by_name_than_sqlite_takes_parameters(shop) -> None:
    refs = [f"N-{number}" for number in range(40_000)]
    assert shop.cabinet.facts.many([*refs, "L-0001"])[0].job == shop.job
    assert shop.cabinet.facts.of_ref("N-1") is None
