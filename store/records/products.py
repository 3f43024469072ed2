"""The drawer of makers' sheets: boards, glues and materials."""

from collections.abc import Callable, Collection
from dataclasses import fields

from store.errors import Refused
from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.tables import ProductRow
from store.records.within import MOST_ASKED
from store.trade.materials import Material, MaterialDraft
from store.trade.products import Board, Glue, Product, ProductDraft, sheet_of_kind
from store.trade.things import ProductKind, Thing

_NOUNS: dict[ProductKind, type[Product]] = {
    ProductKind.BOARD: Board,
    ProductKind.GLUE: Glue,
    ProductKind.MATERIAL: Material,
}

_COLUMNS = (
    ProductRow.kind,
    *(
        getattr(ProductRow, name)
        for name in dict.fromkeys(field.name for noun in _NOUNS.values() for field in fields(noun))
    ),
)

_MAY_BE_EMPTY = {
    ProductKind.BOARD: {"climate", "shortest_mm", "pack_run_mm", "lead_days"},
    ProductKind.GLUE: {"lead_days"},
    ProductKind.MATERIAL: {"width_mm", "rate", "lead_days"},
}


class ProductDrawer:
    """Holds what the firm buys, each product under its code."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def all(self) -> tuple[Product, ...]:
        """Return every product, by code."""
        return self._file.rows(ProductRow.select(*_COLUMNS).order_by(ProductRow.code), _product)

    def materials(self) -> tuple[Material, ...]:
        """Return every material, by code."""
        query = ProductRow.select(*_COLUMNS).where(ProductRow.kind == ProductKind.MATERIAL.value)
        found = self._file.rows(query.order_by(ProductRow.code), _product)
        return tuple(one for one in found if isinstance(one, Material))

    def by_code(self, code: str) -> Product | None:
        return self._file.first(ProductRow.select(*_COLUMNS).where(ProductRow.code == code), _product)

    def of_codes(self, codes: Collection[str]) -> dict[str, Product]:
        """Return the products of these codes, by code; one question however many they are."""
        query = ProductRow.select(*_COLUMNS).order_by(ProductRow.code)
        if len(codes) <= MOST_ASKED:
            query = query.where(ProductRow.code.in_(list(codes)))
        return {product.code: product for product in self._file.rows(query, _product) if product.code in codes}

    def number_of(self, code: str) -> int:
        """Return the row number of a code; Refused if there is no such product."""
        number = self._file.number(ProductRow.select(ProductRow.id).where(ProductRow.code == code))
        if number is None:
            raise Refused(f"There is no product “{code}” on file; add it under Products first.")
        return number

    def add(self, draft: ProductDraft) -> Product:
        """File a product; Refused if its code is taken."""
        product_id = self._file.file_away(ProductRow.insert(rev=1, **_columns(draft)))
        return _filed(draft, product_id, 1)

    def change(self, product_id: int, draft: ProductDraft, rev: int) -> Product:
        """Correct the sheet shown at ``rev``; ChangedMeanwhile if it says something else by now."""
        query = ProductRow.update(rev=rev + 1, **_columns(draft))
        query = query.where(ProductRow.id == product_id, ProductRow.rev == rev, ProductRow.kind == str(draft.kind))
        self._file.alter_as_shown(query, f"“{draft.code}”")
        return _filed(draft, product_id, rev + 1)


def _columns(draft: ProductDraft) -> dict[str, object]:
    own = {field.name: getattr(draft, field.name) for field in fields(sheet_of_kind(draft.kind))}
    if isinstance(draft, MaterialDraft):
        own["thing"] = draft.thing.value
    return {"kind": str(draft.kind)} | own


def _filed(draft: ProductDraft, product_id: int, rev: int) -> Product:
    return filed(_NOUNS[draft.kind], draft, id=product_id, rev=rev)


def _product(*, kind: str, **columns: object) -> Product:
    known = ProductKind(kind)
    noun: Callable[..., Product] = _NOUNS[known]
    return build(noun, _filled(columns, known))


def _filled(columns: dict[str, object], kind: ProductKind) -> dict[str, object]:
    """Return the columns of one kind; ValueError where one is empty that no sheet may leave out."""
    own = {field.name: columns[field.name] for field in fields(_NOUNS[kind])}
    if any(value is None for name, value in own.items() if name not in _MAY_BE_EMPTY[kind]):
        raise ValueError(own)
    return own | ({"thing": Thing(str(own["thing"]))} if kind is ProductKind.MATERIAL else {})
