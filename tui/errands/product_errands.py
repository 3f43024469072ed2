"""Errands about products: putting boards, glues and materials on file, and changing their sheets."""

from store.trade.products import Product
from store.trade.things import ProductKind
from tui.dialogs.choose import Choose
from tui.dialogs.product_form import ProductForm
from tui.errands.meanwhile import Meanwhile
from tui.errands.subject import Subject
from tui.words.products import sheet_of
from tui.words.wording import clean

_KINDS = (
    (ProductKind.BOARD.value, "A board, sold by the pack"),
    (ProductKind.GLUE.value, "A glue, sold by the tub"),
    (ProductKind.MATERIAL.value, "A material: primer, film, skirting, treads…"),
)


class ProductErrands(Subject):
    """Adding and changing what the firm buys."""

    async def add(self) -> str | None:
        """Ask for a board, a glue or a material and file it; its code, or None where nothing was filed."""
        kind = await self._view.app.push_screen_wait(Choose("What do you add?", label="Kind", options=_KINDS))
        if kind is None:
            return None
        firm = self.firm
        form = ProductForm(
            kind=ProductKind(kind),
            currency=firm.currency,
            check=lambda draft: self.desk.products.problems(draft, new=True),
            climate=firm.climate,
            suppliers=[one.name for one in firm.suppliers],
        )
        draft = await self.ask(form, self.desk.products.add)
        if draft is None:
            return None
        self.done(f"{clean(draft.code)}, {clean(draft.name)}, is on file.")
        return draft.code

    async def change(self, product: Product) -> bool:
        """Ask for a product's sheet anew and file it; what another window changed meanwhile is told, never lost."""
        firm = self.firm
        sheet = Meanwhile(
            product,
            ask=lambda: self._on_file(product),
            told=lambda one: sheet_of(one, firm),
            what=clean(product.code),
        )
        form = ProductForm(
            kind=product.kind,
            currency=firm.currency,
            check=lambda draft: self.desk.products.changing_problems(product, draft),
            draft=product,
            climate=firm.climate,
            suppliers=[one.name for one in firm.suppliers],
        )
        draft = await self.ask(
            form,
            lambda changed: self.desk.products.change(sheet.fact, changed),
            if_changed=sheet.look_again,
        )
        return draft is not None and self.done(f"The sheet of {clean(product.code)} is changed.")

    def _on_file(self, product: Product) -> Product:
        return next((one for one in self.desk.products.all() if one.id == product.id), product)
