"""The answers of the readiness rules: holds, verdict, packs, needs, clocks and windows of one job at one moment."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from store.trade.drying_pace import Pace


class Stage(StrEnum):
    """How far a job is; worked out from what is on file, never typed. In the order a job goes through them."""

    SURVEY = "survey"
    DELIVERY = "delivery"
    ACCLIMATISATION = "acclimatisation"
    INSTALL = "install"
    CURE = "cure"
    HANDOVER = "handover"
    CLOSED = "closed"

    @property
    def step(self) -> int:
        """The stage's place in the order, from 0."""
        return tuple(Stage).index(self)


class HoldKind(StrEnum):
    """What can stand in a floor's way."""

    SITE = "site"
    SUBFLOOR_DRY = "subfloor_dry"
    SUBFLOOR_FLAT = "subfloor_flat"
    CLIMATE = "climate"
    HEATING = "heating"
    PACKS = "packs"
    ACCLIMATISATION = "acclimatisation"
    MOISTURE_GAP = "moisture_gap"
    GLUE = "glue"
    OLD_FLOOR = "old_floor"
    PEOPLE = "people"


class HoldState(StrEnum):
    """CLEAR: nothing in the way. WAITING: clears by itself. TO_DO: somebody must act. FAILED: measured, not good."""

    CLEAR = "clear"
    WAITING = "waiting"
    TO_DO = "to_do"
    FAILED = "failed"


class Why(StrEnum):
    """The reason behind a hold's state; the window has the words for each."""

    NOTHING_ON_FILE = "nothing_on_file"
    SITE_READY = "site_ready"
    SITE_NOT_READY = "site_not_ready"
    DRY = "dry"
    DAMP = "damp"
    NO_DAMP_READING = "no_damp_reading"
    OLD_DAMP_READING = "old_damp_reading"
    FLAT = "flat"
    NOT_FLAT = "not_flat"
    NO_FLAT_READING = "no_flat_reading"
    AIR_GOOD = "air_good"
    AIR_OUTSIDE = "air_outside"
    NO_AIR_READING = "no_air_reading"
    OLD_AIR_READING = "old_air_reading"
    PACKS_ENOUGH = "packs_enough"
    NOT_ORDERED = "not_ordered"
    ORDERED_TOO_FEW = "ordered_too_few"
    ON_ORDER = "on_order"
    NO_DUE_DAY = "no_due_day"
    OVERDUE = "overdue"
    READY = "ready"
    CLOCK_RUNNING = "clock_running"
    CLOCK_STOPPED = "clock_stopped"
    LOG_BROKEN = "log_broken"
    IN_THE_UNIT = "in_the_unit"
    PACKS_TO_COME = "packs_to_come"
    MOISTURE_CLOSE = "moisture_close"
    MOISTURE_APART = "moisture_apart"
    VOID_DAMP_READING = "void_damp_reading"
    TOO_FEW_TESTS = "too_few_tests"
    TOO_FEW_BOARDS_READ = "too_few_boards_read"
    HEATING_NOT_PROVED = "heating_not_proved"
    HEATING_ON = "heating_on"
    HEATING_JUST_OFF = "heating_just_off"
    HEATING_QUIET = "heating_quiet"
    NO_OLD_FLOOR = "no_old_floor"
    MAY_HOLD_ASBESTOS = "may_hold_asbestos"
    ASBESTOS_FOUND = "asbestos_found"
    SAMPLE_CLEAR = "sample_clear"
    OLD_FLOOR_REMOVED = "old_floor_removed"
    GLUE_ENOUGH = "glue_enough"
    GLUE_SHORT = "glue_short"
    GLUE_ON_ORDER = "glue_on_order"
    GLUE_OVERDUE = "glue_overdue"
    GLUE_TOO_OLD = "glue_too_old"
    TRAINED = "trained"
    NOBODY_TRAINED = "nobody_trained"
    SETTLED = "settled"
    SETTLING = "settling"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """One thing that can stand in the way of one room's floor.

    ``clears_at``: when a waiting hold clears by itself. ``not_before``: when acting can first help.
    The rest are the figures behind the reason, where it has any: the value measured and its limit (with the
    second value of an air reading), the packs in question, the moment it counts from, the day something is due;
    ``lies_in`` is the room whose air holds the packs up, which may be another room that shares them.

    ``readings`` and ``readings_asked`` count what is on file and what the area asks for; those of the subfloor beside
    the boards' stand in ``subfloor_readings`` and ``subfloor_asked``. ``pace`` is when a screed may be dry at the pace
    it has shown; ``who`` names somebody.
    """

    room: str
    kind: HoldKind
    state: HoldState
    why: Why
    clears_at: datetime | None = None
    not_before: datetime | None = None
    product: str = ""
    reading: str = ""
    measured: float | None = None
    measured_rh: float | None = None
    limit: float | None = None
    packs: int | None = None
    since: datetime | None = None
    due_on: date | None = None
    lies_in: str = ""
    readings: int | None = None
    readings_asked: int | None = None
    subfloor_readings: int | None = None
    subfloor_asked: int | None = None
    pace: Pace | None = None
    who: str = ""


class Verdict(StrEnum):
    """May the floor be laid?"""

    READY = "ready"
    READY_FROM = "ready_from"
    BLOCKED = "blocked"


@dataclass(frozen=True, slots=True, kw_only=True)
class PackTally:
    """The packs of one board in one job.

    ``on_site``: sound packs brought to site and not taken away again, opened ones included. ``ready``: of those,
    the ones whose acclimatisation is over. ``laid``: packs' worth used; ``left``: on site less laid.
    ``in_unit``: sound packs lying in the firm's unit for this job.
    """

    product: str
    needed: int
    ordered: int
    on_site: int
    in_unit: int
    ready: int
    laid: int
    left: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """The packs of one board that a job asks for, and what they are made of.

    ``lay_boards``: boards that the lay plans open. ``cull_boards``: boards beyond those, so that enough are good.
    ``allowed_boards``: boards for the rooms without a plan, by their allowed cut loss, rounded up. ``pattern_boards``:
    blocks and border boards of the rooms that are laid in a pattern, and the borders of planned rooms. ``spare_packs``:
    whole packs to stay with the customer. ``packs``: all of it in packs, rounded up once. ``by_plan``: whether any
    room is counted by its plan.
    """

    product: str
    lay_boards: int
    cull_boards: int
    allowed_boards: int
    spare_packs: int
    packs: int
    by_plan: bool
    pattern_boards: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class StackClock:
    """The acclimatisation clock of one stack of packs: what was put into one room at one moment.

    ``running`` is False while the room is out of range. ``ready_at`` is when the wait ended, or will end if the
    room stays in range; None while the clock stands still. ``stopped_at`` is when it was stopped, if it is;
    ``unread`` says that it stands for want of a reading (strict log), not for bad air. ``by_reading`` says that the
    boards' moisture ends the wait and not hours: then ``ready_at`` is when it was found to stand still, ``again_at``
    when another round of readings can first show it, and ``change`` how far the last round lay from the one before.
    """

    room: str
    product: str
    packs: int
    since: datetime
    hours_needed: int
    hours_counted: float
    running: bool
    ready_at: datetime | None
    stopped_at: datetime | None = None
    unread: bool = False
    by_reading: bool = False
    again_at: datetime | None = None
    change: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Windows:
    """When the finished floor may be walked on, fully loaded and handed over; None until all is laid."""

    walk_on: datetime | None = None
    full_load: datetime | None = None
    handover: datetime | None = None


class DeedKind(StrEnum):
    """What somebody can do next about a job."""

    MEASURE = "measure"
    ORDER = "order"
    CHASE = "chase"
    CHASE_GLUE = "chase_glue"
    TAKE_IN = "take_in"
    CARRY_IN = "carry_in"
    READ_AIR = "read_air"
    PUT_AIR_RIGHT = "put_air_right"
    TEST_DAMP = "test_damp"
    CHECK_FLAT = "check_flat"
    LEVEL = "level"
    READ_BOARDS = "read_boards"
    SAMPLE_OLD_FLOOR = "sample_old_floor"
    CALL_LICENSED = "call_licensed"
    PROVE_HEATING = "prove_heating"
    TURN_HEATING_DOWN = "turn_heating_down"
    ORDER_GLUE = "order_glue"
    TRAIN = "train"
    LAY = "lay"
    FINISH_LAYING = "finish_laying"
    NAME_GLUE = "name_glue"
    COUNT = "count"
    SIGN = "sign"
    MEND = "mend"


@dataclass(frozen=True, slots=True, kw_only=True)
class NextDeed:
    """One thing to do: its kind, the room or product it is about, and the first moment it can help, if any."""

    kind: DeedKind
    room: str = ""
    product: str = ""
    packs: int | None = None
    not_before: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where one job stands at one moment."""

    stage: Stage
    verdict: Verdict | None
    ready_from: datetime | None
    best_case: datetime | None
    holds: tuple[Hold, ...]
    packs: tuple[PackTally, ...]
    clocks: tuple[StackClock, ...]
    windows: Windows
    to_do: tuple[NextDeed, ...]
    needs: tuple[Need, ...] = ()
