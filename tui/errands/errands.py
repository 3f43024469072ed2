"""Every errand there is, each asked for by its name or by the deed that a job waits for."""

from collections.abc import Awaitable, Callable, Sequence

from store.desk.closing_counter import TakenBack
from store.trade.events import Order, Snag
from store.trade.flights import Flight
from store.trade.jobs import Room
from store.trade.readings import Reading
from store.trade.verdict import DeedKind, NextDeed
from tui.errands.buying_errands import BuyingErrands
from tui.errands.closing_errands import ClosingErrands
from tui.errands.firm_errands import FirmErrands
from tui.errands.flight_errands import FlightErrands
from tui.errands.job_errands import JobErrands
from tui.errands.laying_errands import LayingErrands
from tui.errands.logger_errands import LoggerErrands
from tui.errands.order_errands import OrderErrands
from tui.errands.pack_errands import PackErrands
from tui.errands.site_errands import SiteErrands
from tui.errands.take_off_errands import TakeOffErrands
from tui.telling import Answer, or_tell
from tui.view import View


class Errands:
    """What can be done from a view: each errand opens a form, files its answer, tells what it did, and asks again.

    Every errand is awaited in a worker, since it waits for a form. It answers whether anything was filed. While one
    is going on, another one asked for does nothing: a key pressed twice opens one form.
    """

    def __init__(self, view: View) -> None:
        self._view = view
        self._jobs = JobErrands(view)
        self._flights = FlightErrands(view)
        self._packs = PackErrands(view)
        self._orders = OrderErrands(view)
        self._site = SiteErrands(view)
        self._loggers = LoggerErrands(view)
        self._laying = LayingErrands(view)
        self._closing = ClosingErrands(view)
        self._take_off = TakeOffErrands(view)
        self._buying = BuyingErrands(view)
        self._firm = FirmErrands(view)
        self._is_busy = False
        self._deeds: dict[DeedKind, Callable[[str, NextDeed], Awaitable[bool]]] = {
            DeedKind.MEASURE: self._measure,
            DeedKind.ORDER: lambda ref, deed: self._packs.order(ref),
            DeedKind.CHASE: self._chase,
            DeedKind.CHASE_GLUE: self._chase,
            DeedKind.TAKE_IN: lambda ref, deed: self._packs.take_in(ref),
            DeedKind.CARRY_IN: lambda ref, deed: self._packs.carry(ref, deed.room, deed.product),
            DeedKind.READ_AIR: lambda ref, deed: self._site.read(ref, deed.room, "air"),
            DeedKind.PUT_AIR_RIGHT: lambda ref, deed: self._site.read(ref, deed.room, "air"),
            DeedKind.TEST_DAMP: lambda ref, deed: self._site.read(ref, deed.room, ""),
            DeedKind.CHECK_FLAT: lambda ref, deed: self._site.read(ref, deed.room, "straightedge"),
            DeedKind.LEVEL: lambda ref, deed: self._site.smooth(ref, deed.room),
            DeedKind.READ_BOARDS: lambda ref, deed: self._site.read(ref, deed.room, "board"),
            DeedKind.SAMPLE_OLD_FLOOR: self._measure,
            DeedKind.CALL_LICENSED: self._measure,
            DeedKind.PROVE_HEATING: self._measure,
            DeedKind.TURN_HEATING_DOWN: self._measure,
            DeedKind.ORDER_GLUE: lambda ref, deed: self._packs.order(ref),
            DeedKind.TRAIN: lambda ref, deed: self._firm.change_person(),
            DeedKind.LAY: lambda ref, deed: self._laying.lay(ref, deed.room),
            DeedKind.FINISH_LAYING: lambda ref, deed: self._laying.lay(ref, deed.room),
            DeedKind.NAME_GLUE: self._measure,
            DeedKind.COUNT: lambda ref, deed: self._closing.count(ref),
            DeedKind.SIGN: lambda ref, deed: self._closing.sign(ref),
            DeedKind.MEND: self._mend,
        }

    async def _one(self, errand: Callable[[], Awaitable[Answer]], otherwise: Answer) -> Answer:
        """Do one errand, unless another is going on."""
        if self._is_busy:
            return otherwise
        self._is_busy = True
        try:
            return await or_tell(self._view.app, errand(), otherwise)
        finally:
            self._is_busy = False

    async def do(self, deed: NextDeed, ref: str) -> bool:
        """Do the deed that a job waits for."""
        return await self._one(lambda: self._deeds[deed.kind](ref, deed), False)

    async def take_on(self) -> str | None:
        """Take on a job; its reference, or None where nothing was filed."""
        return await self._one(self._jobs.take_on, None)

    async def change_job(self, ref: str) -> bool:
        """Change a job's card."""
        return await self._one(lambda: self._jobs.change_job(ref), False)

    async def add_room(self, ref: str) -> bool:
        """Measure a room."""
        return await self._one(lambda: self._jobs.add_room(ref), False)

    async def change_room(self, ref: str, room: Room) -> bool:
        """Change a room."""
        return await self._one(lambda: self._jobs.change_room(ref, room), False)

    async def remove_room(self, ref: str, room: Room) -> bool:
        """Take a room out of a job, while nothing else is on file about it."""
        return await self._one(lambda: self._jobs.remove_room(ref, room), False)

    async def add_flight(self, ref: str) -> bool:
        """Measure a flight of stairs."""
        return await self._one(lambda: self._flights.add(ref), False)

    async def change_flight(self, ref: str, flight: Flight) -> bool:
        """Change a flight of stairs."""
        return await self._one(lambda: self._flights.change(ref, flight), False)

    async def remove_flight(self, ref: str, flight: Flight) -> bool:
        """Take a flight of stairs out of a job."""
        return await self._one(lambda: self._flights.remove(ref, flight), False)

    def is_counted(self, ref: str, room: str) -> bool:
        """Whether a room's floor is counted and not drawn."""
        return self._take_off.is_for(ref, room)

    async def count_floor(self, ref: str, room: str) -> bool:
        """Show what a floor takes that is counted and not drawn."""
        return await self._one(lambda: self._take_off.show(ref, room), False)

    async def show_what_to_buy(self, ref: str) -> bool:
        """Show what a job needs bought, to be set by hand, left out or written out."""
        return await self._one(lambda: self._buying.show(ref), False)

    async def order(self, ref: str) -> bool:
        """Put an order on file."""
        return await self._one(lambda: self._packs.order(ref), False)

    async def confirm(self, ref: str, order: Order) -> bool:
        """Put on file what a supplier confirms of an order."""
        return await self._one(lambda: self._orders.confirm(ref, order), False)

    async def credit(self, ref: str, product: str) -> bool:
        """Put a credit on file that has come for what went back."""
        return await self._one(lambda: self._orders.credit(ref, product), False)

    async def claim(self, ref: str, products: Sequence[str]) -> bool:
        """Put on file what a supplier credited, or sent instead, for packs that came damaged."""
        return await self._one(lambda: self._orders.claim(ref, products), False)

    async def take_in(self, ref: str) -> bool:
        """Take in a delivery."""
        return await self._one(lambda: self._packs.take_in(ref), False)

    async def carry(self, ref: str, room: str = "") -> bool:
        """Carry packs, into this room to begin with."""
        return await self._one(lambda: self._packs.carry(ref, room), False)

    async def read(self, ref: str, room: str = "", kind: str = "air") -> bool:
        """Put a reading on file."""
        return await self._one(lambda: self._site.read(ref, room, kind), False)

    async def put_reading_right(self, ref: str, reading: Reading) -> bool:
        """Put a reading right, in one deed."""
        return await self._one(lambda: self._site.put_right(ref, reading), False)

    async def take_in_logger(self, ref: str, room: str = "") -> bool:
        """Take in a data logger's file."""
        return await self._one(lambda: self._loggers.take_in(ref, room), False)

    async def smooth(self, ref: str, room: str = "") -> bool:
        """Put on file that a subfloor was levelled."""
        return await self._one(lambda: self._site.smooth(ref, room), False)

    async def void(self, ref: str, room: str = "") -> bool:
        """Put on file what makes moisture readings void."""
        return await self._one(lambda: self._site.void(ref, room), False)

    async def look_round(self, ref: str, room: str = "") -> bool:
        """Go through the morning list of a room."""
        return await self._one(lambda: self._laying.look_round(ref, room), False)

    async def lay(self, ref: str, room: str = "") -> bool:
        """Begin laying, or finish it where it goes on."""
        return await self._one(lambda: self._laying.lay(ref, room), False)

    async def count(self, ref: str) -> bool:
        """Count the leftovers."""
        return await self._one(lambda: self._closing.count(ref), False)

    async def sign(self, ref: str) -> bool:
        """Have the floor signed for."""
        return await self._one(lambda: self._closing.sign(ref), False)

    async def add_snag(self, ref: str) -> bool:
        """Put a snag on file."""
        return await self._one(lambda: self._closing.add_snag(ref), False)

    async def mend(self, ref: str, snag: Snag) -> bool:
        """Put on file that a snag was put right."""
        return await self._one(lambda: self._closing.mend(ref, snag), False)

    async def add_note(self, ref: str) -> bool:
        """Write a note."""
        return await self._one(lambda: self._closing.add_note(ref), False)

    async def take_back(self, ref: str, fact: TakenBack) -> bool:
        """Take back a line that was filed by mistake."""
        return await self._one(lambda: self._closing.take_back(ref, fact), False)

    async def _measure(self, ref: str, deed: NextDeed) -> bool:
        rooms = {room.name: room for room in self._view.desk.jobs.card(ref).facts.rooms}
        if deed.room in rooms:
            return await self._jobs.change_room(ref, rooms[deed.room])
        return await self._jobs.add_room(ref)

    async def _chase(self, ref: str, deed: NextDeed) -> bool:
        return await self._packs.chase(ref, deed.product)

    async def _mend(self, ref: str, deed: NextDeed) -> bool:
        snags = self._view.desk.jobs.card(ref).facts.snags
        found = [one for one in snags if one.mended_at is None and one.room == deed.room]
        return await self._closing.mend(ref, found[0]) if found else False
