"""Whatever a folder holds, it is written and read again without a difference."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta, timezone

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.papers.folder import Folder, JobFolder
from store.papers.reading_in import read_folder
from store.papers.writing_out import write_folder
from store.trade.buying.nouns import OwnLineDraft
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft, CreditFor
from store.trade.events import (
    UNIT,
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
from store.trade.firm import ClimateRange, ClockForm, FirmDraft
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.materials import MaterialDraft
from store.trade.morning import MorningCheckDraft
from store.trade.outline import rectangle
from store.trade.people import PersonDraft
from store.trade.products import BoardDraft, GlueDraft
from store.trade.readings import ReadingDraft
from store.trade.stock_take import DifferenceDraft, Way
from store.trade.things import Thing
from store.trade.traditions import Tradition
from store.trade.voiding import VoidedBy, VoidingDraft
from tests.any_diary import booked, days_off, parts
from tests.any_evidence import any_measure, behind
from tests.any_stairs import flights, materials
from tests.any_survey import finds, limits, packed_any_way, suppliers

texts = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=12)
names = texts.filter(str.strip)
codes = names.filter(lambda code: len(code) <= 40)
room_names = names.filter(lambda name: name.casefold() != "unit")
days = st.dates(date(1900, 1, 1), date(2199, 12, 31))
offsets = st.one_of(st.just(UTC), st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m))))
instants = st.datetimes(datetime(1900, 1, 2), datetime(2199, 12, 30), timezones=offsets)  # noqa: DTZ001 - zoned there
some = st.integers(1, 1_000_000)
none_or_some = st.integers(0, 1_000_000)
percents = st.floats(0, 100)
degrees = st.floats(-40, 80)
measures = any_measure(degrees, percents)
climates = st.builds(
    ClimateRange,
    temp_min_c=st.floats(-20, 10),
    temp_max_c=st.floats(11, 60),
    rh_min_percent=st.floats(0, 40),
    rh_max_percent=st.floats(41, 100),
)
firms = st.builds(
    FirmDraft,
    name=names,
    time_zone=st.sampled_from(["Europe/Brussels", "Europe/Amsterdam", "America/New_York", "Asia/Kathmandu", "UTC"]),
    working_days=st.lists(st.integers(0, 6), min_size=1, unique=True).map(tuple),
    day_starts=st.times(max_value=time(11, 59)),
    day_ends=st.times(min_value=time(12)),
    holidays=st.lists(days, max_size=3).map(tuple),
    currency=texts,
    climate=climates,
    clock_form=st.sampled_from(ClockForm),
    log_gap_hours=st.integers(1, 168),
    flat_limit_mm=st.integers(0, 50),
    reading_good_days=st.integers(1, 90),
    tradition=st.sampled_from(Tradition),
    own_limits=limits(texts),
    suppliers=suppliers(texts),
    tests_by_area=st.booleans(),
)
boards = packed_any_way(
    st.builds(
        BoardDraft,
        code=codes,
        name=names,
        length_mm=st.integers(50, 10_000),
        width_mm=st.integers(10, 2_000),
        thickness_mm=st.integers(1, 100),
        boards_per_pack=st.integers(1, 10_000),
        acclimatise_hours=st.integers(0, 8_760),
        build=texts,
        species=texts,
        price_minor=st.integers(0, 100_000_000),
        climate=st.none() | climates,
        sheet_limits=limits(texts),
        supplier=texts,
        ready_when_stable=st.booleans(),
        lead_days=st.none() | st.integers(0, 730),
    )
)
glues = st.builds(
    GlueDraft,
    code=codes,
    name=names,
    rate_g_per_m2=st.integers(1, 20_000),
    tub_kg=st.floats(0.001, 1_000),
    open_time_min=st.integers(1, 1_440),
    walk_on_hours=st.integers(0, 2_000),
    full_load_hours=st.integers(2_000, 4_000),
    price_minor=st.integers(0, 100_000_000),
    sheet_limits=limits(texts),
    supplier=texts,
    needs_training=st.booleans(),
    lead_days=st.none() | st.integers(0, 730),
)


people = st.builds(
    PersonDraft,
    name=names,
    herringbone=st.booleans(),
    stairs=st.booleans(),
    isocyanates_until=st.none() | days,
    days_off=st.lists(st.builds(days_off, days, days, texts), max_size=2).map(tuple),
)


def few(one: st.SearchStrategy[object]) -> st.SearchStrategy[tuple[object, ...]]:
    return st.lists(one, max_size=2).map(tuple)


def rooms_called(name: str, board: str, glue: str) -> st.SearchStrategy[RoomDraft]:
    cut_out = ((1_000, 0), (2_000, 0), (2_000, 500), (1_000, 500))
    return st.builds(
        RoomDraft,
        name=st.just(name),
        outline=st.builds(rectangle, st.integers(3_000, 90_000), st.integers(1_000, 90_000)),
        cut_outs=st.sampled_from([(), (cut_out,)]),
        subfloor=st.sampled_from(Subfloor),
        method=st.sampled_from(Method),
        board=st.just(board),
        glue=st.sampled_from([None, glue]),
        heated=st.booleans(),
        gap_mm=st.integers(0, 100),
        cut_loss_percent=percents,
        screed_mm=st.none() | st.integers(5, 500),
        screed_laid_on=st.none() | days,
        site_ready_on=st.none() | days,
        direction_deg=st.none() | st.floats(-360, 360),
        start=st.none() | st.integers(0, 3),
        **finds(texts),
    )


prices = st.none() | st.integers(0, 100_000_000)


@st.composite
def layings(draw: st.DrawFn, room: str) -> LayingDraft:
    begun_at, tubs = draw(instants), draw(st.none() | none_or_some)
    if draw(st.booleans()):
        return LayingDraft(room=room, begun_at=begun_at, tubs=tubs)
    ended_at = begun_at + draw(st.timedeltas(timedelta(0), timedelta(hours=12)))
    area_mm2 = draw(st.integers(1, 10**12))
    return LayingDraft(room=room, begun_at=begun_at, ended_at=ended_at, area_mm2=area_mm2, tubs=tubs)


@st.composite
def orders(draw: st.DrawFn, product: st.SearchStrategy[str]) -> OrderDraft:
    first, second = sorted((draw(days), draw(days)))
    line = st.builds(OrderLine, product=product, packs=some, price_minor=prices)
    said = st.builds(ConfirmedLine, product=product, packs=none_or_some, due_on=st.none() | days, price_minor=prices)
    confirmed = st.builds(
        ConfirmationDraft, at=instants, lines=st.lists(said, min_size=1, max_size=2).map(tuple), number=texts
    )
    return OrderDraft(
        on=first,
        due_on=draw(st.sampled_from([None, second])),
        lines=tuple(draw(st.lists(line, min_size=1, max_size=2))),
        supplier=draw(texts),
        freight_minor=draw(st.integers(0, 100_000_000)),
        confirmed=draw(few(confirmed)),
    )


@st.composite
def delivery_lines(draw: st.DrawFn, product: st.SearchStrategy[str]) -> DeliveryLine:
    packs = draw(some)
    damaged = draw(st.integers(0, packs))
    return DeliveryLine(
        product=draw(product), batch=draw(texts), packs=packs, damaged_packs=damaged, use_by=draw(st.none() | days)
    )


@st.composite
def differences(draw: st.DrawFn, product: st.SearchStrategy[str], of_job: bool) -> DifferenceDraft:
    boards = 0 if of_job else draw(st.integers(0, 10_000))
    return DifferenceDraft(
        at=draw(instants),
        product=draw(product),
        batch=draw(texts),
        packs=draw(st.integers(0 if boards else 1, 10_000)),
        boards=boards,
        way=draw(st.sampled_from(Way)),
        why=draw(names),
    )


@st.composite
def jobs(draw: st.DrawFn, ref: str, board: str, glue: str, material: MaterialDraft) -> JobFolder:
    called = draw(st.lists(room_names, min_size=1, max_size=2, unique=True))
    room, product = st.sampled_from(called), st.sampled_from([board, glue, material.code])
    into = st.one_of(st.just(UNIT), room.map(in_room))
    kinds = [PlaceKind.SHELF, PlaceKind.OPENED, PlaceKind.CUSTOMER, PlaceKind.RETURN, PlaceKind.SCRAP]
    place = into | st.builds(Place, kind=st.sampled_from(kinds))
    packed = {"at": instants, "product": product, "batch": texts}
    lines = st.lists(delivery_lines(product), min_size=1, max_size=2).map(tuple)
    customer = CustomerDraft(name=draw(names), phone=draw(texts), email=draw(texts))
    return JobFolder(
        job=JobDraft(
            ref=ref,
            title=draw(names),
            customer=customer,
            address=draw(texts),
            promised_on=draw(st.none() | days),
        ),
        rooms=tuple(draw(rooms_called(name, board, glue)) for name in called),
        orders=draw(few(orders(product))),
        deliveries=draw(few(st.builds(DeliveryDraft, at=instants, into=into, lines=lines))),
        moves=draw(few(st.builds(MoveDraft, **packed, packs=some, source=place, target=place))),
        openings=draw(few(st.builds(OpeningDraft, **packed, packs=some, room=room))),
        readings=draw(
            few(
                st.builds(ReadingDraft, room=room, at=instants, measure=measures, taken_by=texts, note=texts).flatmap(
                    lambda draft: behind(texts, draft.kind, getattr(draft.measure, "percent", None)).map(
                        lambda evidence: replace(draft, evidence=evidence)
                    )
                )
            )
        ),
        smoothings=draw(few(st.builds(SmoothingDraft, room=room, at=instants, note=texts))),
        layings=draw(few(room.flatmap(layings))),
        counts=draw(
            few(
                st.builds(
                    CountDraft,
                    **packed,
                    packs=none_or_some,
                    boards=none_or_some,
                    to=st.sampled_from(Destination),
                )
            )
        ),
        snags=draw(few(st.builds(SnagDraft, at=instants, what=texts, room=room | st.just("")))),
        notes=draw(few(st.builds(NoteDraft, at=instants, text=texts))),
        bookings=draw(few(st.builds(booked, names, days, st.integers(0, 370), st.just("") | room, parts, texts))),
        mornings=draw(
            few(
                st.builds(
                    MorningCheckDraft,
                    room=room,
                    at=instants,
                    temp_c=degrees,
                    rh_percent=percents,
                    surface_c=degrees,
                    mixed=st.booleans(),
                    wedges=st.booleans(),
                    extraction=st.booleans(),
                    who=texts,
                    note=texts,
                )
            )
        ),
        voidings=draw(
            few(st.builds(VoidingDraft, room=room, at=instants, cause=st.sampled_from(VoidedBy), note=texts))
        ),
        stock_takes=draw(few(differences(product, of_job=True))),
        own_lines=draw(few(own_lines(board, glue) | chosen(material))),
        flights=draw(few(flights(texts, board)).filter(lambda found: len({one.name for one in found}) == len(found))),
        credits=draw(
            few(
                st.builds(
                    CreditDraft,
                    at=instants,
                    product=product,
                    amount_minor=st.integers(1, 1_000_000_000),
                    number=texts,
                    settles=st.booleans(),
                )
                | st.builds(
                    CreditDraft,
                    at=instants,
                    product=product,
                    amount_minor=st.integers(0, 1_000_000_000),
                    owed_for=st.just(CreditFor.DAMAGE),
                    replaced_packs=st.integers(1, 100_000),
                    settles=st.booleans(),
                )
            )
        ),
        handover=draw(st.none() | st.builds(HandoverDraft, signed_at=instants, by=names)),
    )


def chosen(material: MaterialDraft) -> st.SearchStrategy[OwnLineDraft]:
    """A line of the take-off for which one product on file was chosen."""
    return st.builds(
        OwnLineDraft, thing=st.just(material.thing), product=st.just(material.code), at=instants, why=texts
    )


def own_lines(board: str, glue: str) -> st.SearchStrategy[OwnLineDraft]:
    """Lines of the take-off set by hand: boards left out, tubs counted, glue by its notch, sticks of another length."""
    shared = {"at": instants, "why": texts}
    amounts = st.integers(0, 100_000)
    return st.one_of(
        st.builds(OwnLineDraft, thing=st.just(Thing.BOARDS), product=st.just(board), wanted=st.just(False), **shared),
        st.builds(OwnLineDraft, thing=st.just(Thing.GLUE), product=st.just(glue), units=amounts, **shared),
        st.builds(OwnLineDraft, thing=st.just(Thing.GLUE), product=st.just(glue), notch=st.just("B11"), **shared),
        st.builds(OwnLineDraft, thing=st.just(Thing.SKIRTING), size=st.integers(1000, 20_000).map(float), **shared),
        st.builds(
            OwnLineDraft,
            thing=st.just(Thing.FILM),
            size=st.floats(1, 1_000),
            width_mm=st.integers(100, 20_000),
            **shared,
        ),
        st.builds(OwnLineDraft, thing=st.just(Thing.COMPOUND), rate=st.floats(0.01, 100), **shared),
        st.builds(OwnLineDraft, thing=st.just(Thing.PRIMER), units=st.none() | amounts, **shared),
    )


@st.composite
def folders(draw: st.DrawFn) -> Folder:
    products = st.tuples(boards, glues, materials(codes, texts))
    board, glue, material = draw(products.filter(lambda three: len({one.code for one in three}) == 3))
    refs = draw(st.lists(codes, max_size=2, unique=True))
    return Folder(
        firm=draw(firms),
        people=draw(few(people)),
        products=(board, glue, material),
        jobs=tuple(draw(jobs(ref, board.code, glue.code, material)) for ref in refs),
        stock_takes=draw(few(differences(st.sampled_from([board.code, glue.code]), of_job=False))),
    )


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(folders())
def test_a_folder_comes_back_whole_and_its_bytes_stay_the_same(folder: Folder) -> None:
    raw = write_folder(folder)
    again = read_folder(raw)
    assert again == folder
    assert write_folder(again) == raw
