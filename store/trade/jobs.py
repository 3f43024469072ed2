"""A job and its rooms: who it is for, where, and what is to be laid in each room."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from store.errors import Problem, Refused
from store.trade.layout.floor import floor_of_room
from store.trade.layout.lay import Room as Shape
from store.trade.outline import Ring, faults_in_outline, net_area_mm2
from store.trade.surveyed import Doorway, FixedThing, Pattern, faults_in_doorways, faults_in_fixed_things
from store.trade.walls import wall_name

UNIT_WORD = "unit"
"""The word that stands for the firm's own store where a room's name could stand; no room may be called so."""

FARTHEST_LINE_MM = 2_000_000
MOST_BORDER_MM = 2_000


class Subfloor(StrEnum):
    """What the boards are laid on."""

    CEMENT_SCREED = "cement_screed"
    CALCIUM_SULPHATE = "calcium_sulphate"
    CONCRETE = "concrete"
    OSB = "osb"
    PLYWOOD = "plywood"
    BOARDS = "boards"

    @property
    def is_timber(self) -> bool:
        """Whether moisture is read with a timber meter rather than from mineral material."""
        return self in {Subfloor.OSB, Subfloor.PLYWOOD, Subfloor.BOARDS}

    @property
    def is_screed(self) -> bool:
        """Whether a drying rule for screeds can be applied."""
        return self in {Subfloor.CEMENT_SCREED, Subfloor.CALCIUM_SULPHATE}


class Method(StrEnum):
    """How the boards are held down."""

    GLUED = "glued"
    FLOATING = "floating"
    NAILED = "nailed"


class OldFloor(StrEnum):
    """What lies, or lay, on the base of a building from before 2000."""

    NOT_SAID = "not_said"
    NONE = "none"
    OLD_COVERING = "old_covering"
    BLACK_GLUE = "black_glue"

    @property
    def is_suspect(self) -> bool:
        """Whether it may hold asbestos until a sample says otherwise."""
        return self in {OldFloor.OLD_COVERING, OldFloor.BLACK_GLUE}


class Sample(StrEnum):
    """What is known of an old floor's sample; REMOVED: taken out by those who are licensed for it, and released."""

    NOT_TAKEN = "not_taken"
    CLEAR = "clear"
    ASBESTOS = "asbestos"
    REMOVED = "removed"


@dataclass(frozen=True, slots=True, kw_only=True)
class CustomerDraft:
    """Who the floor is for, and how to reach them."""

    name: str
    phone: str = ""
    email: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobDraft:
    """A job to be taken on: its reference is the firm's own and stays with it for good."""

    ref: str
    title: str
    customer: CustomerDraft
    address: str = ""
    promised_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job(JobDraft):
    """A job on file."""

    id: int
    rev: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomDraft:
    """A room and the floor wanted in it.

    ``outline`` and ``cut_outs`` are corners in mm. ``board`` and ``glue`` are product codes.
    ``direction_deg`` turns the rows from the x axis, anticlockwise; ``start`` is the wall of the first row;
    ``line_mm`` is where an edge between two rows must lie, in the frame of the rows, so that they run on from the
    next room. ``border_mm`` is the width of a border round the pattern.

    Of a heated floor: the days on which its first heating was begun and proved, and from which it is off or held down
    for laying. ``old_floor`` and ``old_floor_sample`` tell of an old floor underneath.
    """

    name: str
    outline: Ring
    subfloor: Subfloor
    method: Method
    board: str
    glue: str | None = None
    cut_outs: tuple[Ring, ...] = ()
    heated: bool = False
    gap_mm: int = 10
    cut_loss_percent: float = 10.0
    screed_mm: int | None = None
    screed_laid_on: date | None = None
    site_ready_on: date | None = None
    direction_deg: float | None = None
    start: int | None = None
    line_mm: int | None = None
    pattern: Pattern = Pattern.STRAIGHT
    border_mm: int = 0
    doorways: tuple[Doorway, ...] = ()
    fixed_things: tuple[FixedThing, ...] = ()
    heating_begun_on: date | None = None
    heating_proved_on: date | None = None
    heating_off_from: date | None = None
    old_floor: OldFloor = OldFloor.NOT_SAID
    old_floor_sample: Sample = Sample.NOT_TAKEN

    @property
    def net_mm2(self) -> int:
        """The floor to be laid, mm²: the outline less its cut-outs."""
        return net_area_mm2(self.outline, self.cut_outs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room(RoomDraft):
    """A room on file."""

    id: int
    rev: int


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """A job in a list of many; ``closed_at`` is None while it is open."""

    id: int
    ref: str
    title: str
    customer: str
    address: str
    promised_on: date | None
    closed_at: datetime | None


def problems_with_job(draft: JobDraft) -> tuple[Problem, ...]:
    """Return what is wrong with a job's card, a sentence for each field."""
    found: list[Problem] = []
    if not draft.ref.strip() or len(draft.ref) > 40:
        found.append(Problem(field="ref", say="Give the job a reference of 1 to 40 characters."))
    if not draft.title.strip():
        found.append(Problem(field="title", say="Say in a few words what the job is."))
    if not draft.customer.name.strip():
        found.append(Problem(field="customer", say="Say who the job is for."))
    return tuple(found)


def problems_with_room(
    draft: RoomDraft, boards: Collection[str], glues: Collection[str], other_rooms: Collection[str] = ()
) -> tuple[Problem, ...]:
    """Return what is wrong with a room.

    Args:
        draft: the room as typed.
        boards: the codes of the boards on file.
        glues: the codes of the glues on file.
        other_rooms: the names of the job's other rooms.
    """
    found = [Problem(field="outline", say=say) for say in faults_in_outline(draft.outline)]
    if not found:
        # The outline is good by itself: what is wrong with it now is a cut-out's.
        found = [Problem(field="cut_outs", say=say) for say in faults_in_outline(draft.outline, draft.cut_outs)]

    def wrong(field: str, say: str) -> None:
        found.append(Problem(field=field, say=say))

    if not draft.name.strip():
        wrong("name", "Give the room a name.")
    elif draft.name.casefold() == UNIT_WORD:
        wrong("name", "“unit” means the firm's own store; give the room another name.")
    elif draft.name in other_rooms:
        wrong("name", f"There is a room “{draft.name}” in this job already.")
    if draft.board not in boards:
        wrong("board", f"There is no board “{draft.board}” on file; add it under Products first.")
    if draft.glue is not None and draft.glue not in glues:
        wrong("glue", f"There is no glue “{draft.glue}” on file; add it under Products first.")
    if not 0 <= draft.gap_mm <= 100:
        wrong("gap_mm", "The gap along the walls is a whole number from 0 to 100 mm.")
    if not 0 <= draft.cut_loss_percent <= 100:
        wrong("cut_loss_percent", "The cut loss is from 0 to 100 %.")
    if draft.screed_mm is not None and not 5 <= draft.screed_mm <= 500:
        wrong("screed_mm", "A screed is from 5 to 500 mm thick.")
    if draft.start is not None and not 0 <= draft.start < len(draft.outline):
        last = wall_name(max(0, len(draft.outline) - 1))
        wrong("start", f"The room has wall A (0) to {last}; there is no wall {draft.start}.")
    found += _problems_with_rows(draft)
    found += _problems_with_heating(draft)
    return tuple(found or _problems_with_finds(draft))


def _problems_with_rows(draft: RoomDraft) -> Iterator[Problem]:
    if draft.direction_deg is not None and not -360 <= draft.direction_deg <= 360:
        yield Problem(field="direction_deg", say="The rows' direction is from −360 to 360 degrees.")
    if draft.line_mm is not None and abs(draft.line_mm) > FARTHEST_LINE_MM:
        yield Problem(field="line_mm", say="The line of the rows is within two kilometres of the first corner.")
    if not 0 <= draft.border_mm <= MOST_BORDER_MM:
        yield Problem(field="border_mm", say=f"A border is from 0 to {MOST_BORDER_MM:,} mm wide.")


def _problems_with_heating(draft: RoomDraft) -> Iterator[Problem]:
    begun, proved = draft.heating_begun_on, draft.heating_proved_on
    if begun is not None and draft.screed_laid_on is not None and begun < draft.screed_laid_on:
        yield Problem(field="heating_begun_on", say="The screed was heated before it was laid; look at both days.")
    if begun is not None and proved is not None and proved < begun:
        yield Problem(field="heating_proved_on", say="The heating was proved before it was begun; look at both days.")


def _problems_with_finds(draft: RoomDraft) -> Iterator[Problem]:
    for say in faults_in_doorways(draft.outline, draft.doorways):
        yield Problem(field="doorways", say=say)
    for say in faults_in_fixed_things(draft.outline, draft.fixed_things):
        yield Problem(field="fixed_things", say=say)
    if draft.border_mm:
        shape = Shape(outline=draft.outline, cut_outs=draft.cut_outs, gap_mm=draft.gap_mm, border_mm=draft.border_mm)
        try:
            floor_of_room(shape)
        except Refused as no_field:
            yield Problem(field="border_mm", say=str(no_field))
