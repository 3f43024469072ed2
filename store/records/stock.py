"""The drawer of the stock: where every pack came from and went."""

from datetime import datetime

from store.records.database import OpenFile
from store.records.filed_movements import batches, movements
from store.trade.ledger import Movement


class StockDrawer:
    """Tells the movements that today's stock is the sum of."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def movements(self, now: datetime) -> tuple[Movement, ...]:
        """Return all movements of jobs open at ``now``, and of any job to or from shelf and customer, as filed."""
        return movements(self._file, now)

    def batches(self) -> dict[str, tuple[str, ...]]:
        """Return the batches of each product that ever came in or were found, by its code, the latest first."""
        return batches(self._file)
