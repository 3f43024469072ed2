"""The day's list: every open job under its part of the day, with the one fact of it that matters now."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from store.desk.cards import JobCard
from store.trade.firm import FirmDraft
from store.trade.planning.job_network import JobTimes
from tui.widgets.fitted_list import FitCell, FitColumn, FitRow, FittedList
from tui.words.today import PARTS, fact_of
from tui.words.wording import say_day

_COLUMNS = (
    FitColumn(once=True),
    FitColumn(most=16),
    FitColumn(most=34, gives=True),
    FitColumn(most=60, keeps=True),
    FitColumn(only_wide=True),
)
EMPTY = """No open job is on file.

Press n to take on the first one: a reference, whom the floor is for, and where.

Its rooms, orders, deliveries and readings are added in the job's folder, and this list \
says each morning what can be laid and what to do first.

To look round a made-up firm first, leave with q and run: layday --demo"""


class DayList(FittedList):
    """The open jobs, the most pressing part of the day first."""

    DEFAULT_CSS = """
    DayList > .filter-list--count { display: none; }
    DayList.-filtering > .filter-list--count { display: block; }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(_COLUMNS, noun="open jobs", empty=EMPTY, headed=False, id=id)

    def show(self, cards: Sequence[JobCard], firm: FirmDraft, now: datetime, times: Mapping[str, JobTimes]) -> None:
        """Show the open jobs as they stand; ``times`` are their days by reference."""
        self.show_rows([_row(card, firm, now, times.get(card.ref)) for card in cards])


def _row(card: JobCard, firm: FirmDraft, now: datetime, times: JobTimes | None) -> FitRow:
    job, part = card.facts.job, PARTS[card.slot]
    today = now.astimezone(firm.zone).date()
    promised = f"promised {say_day(job.promised_on, today)}" if job.promised_on else ""
    return FitRow(
        key=job.ref,
        cells=(
            FitCell(parts=(part.word,), tone=part.tone),
            FitCell(parts=(f"{part.sign} {job.ref}",), tone=part.tone),
            FitCell(parts=(job.title,)),
            FitCell(parts=fact_of(card, firm, now, times)),
            FitCell(parts=(promised,), tone="muted"),
        ),
        found_by=f"{job.customer.name} {job.address} {job.customer.phone}",
    )
