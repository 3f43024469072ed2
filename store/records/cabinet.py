"""The filing cabinet: one open file and its drawers."""

from contextlib import AbstractContextManager
from pathlib import Path

from store.records.bookings import BookingDrawer
from store.records.database import OpenFile
from store.records.events import EventDrawer
from store.records.facts import FactsDrawer
from store.records.firm import FirmDrawer
from store.records.flights import FlightDrawer
from store.records.history import HistoryDrawer
from store.records.jobs import JobDrawer
from store.records.lessons import LessonDrawer
from store.records.people import PeopleDrawer
from store.records.products import ProductDrawer
from store.records.rooms import RoomDrawer
from store.records.stock import StockDrawer
from store.records.trouble import saying_no


class Cabinet:
    """One file of records, opened by ``opening.open_cabinet``; several can be open in one process.

    Questions may be asked at any time; whatever writes must stand in a ``deed``. What goes wrong with the
    file is told by a child of ``StoreError``.
    """

    def __init__(self, file: OpenFile) -> None:
        self.file = file
        self.firm = FirmDrawer(file)
        self.people = PeopleDrawer(file)
        self.bookings = BookingDrawer(file)
        self.products = ProductDrawer(file)
        self.jobs = JobDrawer(file)
        self.rooms = RoomDrawer(file)
        self.flights = FlightDrawer(file)
        self.events = EventDrawer(file)
        self.history = HistoryDrawer(file)
        self.facts = FactsDrawer(file)
        self.lessons = LessonDrawer(file)
        self.stock = StockDrawer(file)

    @property
    def path(self) -> Path:
        """Where the file lies, as it was given."""
        return self.file.path

    def deed(self) -> AbstractContextManager[None]:
        """Return the block in which everything written comes on disk together, or nothing of it."""
        return self.file.deed()

    def data_version(self) -> int:
        """Return a number that changes whenever another window has saved something."""
        with saying_no(self.path):
            version: int = self.file.connection.execute("PRAGMA data_version").fetchone()[0]
            return version

    def close(self) -> None:
        """Close the file; a second time does nothing."""
        self.file.close()
