"""The front desk: one door for each subject, over one set of records."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from store.desk.buying_counter import BuyingCounter
from store.desk.clock import Clock, stopped_clock, wall_clock
from store.desk.closing_counter import ClosingCounter
from store.desk.counter import Bench
from store.desk.diary_counter import DiaryCounter
from store.desk.firm_counter import FirmCounter, ProductCounter
from store.desk.flight_counter import FlightCounter
from store.desk.holiday_counter import HolidayCounter
from store.desk.job_counter import JobCounter
from store.desk.keeping import KeepingCounter
from store.desk.laying_counter import LayingCounter, ReadingCounter
from store.desk.logger_counter import LoggerCounter
from store.desk.order_counter import OrderCounter
from store.desk.pack_counter import PackCounter
from store.desk.paper_counter import PaperCounter
from store.desk.plan_counter import PlanCounter
from store.desk.proposal_counter import ProposalCounter
from store.desk.shopping_counter import ShoppingCounter
from store.desk.stock_counter import StockCounter
from store.desk.supposing_counter import SupposingCounter
from store.desk.taught_counter import TaughtCounter, fill_up
from store.desk.time_counter import TimeCounter
from store.records.opening import open_cabinet


class Desk:
    """A hall of doors. Questions return frozen cards; deeds run in one transaction and write one line of history."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self.firm = FirmCounter(bench)
        self.holidays = HolidayCounter(bench)
        self.products = ProductCounter(bench)
        self.jobs = JobCounter(bench)
        self.flights = FlightCounter(bench)
        self.plans = PlanCounter(bench)
        self.buying = BuyingCounter(bench)
        self.packs = PackCounter(bench)
        self.orders = OrderCounter(bench, self.packs)
        self.readings = ReadingCounter(bench)
        self.times = TimeCounter(bench)
        self.shopping = ShoppingCounter(bench, self.jobs, self.times, self.buying)
        self.loggers = LoggerCounter(bench)
        self.laying = LayingCounter(bench)
        self.diary = DiaryCounter(bench)
        self.proposals = ProposalCounter(bench, self.diary)
        self.supposing = SupposingCounter(bench, self.proposals, self.packs, self.jobs, self.firm)
        self.closing = ClosingCounter(bench)
        self.stock = StockCounter(bench, self.packs, self.closing)
        self.taught = TaughtCounter(bench)
        self.papers = PaperCounter(bench)
        self.keeping = KeepingCounter(bench)

    @property
    def path(self) -> Path:
        """Where the records lie."""
        return self._bench.cabinet.path

    def now(self) -> datetime:
        """Return the present instant by the desk's clock."""
        return self._bench.now()

    def today(self) -> date:
        """Return the calendar day in the firm's zone."""
        return self._bench.today()

    def zone(self) -> ZoneInfo:
        """Return the zone of the firm's wall clock."""
        return self._bench.firm().zone

    def look_at(self, moment: datetime) -> None:
        """Answer as of another moment from now on, and refuse every deed."""
        self._bench.clock = stopped_clock(moment)
        self._bench.looking_back = True

    def changes(self) -> int:
        """Return a number that differs once another window has changed the records."""
        return self._bench.cabinet.data_version()


@contextmanager
def open_desk(
    path: Path,
    *,
    clock: Clock = wall_clock,
    who: str = "",
    create: bool = False,
    throw_away: bool = False,
) -> Iterator[Desk]:
    """Open the desk on a file of records, and close it again.

    Args:
        path: the file.
        clock: returns the present instant.
        who: named in the history of every deed.
        create: make the file if there is none.
        throw_away: the records are not kept, so no deed waits for the disk.

    Raises:
        NoStore: there is no such file, and it was not to be made.
        StoreError: the file cannot be used; the sentence says why.
    """
    cabinet = open_cabinet(path, create=create)
    try:
        if throw_away:
            cabinet.file.hurry()
        bench = Bench(cabinet=cabinet, clock=clock, who=who)
        fill_up(bench)
        yield Desk(bench)
    finally:
        cabinet.close()
