"""What is filed is what comes back, for every noun and whatever is in its fields."""

import itertools
from datetime import date, datetime, time, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.errors import Refused, StoreError
from store.records.cabinet import Cabinet
from store.records.opening import open_cabinet
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    Place,
    PlaceKind,
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, ClockForm, FirmDraft
from store.trade.history import HistoryDraft
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.materials import MaterialDraft
from store.trade.products import BoardDraft, GlueDraft
from store.trade.readings import Air, ReadingDraft
from store.trade.traditions import Tradition
from tests.any_evidence import any_evidence, any_measure
from tests.any_stairs import flights, materials
from tests.any_survey import finds, limits, packed_any_way, suppliers

SERIAL = itertools.count(1)
ONE_FILE = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
    max_examples=40,
)

# Text of every kind: terminal codes, quotes, other scripts, nothing at all. Lone surrogates are tested apart.
words = st.text(max_size=30) | st.sampled_from(
    ["[/]", "\x1b]52;c;x\x07", "O'Brien\"; --", "\u202eleft", "\x00", "a\x00b"]
)
days = st.dates()
zones = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
moments = st.datetimes(min_value=datetime(3, 1, 1), max_value=datetime(9997, 1, 1), timezones=zones)  # noqa: DTZ001
counts = st.integers(0, 10**9)
percents = st.floats(0, 100)
temperatures = st.floats(-40, 80)
corners = st.tuples(st.integers(-(10**6), 10**6), st.integers(-(10**6), 10**6))
rings = st.lists(corners, min_size=3, max_size=6).map(tuple)
climates = st.builds(
    ClimateRange,
    temp_min_c=temperatures,
    temp_max_c=temperatures,
    rh_min_percent=percents,
    rh_max_percent=percents,
)
measures = any_measure(temperatures, percents)
board_sheets = packed_any_way(
    st.builds(
        BoardDraft,
        code=words.map(lambda code: f"{code} b{next(SERIAL)}"),
        name=words,
        length_mm=st.integers(1, 10_000),
        width_mm=st.integers(1, 2_000),
        thickness_mm=st.integers(1, 100),
        boards_per_pack=st.integers(1, 10_000),
        acclimatise_hours=counts,
        build=words,
        species=words,
        price_minor=counts,
        climate=st.none() | climates,
        sheet_limits=limits(words),
        supplier=words,
        ready_when_stable=st.booleans(),
        lead_days=st.none() | st.integers(0, 730),
    )
)
glue_sheets = st.builds(
    GlueDraft,
    code=words.map(lambda code: f"{code} g{next(SERIAL)}"),
    name=words,
    rate_g_per_m2=counts,
    tub_kg=st.floats(0, 1000),
    open_time_min=counts,
    walk_on_hours=counts,
    full_load_hours=counts,
    price_minor=counts,
    sheet_limits=limits(words),
    supplier=words,
    needs_training=st.booleans(),
    lead_days=st.none() | st.integers(0, 730),
)
codes = words.map(lambda code: f"{code} m{next(SERIAL)}")
customers = st.builds(CustomerDraft, name=words, phone=words, email=words)
jobs = st.builds(
    JobDraft,
    ref=words.map(lambda ref: f"{ref} {next(SERIAL)}"),
    title=words,
    customer=customers,
    address=words,
    promised_on=st.none() | days,
)
names = words.filter(lambda name: name != "Hall")


def rooms_with(board: str, glue: str) -> st.SearchStrategy[RoomDraft]:
    return st.builds(
        RoomDraft,
        name=names,
        outline=rings,
        subfloor=st.sampled_from(Subfloor),
        method=st.sampled_from(Method),
        board=st.just(board),
        glue=st.none() | st.just(glue),
        cut_outs=st.lists(rings, max_size=3).map(tuple),
        heated=st.booleans(),
        gap_mm=st.integers(0, 100),
        cut_loss_percent=percents,
        screed_mm=st.none() | counts,
        screed_laid_on=st.none() | days,
        site_ready_on=st.none() | days,
        direction_deg=st.none() | st.floats(-360, 360),
        start=st.none() | counts,
        **finds(words),
    )


def read_again(cabinet: Cabinet, ref: str) -> JobFacts:
    """Read a job through another connection, so that nothing comes out of the first one's memory."""
    second = open_cabinet(cabinet.path, create=False)
    try:
        facts = second.facts.of_ref(ref)
    finally:
        second.close()
    assert facts is not None
    return facts


@given(
    st.builds(
        FirmDraft,
        name=words,
        working_days=st.lists(st.integers(0, 6), unique=True).map(tuple),
        day_starts=st.times(),
        day_ends=st.times(),
        holidays=st.lists(days, max_size=4).map(tuple),
        currency=words,
        climate=climates,
        clock_form=st.sampled_from(ClockForm),
        log_gap_hours=counts,
        flat_limit_mm=counts,
        reading_good_days=counts,
        tradition=st.sampled_from(Tradition),
        own_limits=limits(words),
        suppliers=suppliers(words),
        tests_by_area=st.booleans(),
    )
)
@ONE_FILE
def test_the_firm_comes_back_as_it_was_filed(cabinet: Cabinet, draft: FirmDraft) -> None:
    with cabinet.deed():
        known = cabinet.firm.get()
        filed = cabinet.firm.put(draft) if known is None else cabinet.firm.change(draft, known.rev)
    assert cabinet.firm.get() == filed


@given(board_sheets | glue_sheets | materials(codes, words))
@ONE_FILE
def test_a_product_comes_back_as_it_was_filed(cabinet: Cabinet, draft: BoardDraft | GlueDraft | MaterialDraft) -> None:
    with cabinet.deed():
        filed = cabinet.products.add(draft)
    assert cabinet.products.by_code(draft.code) == filed
    assert filed in cabinet.products.all()


@given(st.data())
@ONE_FILE
def test_a_job_and_its_rooms_come_back_as_they_were_filed(cabinet: Cabinet, data: st.DataObject) -> None:
    board, glue, draft = data.draw(board_sheets), data.draw(glue_sheets), data.draw(jobs)
    stairs = data.draw(st.lists(flights(words, board.code), max_size=2, unique_by=lambda flight: flight.name))
    drafts = data.draw(st.lists(rooms_with(board.code, glue.code), max_size=3, unique_by=lambda room: room.name))
    with cabinet.deed():
        products = [cabinet.products.add(board), cabinet.products.add(glue)]
        job = cabinet.jobs.add(draft)
        filed = tuple(cabinet.rooms.add(job.id, room) for room in drafts)
        climbed = tuple(cabinet.flights.add(job.id, flight) for flight in stairs)
    facts = read_again(cabinet, job.ref)
    assert (facts.job, facts.rooms, facts.flights) == (job, filed, climbed)
    named = {room.board for room in filed} | {room.glue for room in filed} | {flight.board for flight in climbed}
    assert facts.products == {product.code: product for product in products if product.code in named}
    assert cabinet.jobs.by_ref(job.ref) == job
    assert cabinet.jobs.refs()[0] == job.ref
    assert draft.customer in cabinet.jobs.customers()
    line = cabinet.jobs.lines()[-1]
    assert (line.id, line.ref, line.customer) == (job.id, job.ref, job.customer.name)
    assert (line.address, line.promised_on) == (job.address, job.promised_on)


places = st.sampled_from([in_room("Hall"), *(Place(kind=kind) for kind in PlaceKind if kind is not PlaceKind.ROOM)])


@given(st.data())
@ONE_FILE
def test_everything_that_happens_comes_back_as_it_was_filed(cabinet: Cabinet, data: st.DataObject) -> None:
    board, draft = data.draw(board_sheets), data.draw(jobs)
    code, draw, hall = st.just(board.code), data.draw, st.just("Hall")
    begun, ended = sorted(draw(st.tuples(moments, moments)))
    came = draw(st.tuples(counts, counts))
    lines = st.builds(
        DeliveryLine,
        product=code,
        batch=words,
        packs=st.just(max(came)),
        damaged_packs=st.just(min(came)),
        use_by=st.none() | days,
    )
    some = {"at": moments, "product": code, "batch": words, "packs": counts}
    with cabinet.deed():
        cabinet.products.add(board)
        job = cabinet.jobs.add(draft)
        cabinet.rooms.add(job.id, draw(rooms_with(board.code, board.code).map(lambda room: _called_hall(room))))
        events, number = cabinet.events, job.id
        order = events.add_order(
            number,
            draw(
                st.builds(
                    OrderDraft,
                    on=days,
                    due_on=st.none() | days,
                    supplier=words,
                    lines=st.lists(st.builds(OrderLine, product=code, packs=counts), max_size=3).map(tuple),
                )
            ),
        )
        delivery = events.add_delivery(
            number,
            draw(st.builds(DeliveryDraft, at=moments, into=places, lines=st.lists(lines, max_size=3).map(tuple))),
        )
        move = events.add_move(number, draw(st.builds(MoveDraft, **some, source=places, target=places)))
        opening = events.add_opening(number, draw(st.builds(OpeningDraft, **some, room=hall)))
        count = events.add_count(
            number, draw(st.builds(CountDraft, **some, boards=counts, to=st.sampled_from(Destination)))
        )
        reading = events.add_reading(
            number,
            draw(
                st.builds(
                    ReadingDraft,
                    room=hall,
                    at=moments,
                    measure=measures,
                    taken_by=words,
                    note=words,
                    evidence=any_evidence(words),
                )
            ),
        )
        smoothing = events.add_smoothing(number, draw(st.builds(SmoothingDraft, room=hall, at=moments, note=words)))
        laying = events.add_laying(
            number,
            LayingDraft(room="Hall", begun_at=begun, ended_at=ended, area_mm2=draw(counts), tubs=draw(counts)),
        )
        handover = events.add_handover(number, draw(st.builds(HandoverDraft, signed_at=moments, by=words)))
        snag = events.add_snag(
            number,
            draw(st.builds(SnagDraft, at=moments, what=words, room=st.just("") | hall, mended_at=st.none() | moments)),
        )
        note = events.add_note(number, draw(st.builds(NoteDraft, at=moments, text=words)))
    facts = read_again(cabinet, job.ref)
    assert facts.orders == (order,)
    assert facts.deliveries == (delivery,)
    assert (facts.moves, facts.openings, facts.counts) == ((move,), (opening,), (count,))
    assert (facts.readings, facts.smoothings, facts.layings) == ((reading,), (smoothing,), (laying,))
    assert (facts.handover, facts.snags, facts.notes) == (handover, (snag,), (note,))


def _called_hall(room: RoomDraft) -> RoomDraft:
    return RoomDraft(name="Hall", outline=room.outline, subfloor=room.subfloor, method=room.method, board=room.board)


@given(
    st.builds(
        HistoryDraft,
        at=moments,
        who=words,
        deed=words,
        job_ref=words,
        subject=words,
        before=words,
        after=words,
    )
)
@ONE_FILE
def test_history_comes_back_as_it_was_written(cabinet: Cabinet, draft: HistoryDraft) -> None:
    with cabinet.deed():
        line = cabinet.history.write(draft)
    assert cabinet.history.latest(1) == (line,)
    assert cabinet.history.of_job(draft.job_ref, 1) == (line,)
    assert cabinet.history.broken() is None


def test_moments_are_told_in_order_whatever_zone_they_were_typed_in(shop) -> None:
    early = datetime(2026, 10, 25, 2, 59, 59, 999999, tzinfo=timezone(timedelta(hours=2)))
    late = datetime(2026, 10, 25, 2, 0, tzinfo=timezone(timedelta(hours=1)))
    with shop.cabinet.deed():
        for at in (late, early):
            shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=at, text="x"))
    query = "SELECT at FROM note ORDER BY at"
    written = [row[0] for row in shop.cabinet.file.connection.execute(query)]
    assert written == ["2026-10-25T00:59:59.999999Z", "2026-10-25T01:00:00.000000Z"]


@pytest.mark.parametrize(
    "at",
    [
        datetime.min.replace(tzinfo=timezone(timedelta(hours=1))),
        datetime.max.replace(tzinfo=timezone(timedelta(hours=-1))),
    ],
)
def test_a_moment_outside_the_calendar_is_refused_and_nothing_is_filed(shop, at: datetime) -> None:
    with pytest.raises(Refused, match="calendar"), shop.cabinet.deed():
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=at, text="x"))
    assert shop.cabinet.facts.of_ref("L-0001").notes == ()


@pytest.mark.parametrize("figure", [float("nan"), float("inf"), -float("inf"), 10**400])
def test_a_figure_that_is_no_number_is_refused(shop, figure: float) -> None:
    draft = ReadingDraft(room=shop.room.name, at=shop.now, measure=Air(temp_c=figure, rh_percent=50.0))
    with pytest.raises(Refused), shop.cabinet.deed():
        shop.cabinet.events.add_reading(shop.job.id, draft)


@pytest.mark.parametrize("packs", [-1, 2**63, 10**400, 1.5, "twelve"])
def test_a_count_that_is_no_count_is_refused(shop, packs: int) -> None:
    draft = OrderDraft(on=date(2026, 1, 1), due_on=None, lines=(OrderLine(product="OAK-190", packs=packs),))
    with pytest.raises(StoreError), shop.cabinet.deed():
        shop.cabinet.events.add_order(shop.job.id, draft)
    assert shop.cabinet.facts.of_ref("L-0001").orders == ()


@pytest.mark.parametrize("text", ["\ud800", "x" * 100_001])
def test_text_that_cannot_be_written_down_is_refused(shop, text: str) -> None:
    with pytest.raises(StoreError), shop.cabinet.deed():
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=shop.now, text=text))


def test_more_damaged_than_came_is_refused_by_the_file_itself(shop) -> None:
    line = DeliveryLine(product="OAK-190", batch="K41", packs=1, damaged_packs=2)
    draft = DeliveryDraft(at=shop.now, into=in_room(shop.room.name), lines=(line,))
    with pytest.raises(StoreError), shop.cabinet.deed():
        shop.cabinet.events.add_delivery(shop.job.id, draft)


def test_an_end_before_its_beginning_is_refused_by_the_file_itself(shop) -> None:
    draft = LayingDraft(room=shop.room.name, begun_at=shop.now, ended_at=shop.now - timedelta(seconds=1))
    with pytest.raises(StoreError), shop.cabinet.deed():
        shop.cabinet.events.add_laying(shop.job.id, draft)


@pytest.mark.parametrize("clock", [time(8), time(16, 30, 15), time(23, 59, 59, 999999)])
def test_clock_times_keep_their_seconds(cabinet: Cabinet, clock: time) -> None:
    with cabinet.deed():
        cabinet.firm.put(FirmDraft(name="Gannet Quay Floors", day_starts=clock))
    assert cabinet.firm.get().day_starts == clock


def test_two_cabinets_in_one_process_keep_to_their_own_files(tmp_path: Path) -> None:
    one, other = (open_cabinet(tmp_path / name, create=True) for name in ("one", "other"))
    with one.deed(), other.deed():
        one.firm.put(FirmDraft(name="One"))
        other.firm.put(FirmDraft(name="Other"))
    assert (one.firm.get().name, other.firm.get().name) == ("One", "Other")
    one.close()
    other.close()
