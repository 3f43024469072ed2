"""Every errand of the stock, the products and the firm, one at a time."""

from collections.abc import Awaitable, Callable

from store.desk.cards import StockLine, ToOrder
from store.trade.products import Product
from tui.errands.firm_errands import FirmErrands
from tui.errands.holiday_errands import HolidayErrands
from tui.errands.order_errands import OrderErrands
from tui.errands.pack_errands import PackErrands
from tui.errands.product_errands import ProductErrands
from tui.errands.shelf_errands import ShelfErrands
from tui.errands.stock_errands import StockErrands
from tui.errands.supplier_errands import SupplierErrands
from tui.telling import Answer, or_tell
from tui.view import View


class DeskErrands:
    """What can be done from a view without a job's folder.

    Every errand is awaited in a worker, since it waits for a form. While one is going on, another one asked for
    does nothing: a key pressed twice opens one form.
    """

    def __init__(self, view: View) -> None:
        self._view = view
        self._shelf = ShelfErrands(view)
        self._stock = StockErrands(view)
        self._orders = OrderErrands(view)
        self._products = ProductErrands(view)
        self._firm = FirmErrands(view)
        self._holidays = HolidayErrands(view)
        self._suppliers = SupplierErrands(view)
        self._packs = PackErrands(view)
        self._is_busy = False

    async def _one(self, errand: Callable[[], Awaitable[Answer]], otherwise: Answer) -> Answer:
        if self._is_busy:
            return otherwise
        self._is_busy = True
        try:
            return await or_tell(self._view.app, errand(), otherwise)
        finally:
            self._is_busy = False

    async def carry(self, line: StockLine | None) -> bool:
        """Carry packs, beginning with those of a line of stock."""
        return await self._one(lambda: self._shelf.carry(line), False)

    async def count_unit(self) -> bool:
        """Count the unit against the file."""
        return await self._one(self._stock.count, False)

    async def take_back_stock(self) -> bool:
        """Take back a line of a stock-take."""
        return await self._one(self._stock.take_back, False)

    async def follow_credits(self) -> bool:
        """Show the credits that are still to come, and file one that has come."""
        return await self._one(self._orders.credits_due, False)

    async def add_product(self) -> str | None:
        """Put a board or a glue on file; its code, or None where nothing was filed."""
        return await self._one(self._products.add, None)

    async def change_product(self, product: Product) -> bool:
        """Change a product's sheet."""
        return await self._one(lambda: self._products.change(product), False)

    async def look_after_suppliers(self) -> bool:
        """Add a supplier, or change or take off one on file."""
        return await self._one(self._suppliers.look_after, False)

    async def choose_to_order(self) -> ToOrder | None:
        """Show what is still to be ordered, by supplier; the line that was chosen."""
        return await self._one(self._suppliers.choose_to_order, None)

    async def order(self, line: ToOrder) -> bool:
        """Put an order for a job on file, filled with what is bought from one supplier."""
        return await self._one(lambda: self._packs.order(line.job_ref, supplier=line.supplier), False)

    async def change_firm(self) -> bool:
        """Change the firm's settings."""
        return await self._one(self._firm.change, False)

    async def fill_holidays(self) -> bool:
        """File public holidays as the firm's own."""
        return await self._one(self._holidays.fill, False)

    async def add_person(self) -> bool:
        """Put somebody on file who works for the firm."""
        return await self._one(self._firm.add_person, False)

    async def change_person(self) -> bool:
        """Change somebody's card."""
        return await self._one(self._firm.change_person, False)

    async def remove_person(self) -> bool:
        """Take somebody off the list who works for the firm no longer."""
        return await self._one(self._firm.remove_person, False)

    async def sit_down(self) -> bool:
        """Say who is at the desk."""
        return await self._one(self._firm.sit_down, False)

    async def make_copy(self) -> bool:
        """Make a verified copy of the records."""
        return await self._one(self._firm.make_copy, False)

    async def export_jobs(self) -> bool:
        """Write the folders of all jobs to a file."""
        return await self._one(self._firm.export_jobs, False)
