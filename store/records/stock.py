"""The drawer of the stock: where every pack came from and went."""

from collections.abc import Collection
from datetime import datetime

from store.records.database import OpenFile
from store.records.filed_differences import as_movements, booked, insert_of
from store.records.filed_movements import ages, batches, movements
from store.records.filed_orders import refs_awaiting_credit
from store.records.nouns import filed
from store.records.products import ProductDrawer
from store.trade.ledger import Age, Movement
from store.trade.stock_take import Booked, Difference, DifferenceDraft


class StockDrawer:
    """Tells the movements that today's stock is the sum of."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._products = ProductDrawer(file)

    def movements(self, now: datetime, *, spares: bool = True) -> tuple[Movement, ...]:
        """Return all movements of jobs open at ``now``, and of any job to or from shelf and customer, as filed.

        Without ``spares`` what past jobs left with their customers is not among them.
        What stock-takes found or missed stands at the end.
        """
        return (*movements(self._file, now, spares=spares), *as_movements(self._file, now))

    def ages(self, now: datetime, refs: Collection[str]) -> dict[tuple[str, str, str], Age]:
        """Return when the batches of each product came and go off, by code, batch and job, as known by ``now``.

        By job for ``refs`` only; under no job for every batch that was written down.
        """
        return ages(self._file, now, refs)

    def refs_awaiting_credit(self, damaged_since: datetime) -> tuple[str, ...]:
        """Return the jobs a credit is to come for: of packs that went back, or came damaged since a moment."""
        return refs_awaiting_credit(self._file, damaged_since)

    def book(self, job_id: int | None, draft: DifferenceDraft) -> Difference:
        """File what a stock-take found or missed; Refused for a product that is not on file."""
        query = insert_of(job_id, self._products.number_of(draft.product), draft)
        return filed(Difference, draft, id=self._file.file_away(query))

    def booked(self) -> tuple[Booked, ...]:
        """Return what stock-takes found or missed, but for what was taken back, in the order of filing."""
        return booked(self._file)

    def batches(self) -> dict[str, tuple[str, ...]]:
        """Return the batches of each product that ever came in or were found, by its code, the latest first."""
        told = {code: dict.fromkeys(some) for code, some in batches(self._file).items()}
        for one in self.booked():
            if one.difference.batch:
                told.setdefault(one.difference.product, {})[one.difference.batch] = None
        return {code: tuple(some) for code, some in told.items()}
