"""The drawer of makers' sheets: boards and glues."""

from collections.abc import Collection
from dataclasses import fields

from store.errors import Refused
from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.tables import ProductRow
from store.records.within import MOST_ASKED
from store.trade.products import Board, BoardDraft, Glue, GlueDraft, Product, ProductDraft, ProductKind

_COLUMNS = (
    ProductRow.kind,
    *(
        getattr(ProductRow, name)
        for name in dict.fromkeys(field.name for noun in (Board, Glue) for field in fields(noun))
    ),
)

_MAY_BE_EMPTY = {"climate", "shortest_mm", "pack_run_mm", "lead_days"}


class ProductDrawer:
    """Holds what the firm buys, each product under its code."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def all(self) -> tuple[Product, ...]:
        """Return every product, by code."""
        return self._file.rows(ProductRow.select(*_COLUMNS).order_by(ProductRow.code), _product)

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
    sheet = BoardDraft if isinstance(draft, BoardDraft) else GlueDraft
    return {"kind": str(draft.kind)} | {field.name: getattr(draft, field.name) for field in fields(sheet)}


def _filed(draft: ProductDraft, product_id: int, rev: int) -> Product:
    if isinstance(draft, BoardDraft):
        return filed(Board, draft, id=product_id, rev=rev)
    return filed(Glue, draft, id=product_id, rev=rev)


def _product(*, kind: str, **columns: object) -> Product:
    if ProductKind(kind) is ProductKind.BOARD:
        return build(Board, _filled(columns, Board))
    return build(Glue, _filled(columns, Glue))


def _filled(columns: dict[str, object], noun: type[Product]) -> dict[str, object]:
    """Return the columns of one kind; ValueError where one is empty that no sheet may leave out."""
    own = {field.name: columns[field.name] for field in fields(noun)}
    if any(value is None for name, value in own.items() if name not in _MAY_BE_EMPTY):
        raise ValueError(own)
    return own
