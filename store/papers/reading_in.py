"""A job folder read: the firm, its people, products and jobs, or one sentence on what is wrong where."""

from collections.abc import Callable
from dataclasses import replace

from store.papers.diary_in import person
from store.papers.folder import VERSION, Folder
from store.papers.job_in import job_folder
from store.papers.json_text import parsed
from store.papers.limits_in import own_limit
from store.papers.materials import material
from store.papers.named import Named
from store.papers.spot import (
    Spot,
    bared,
    day,
    listed,
    number,
    one_of,
    opened,
    pair,
    text,
    time_of_day,
    truth,
    whole,
    word_of,
)
from store.papers.stock_takes import difference
from store.papers.suppliers_in import supplier
from store.trade.firm import ClimateRange, ClockForm, FirmDraft, problems_with_firm
from store.trade.materials import MaterialDraft
from store.trade.products import BoardDraft, GlueDraft, ProductDraft, problems_with_product
from store.trade.things import ProductKind
from store.trade.traditions import Tradition

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def read_folder(raw: bytes) -> Folder:
    """Return what a job folder holds, every reference in it checked.

    Args:
        raw: the file, UTF-8 JSON, with or without a byte order mark.

    Raises:
        Refused: the first thing found wrong, in one sentence that names its place, like
            ``jobs[0].rooms[1].outline: …``.
    """
    top = Spot(value=parsed(raw), place="")
    _check_version(top)
    keys = opened(top, "layday_folder firm people products jobs stock_takes")
    firm = keys.need("firm", _firm)
    products = keys.each("products", lambda spot: _product(spot, firm))
    _check_unlike("products", "code", [product.code for product in products])
    named = Named(
        boards=frozenset(one.code for one in products if isinstance(one, BoardDraft)),
        glues=frozenset(one.code for one in products if isinstance(one, GlueDraft)),
        materials={one.code: one.thing for one in products if isinstance(one, MaterialDraft)},
    )
    jobs = keys.each("jobs", lambda spot: job_folder(spot, named))
    _check_unlike("jobs", "ref", [one.job.ref for one in jobs])
    return Folder(
        firm=firm,
        people=keys.each("people", person),
        products=products,
        jobs=jobs,
        stock_takes=keys.each("stock_takes", lambda spot: difference(spot, named, of_job=False)),
    )


def _check_version(top: Spot) -> None:
    version = bared(top).spot("layday_folder")
    if version.value is None:
        version.refuse("is missing, so this is no job folder.")
    if whole(version) > VERSION:
        version.refuse("this folder was made by a newer release.")
    if version.value != VERSION:
        version.refuse(f"there is no folder of version {version.value}.")


def _check_unlike(place: str, key: str, given: list[str]) -> None:
    seen: set[str] = set()
    for index, one in enumerate(given):
        if one in seen:
            Spot(value=one, place=f"{place}[{index}].{key}").refuse(f"“{one}” stands in this folder twice.")
        seen.add(one)


def _firm(spot: Spot) -> FirmDraft:
    keys = opened(
        spot,
        "name time_zone working_days day_starts day_ends holidays currency climate clock_form log_gap_hours"
        " flat_limit_mm reading_good_days tradition own_limits tests_by_area suppliers",
    )
    usual = FirmDraft(name=keys.need("name", text))
    firm = replace(
        usual,
        time_zone=keys.need("time_zone", text),
        working_days=keys.may("working_days", lambda spot: listed(spot, _weekday), usual.working_days),
        day_starts=keys.may("day_starts", time_of_day, usual.day_starts),
        day_ends=keys.may("day_ends", time_of_day, usual.day_ends),
        holidays=keys.each("holidays", day),
        currency=keys.may("currency", text, usual.currency),
        climate=keys.may("climate", _climate, usual.climate),
        clock_form=keys.may("clock_form", word_of(ClockForm), usual.clock_form),
        log_gap_hours=keys.may("log_gap_hours", whole, usual.log_gap_hours),
        flat_limit_mm=keys.may("flat_limit_mm", whole, usual.flat_limit_mm),
        reading_good_days=keys.may("reading_good_days", whole, usual.reading_good_days),
        tradition=keys.may("tradition", word_of(Tradition), usual.tradition),
        own_limits=keys.each("own_limits", own_limit),
        tests_by_area=keys.may("tests_by_area", truth, False),
        suppliers=keys.each("suppliers", supplier),
    )
    keys.vet(problems_with_firm(firm))
    return firm


def _weekday(spot: Spot) -> int:
    return WEEKDAYS.index(one_of(spot, WEEKDAYS))


def _climate(spot: Spot) -> ClimateRange:
    keys = opened(spot, "temp_min_c temp_max_c rh_min_percent rh_max_percent")
    return ClimateRange(
        temp_min_c=keys.need("temp_min_c", number),
        temp_max_c=keys.need("temp_max_c", number),
        rh_min_percent=keys.need("rh_min_percent", number),
        rh_max_percent=keys.need("rh_max_percent", number),
    )


def _product(spot: Spot, firm: FirmDraft) -> ProductDraft:
    keys = bared(spot)
    kind = keys.need("kind", word_of(ProductKind))
    readers: dict[ProductKind, Callable[[Spot], ProductDraft]] = {
        ProductKind.BOARD: _board,
        ProductKind.GLUE: _glue,
        ProductKind.MATERIAL: material,
    }
    draft = readers[kind](spot)
    keys.vet(problems_with_product(draft))
    if isinstance(draft, BoardDraft) and draft.climate is not None:
        # A maker's range of air keeps the same rule as the firm's own.
        as_firms = problems_with_firm(replace(firm, climate=draft.climate))
        keys.vet([problem for problem in as_firms if problem.field == "climate"])
    return draft


def _board(spot: Spot) -> BoardDraft:
    keys = opened(
        spot,
        "code kind name build species length_mm width_mm thickness_mm boards_per_pack acclimatise_hours"
        " price_minor climate lengths shortest_mm pack_run_mm handed sheet_limits ready_when_stable lead_days supplier",
    )
    return BoardDraft(
        code=keys.need("code", text),
        name=keys.need("name", text),
        build=keys.may("build", text, ""),
        species=keys.may("species", text, ""),
        length_mm=keys.need("length_mm", whole),
        width_mm=keys.need("width_mm", whole),
        thickness_mm=keys.need("thickness_mm", whole),
        boards_per_pack=keys.need("boards_per_pack", whole),
        acclimatise_hours=keys.need("acclimatise_hours", whole),
        price_minor=keys.may("price_minor", whole, 0),
        climate=keys.may("climate", _climate, None),
        lengths=keys.each("lengths", pair),
        shortest_mm=keys.may("shortest_mm", whole, None),
        pack_run_mm=keys.may("pack_run_mm", whole, None),
        handed=keys.may("handed", truth, False),
        sheet_limits=keys.each("sheet_limits", own_limit),
        ready_when_stable=keys.may("ready_when_stable", truth, False),
        lead_days=keys.may("lead_days", whole, None),
        supplier=keys.may("supplier", text, ""),
    )


def _glue(spot: Spot) -> GlueDraft:
    keys = opened(
        spot,
        "code kind name rate_g_per_m2 tub_kg open_time_min walk_on_hours full_load_hours price_minor"
        " sheet_limits needs_training lead_days supplier",
    )
    return GlueDraft(
        code=keys.need("code", text),
        name=keys.need("name", text),
        rate_g_per_m2=keys.need("rate_g_per_m2", whole),
        tub_kg=keys.need("tub_kg", number),
        open_time_min=keys.need("open_time_min", whole),
        walk_on_hours=keys.need("walk_on_hours", whole),
        full_load_hours=keys.need("full_load_hours", whole),
        price_minor=keys.may("price_minor", whole, 0),
        sheet_limits=keys.each("sheet_limits", own_limit),
        needs_training=keys.may("needs_training", truth, False),
        lead_days=keys.may("lead_days", whole, None),
        supplier=keys.may("supplier", text, ""),
    )
