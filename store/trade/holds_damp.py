"""Holds on moisture: whether the subfloor is dry enough, and whether boards and a wooden subfloor agree."""

from collections.abc import Sequence
from datetime import datetime

from store.trade.diary import day_of, later, start_of
from store.trade.drying_pace import Pace, drying_pace
from store.trade.evidence import mean_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import in_order
from store.trade.holds_room import nothing_on_file
from store.trade.jobs import Room, Subfloor
from store.trade.judging import is_made_void
from store.trade.limits import TakenLimit, damp_limits, screed_dry_on
from store.trade.moisture import gap_readings, moisture_gap_limit
from store.trade.products import Board
from store.trade.readings import (
    BoardMoisture,
    Carbide,
    Hygrometer,
    InSituProbe,
    Measure,
    Reading,
    TimberSubfloor,
    dampness,
)
from store.trade.screed import moisture_tests
from store.trade.traditions import Tradition
from store.trade.verdict import Hold, HoldKind, HoldState, Why

Limits = dict[type[Measure], TakenLimit]


def subfloor_dry(firm: FirmDraft, facts: JobFacts, room: Room, now: datetime) -> Hold:
    """To do without a fresh reading of the right kind; failed if the latest of a kind is over its limit.

    Where the firm asks for as many tests as the area does, the dampest of a kind's latest day decides, and too few of
    them are to do. Readings from before something that made them void no longer count.
    """
    limits = damp_limits(firm, facts, room)
    every = [one for one in in_order(facts.readings, room.name) if type(one.measure) in limits]
    valid = [one for one in every if not is_made_void(one, facts)]
    deciding = {
        kind: _deciding(firm, valid, kind) for kind in limits if any(type(one.measure) is kind for one in valid)
    }
    fresh_from = later(now, -24 * firm.reading_good_days)
    fresh = [one for one in deciding.values() if one.at >= fresh_from]
    damp = [one for one in fresh if _damp(one) > limits[type(one.measure)].most]
    latest = max(deciding.values(), key=lambda one: one.at, default=None)
    shown = next(iter(damp or fresh), latest)
    alike = [one for one in valid if shown and type(one.measure) is type(shown.measure) and one.at >= fresh_from]
    count = sum(len(one.evidence.figures) or 1 for one in alike)
    asked = tests_asked(firm, room, type(shown.measure)) if shown else None
    if damp:
        state, why = HoldState.FAILED, Why.DAMP
    elif not fresh:
        old = Why.VOID_DAMP_READING if len(valid) < len(every) else Why.NO_DAMP_READING
        state, why = HoldState.TO_DO, Why.OLD_DAMP_READING if shown else old
    elif firm.tests_by_area and asked is not None and count < asked:
        state, why = HoldState.TO_DO, Why.TOO_FEW_TESTS
    else:
        state, why = HoldState.CLEAR, Why.DRY
    dry_on = screed_dry_on(room)
    wrong = bool(damp) or not fresh
    return Hold(
        room=room.name,
        kind=HoldKind.SUBFLOOR_DRY,
        state=state,
        why=why,
        not_before=start_of(firm, dry_on) if wrong and dry_on else None,
        reading=shown.kind if shown else "",
        measured=_damp(shown) if shown else None,
        limit=limits[type(shown.measure)].most if shown else None,
        since=shown.at if shown else None,
        due_on=dry_on,
        readings=count if shown else None,
        readings_asked=asked,
        pace=_pace(firm, room, valid, limits) if wrong else None,
    )


def tests_asked(firm: FirmDraft, room: Room, kind: type[Measure]) -> int | None:
    """Return how many readings of a kind the room's area asks for; None where no rule was found.

    Carbide: a testing firm's schedule, at least 2. Probe: ASTM F2170-18, and for a hygrometer too where the firm works
    to North American figures; for the UK's box and sleeve no number was found. Timber: the US wood-floor association's
    20 readings for 1000 ft², pro rata.
    """
    area = room.net_mm2 / 1_000_000
    if kind is Carbide:
        return moisture_tests(method="carbide", area_m2=area).tests
    if kind is InSituProbe:
        return moisture_tests(method="in-situ-rh", area_m2=area).tests
    if kind is Hygrometer:
        by_probe = firm.tradition is Tradition.NORTH_AMERICAN
        return moisture_tests(method="in-situ-rh", area_m2=area).tests if by_probe else None
    return gap_readings(area_m2=area).subfloor


def moisture_gap(firm: FirmDraft, facts: JobFacts, room: Room, board: Board) -> Hold:
    """Failed if boards and a wooden subfloor lie too far apart; clear while either was not read.

    Each is the mean of its latest day's readings. Where the firm asks for as many as the area does, too few are to do.
    """
    read = [one for one in in_order(facts.readings, room.name) if not is_made_void(one, facts)]
    boards = _figures_in(_of_latest_day(firm, read, BoardMoisture))
    subfloor = _figures_in(_of_latest_day(firm, read, TimberSubfloor))
    if not (room.subfloor.is_timber and boards and subfloor):
        return nothing_on_file(room, HoldKind.MOISTURE_GAP)
    apart, limit = abs(mean_of(tuple(boards)) - mean_of(tuple(subfloor))), moisture_gap_limit(board.width_mm)
    asked = gap_readings(area_m2=room.net_mm2 / 1_000_000)
    few = len(boards) < asked.boards or len(subfloor) < asked.subfloor
    if apart > limit:
        state, why = HoldState.FAILED, Why.MOISTURE_APART
    elif firm.tests_by_area and few:
        state, why = HoldState.TO_DO, Why.TOO_FEW_BOARDS_READ
    else:
        state, why = HoldState.CLEAR, Why.MOISTURE_CLOSE
    return Hold(
        room=room.name,
        kind=HoldKind.MOISTURE_GAP,
        state=state,
        why=why,
        measured=apart,
        limit=limit,
        readings=len(boards),
        readings_asked=asked.boards,
        subfloor_readings=len(subfloor),
        subfloor_asked=asked.subfloor,
    )


def _damp(reading: Reading) -> float:
    found = dampness(reading)
    if found is None:
        raise TypeError(reading.measure)
    return found


def _figures_in(readings: Sequence[Reading]) -> list[float]:
    """Every single figure of timber readings, one for a reading that tells no more."""
    return [figure for one in readings for figure in (one.evidence.figures or (_damp(one),))]


def _deciding(firm: FirmDraft, readings: Sequence[Reading], kind: type[Measure]) -> Reading:
    """The latest reading of a kind, or the dampest of its day where the firm counts tests by area."""
    if not firm.tests_by_area:
        return next(one for one in reversed(readings) if type(one.measure) is kind)
    return max(_of_latest_day(firm, readings, kind), key=_damp)


def _of_latest_day(firm: FirmDraft, readings: Sequence[Reading], kind: type[Measure]) -> list[Reading]:
    """The readings of a kind that were taken on the calendar day of the latest one."""
    own = [one for one in readings if type(one.measure) is kind]
    return [one for one in own if day_of(firm, one.at) == day_of(firm, own[-1].at)]


def _pace(firm: FirmDraft, room: Room, readings: Sequence[Reading], limits: Limits) -> Pace | None:
    """When a screed may be dry at its own pace, by the kind of reading whose window ends last."""
    if not room.subfloor.is_screed or room.screed_laid_on is None:
        return None
    found = []
    for kind, taken in limits.items():
        own = [(day_of(firm, one.at), _damp(one)) for one in readings if type(one.measure) is kind]
        pace = drying_pace(own, laid_on=room.screed_laid_on, limit=taken.most, step=_step(room, kind))
        if pace is not None:
            found.append(pace)
    return max(found, key=lambda one: (one.latest is None, one.latest or one.earliest, one.earliest), default=None)


def _step(room: Room, kind: type[Measure]) -> float:
    """What an instrument can tell apart: carbide 0.1 % (calcium sulphate 0.05 %), humidity 2 % (no source)."""
    if kind in {Hygrometer, InSituProbe}:
        return 2.0
    return 0.05 if room.subfloor is Subfloor.CALCIUM_SULPHATE else 0.1
