"""The sections of a job's folder, in the order of the trade, with the keys that matter in each."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from store.trade.verdict import DeedKind, Stage
from tui.folder import close_out, history, laying, orders, readings, survey, times
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said


class Section(StrEnum):
    """The sections, by the names the trade gives them."""

    SURVEY = "survey"
    ORDERS = "orders"
    READINGS = "readings"
    LAYING = "laying"
    CLOSE_OUT = "close-out"
    TIMES = "times"
    HISTORY = "history"


class Summary(Protocol):
    """What stands above a list, or beside it in a wide window."""

    def __call__(self, page: Page, *, wide: bool) -> tuple[Said, ...]:
        """Return the lines; none where there is nothing to sum up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """How a section is shown: its name, its list, the sum above it, and the actions its footer offers."""

    words: str
    columns: tuple[Column, ...]
    noun: str
    empty: str
    entries: Callable[[Page], tuple[Entry, ...]]
    summary: Summary
    offers: tuple[str, ...]


PARTS: dict[Section, Part] = {
    Section.SURVEY: Part(
        words="Survey",
        columns=survey.COLUMNS,
        noun="lines",
        empty="No room is on file yet.\n\na adds one: its shape, its subfloor and the board to be laid. Then the packs "
        "it needs are worked out, and what stands in the way of laying is said here. f adds stairs.",
        entries=survey.survey_entries,
        summary=survey.survey_summary,
        offers=("add_room", "add_stairs", "plan", "to_buy", "edit"),
    ),
    Section.ORDERS: Part(
        words="Orders",
        columns=orders.COLUMNS,
        noun="lines",
        empty="Nothing is ordered yet.\n\no puts an order on file, filled with what the rooms need; e on it says "
        "what the supplier confirms. i takes in what comes, batch by batch, and starts its wait. c carries packs "
        "between the unit and the rooms.",
        entries=orders.orders_entries,
        summary=orders.orders_summary,
        offers=("order", "to_buy", "take_in", "carry"),
    ),
    Section.READINGS: Part(
        words="Readings",
        columns=readings.COLUMNS,
        noun="lines",
        empty="Nothing has been read yet.\n\nr puts a reading on file: room air, moisture of the subfloor or the "
        "boards, the gap under the straightedge. Each is held against its limit. s says that a subfloor was levelled. "
        "y takes in the file of a data logger.",
        entries=readings.readings_entries,
        summary=readings.readings_summary,
        offers=("read", "smooth", "over_time", "take_back"),
    ),
    Section.LAYING: Part(
        words="Laying",
        columns=laying.COLUMNS,
        noun="lines",
        empty="No floor is begun yet.\n\nl begins laying in a room, with the packs opened for it. Pressed again it "
        "finishes, and the times for walking on the floor and loading it count from then.",
        entries=laying.laying_entries,
        summary=laying.laying_summary,
        offers=("lay", "read", "take_back"),
    ),
    Section.CLOSE_OUT: Part(
        words="Close-out",
        columns=close_out.COLUMNS,
        noun="lines",
        empty="Nothing to close out yet.\n\nk counts what is left of each batch and where it goes, g is for the "
        "signature, b puts a snag on file, m a note. The job closes once the glue is cured, the floor signed for and "
        "the leftovers counted.",
        entries=close_out.close_out_entries,
        summary=close_out.close_out_summary,
        offers=("count", "sign", "snag", "note"),
    ),
    Section.TIMES: Part(
        words="Times",
        columns=times.COLUMNS,
        noun="steps",
        empty="Nothing is left to be timed.\n\nOnce a room is measured, every step to its handover stands here: when "
        "it can be done, when it must be, and what to order by when.",
        entries=times.times_entries,
        summary=times.times_summary,
        offers=("order", "edit_job"),
    ),
    Section.HISTORY: Part(
        words="History",
        columns=history.COLUMNS,
        noun="lines",
        empty="Nothing has been done yet.",
        entries=history.history_entries,
        summary=history.history_summary,
        offers=("note",),
    ),
}
_BY_STAGE = {
    Stage.SURVEY: Section.SURVEY,
    Stage.DELIVERY: Section.ORDERS,
    Stage.ACCLIMATISATION: Section.READINGS,
    Stage.INSTALL: Section.LAYING,
    Stage.CURE: Section.LAYING,
    Stage.HANDOVER: Section.CLOSE_OUT,
    Stage.CLOSED: Section.CLOSE_OUT,
}
_BY_DEED = {
    DeedKind.MEASURE: Section.SURVEY,
    DeedKind.NAME_GLUE: Section.SURVEY,
    DeedKind.SAMPLE_OLD_FLOOR: Section.SURVEY,
    DeedKind.CALL_LICENSED: Section.SURVEY,
    DeedKind.PROVE_HEATING: Section.SURVEY,
    DeedKind.TURN_HEATING_DOWN: Section.SURVEY,
    DeedKind.TRAIN: Section.SURVEY,
    DeedKind.ORDER_GLUE: Section.ORDERS,
    DeedKind.ORDER: Section.ORDERS,
    DeedKind.TAKE_IN: Section.ORDERS,
    DeedKind.CARRY_IN: Section.ORDERS,
    DeedKind.LAY: Section.LAYING,
    DeedKind.FINISH_LAYING: Section.LAYING,
    DeedKind.CHASE: Section.CLOSE_OUT,
    DeedKind.CHASE_GLUE: Section.CLOSE_OUT,
    DeedKind.COUNT: Section.CLOSE_OUT,
    DeedKind.SIGN: Section.CLOSE_OUT,
    DeedKind.MEND: Section.CLOSE_OUT,
}


def section_of(kind: DeedKind) -> Section:
    """Return the section in which a deed shows once it is done."""
    return _BY_DEED.get(kind, Section.READINGS)


def section_for(stage: Stage) -> Section:
    """Return the section that matters most at a stage."""
    return _BY_STAGE[stage]
