"""The counter for stock-takes: what should lie in the unit, differences booked, and taken back."""

from store.desk.cards import StockLine
from store.desk.closing_counter import ClosingCounter
from store.desk.counter import Bench, refuse
from store.desk.pack_counter import PackCounter
from store.errors import Problem, Refused
from store.trade import checks
from store.trade.events import PlaceKind
from store.trade.products import Board
from store.trade.stock_take import Booked, StockTake, difference
from store.trade.stock_take_checks import problems_with_stock_take

_COUNTED = frozenset({PlaceKind.SHELF, PlaceKind.UNIT})


class StockCounter:
    """What lies in the firm's own unit, free or kept for a job, counted against the file."""

    def __init__(self, bench: Bench, packs: PackCounter, closing: ClosingCounter) -> None:
        self._bench, self._packs, self._closing = bench, packs, closing

    def lines(self) -> tuple[StockLine, ...]:
        """Return what should lie in the unit, free stock first, then job by job."""
        mine = (one for one in self._packs.stock(spares=False) if one.place in _COUNTED)
        return tuple(sorted(mine, key=lambda one: (one.job_ref, one.product, one.batch)))

    def problems(self, take: StockTake) -> tuple[Problem, ...]:
        per_pack = self._per_pack()
        on_file = {
            (one.product, one.batch, one.job_ref): one.packs * per_pack[one.product] + one.boards
            for one in self.lines()
        }
        return problems_with_stock_take(take, on_file, per_pack)

    def book(self, take: StockTake) -> tuple[Booked, ...]:
        """File by how much the unit differs from the file, all lines in one deed; nothing where nothing differs."""
        per_pack, now = self._per_pack(), self._bench.now()
        with self._bench.deed():
            refuse(self.problems(take))
            found = tuple((one, difference(one, per_pack[one.product], now, take.why)) for one in take.lines)
            booked = tuple(
                Booked(
                    job_ref=line.job_ref,
                    difference=self._bench.cabinet.stock.book(
                        self._bench.job_id(line.job_ref) if line.job_ref else None, draft
                    ),
                )
                for line, draft in found
                if draft is not None
            )
            refs = tuple(dict.fromkeys(one.job_ref for one in booked))
            products = ", ".join(dict.fromkeys(one.difference.product for one in booked))
            # A line of history names one job; a stock-take of several is the firm's.
            ref = refs[0] if len(refs) == 1 else ""
            said = {"counted": len(take.lines), "booked": booked}
            self._bench.write_down("stock counted", ref=ref, subject=products or "nothing differs", after=said)
            self._bench.settle(*filter(None, refs))
        return booked

    def booked(self) -> tuple[Booked, ...]:
        """Return what stock-takes have found or missed up to now, the latest first."""
        now = self._bench.now()
        return tuple(one for one in reversed(self._bench.cabinet.stock.booked()) if one.difference.at <= now)

    def take_back(self, one: Booked, why: str) -> None:
        """Take back a difference booked by mistake: it stays on file and in the history, and counts no longer."""
        if one.job_ref:
            self._closing.take_back(one.job_ref, one.difference, why)
            return
        with self._bench.deed():
            refuse(checks.problems_with_text("why", why, "Say why it is taken back."))
            events, told = self._bench.cabinet.events, one.difference
            events.take_back("stock-take", told.id, at=self._bench.now(), who=self._bench.who, why=why)
            if any(line.packs < 0 or line.boards < 0 for line in self.lines() if not line.job_ref):
                raise Refused("Less than nothing would lie free in the unit then; take back what came after it first.")
            self._bench.write_down("stock-take taken back", subject=why[:80], before=one)

    def _per_pack(self) -> dict[str, int]:
        products = self._bench.cabinet.products.all()
        return {one.code: one.boards_per_pack if isinstance(one, Board) else 1 for one in products}
