"""Putting boards and glues on file, and changing their sheets."""

from textual.screen import Screen

from store.desk.desk import Desk
from store.errors import ChangedMeanwhile, Problem, StoreError
from store.trade.products import Product, ProductDraft, ProductKind
from tui.dialogs.choose import Choose
from tui.dialogs.product_form import ProductForm
from tui.errands.meanwhile import Meanwhile
from tui.telling import list_of, tell, tell_no
from tui.wording import clean
from tui.words_for_products import sheet_of

_KINDS = (
    (ProductKind.BOARD.value, "A board, sold by the pack"),
    (ProductKind.GLUE.value, "A glue, sold by the tub"),
)


async def add_product(screen: Screen[None], desk: Desk) -> str | None:
    """Ask for a board or a glue and file it; return its code, or None if nothing was filed."""
    kind = await screen.app.push_screen_wait(Choose("What do you add?", label="Kind", options=_KINDS))
    if kind is None:
        return None
    try:
        firm = desk.firm.card()
        form = ProductForm(
            kind=ProductKind(kind),
            currency=firm.currency,
            check=lambda draft: desk.products.problems(draft, new=True),
            climate=firm.climate,
        )
        draft = await screen.app.push_screen_wait(form)
        if draft is None:
            return None
        product = desk.products.add(draft)
    except StoreError as error:
        tell_no(screen.app, error)
        return None
    tell(screen.app, f"On file: {clean(product.code)}, {clean(product.name)}.")
    return product.code


async def change_product(screen: Screen[None], desk: Desk, product: Product) -> None:
    """Ask for a product's sheet anew and file it; what another window changed meanwhile is told, never lost."""
    try:
        firm = desk.firm.card()
        sheet = Meanwhile(
            product,
            ask=lambda: _on_file(desk, product),
            told=lambda one: sheet_of(one, firm),
            what=clean(product.code),
        )
        draft: ProductDraft | None = product
        while draft is not None:
            form = ProductForm(
                kind=product.kind,
                currency=firm.currency,
                check=lambda one: _problems(desk, product, one) + sheet.problems(),
                draft=draft,
                climate=firm.climate,
            )
            draft = await screen.app.push_screen_wait(form)
            if draft is not None and _is_filed(screen, desk, sheet, draft):
                tell(screen.app, f"Changed: the sheet of {clean(product.code)}.")
                return
    except StoreError as error:
        tell_no(screen.app, error)


def _problems(desk: Desk, product: Product, draft: ProductDraft) -> tuple[Problem, ...]:
    found = desk.products.problems(draft, new=False)
    if draft.code != product.code:
        found += (Problem(field="code", say=f"A product keeps its code, {product.code}; add another one instead."),)
    return found


def _on_file(desk: Desk, product: Product) -> Product:
    return next((one for one in desk.products.all() if one.id == product.id), product)


def _is_filed(screen: Screen[None], desk: Desk, sheet: Meanwhile[Product], draft: ProductDraft) -> bool:
    """File the sheet; False if another window was quicker by a moment, and the form is to be shown again."""
    try:
        desk.products.change(sheet.latest, draft)
    except ChangedMeanwhile:
        tell(screen.app, list_of(sheet.problems()), "warning")
        return False
    return True
