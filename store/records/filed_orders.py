"""Files and reads back orders with what their suppliers confirmed, and credits for what went back or came damaged."""

from datetime import datetime

from peewee import JOIN, SQL, Expression, fn

from store.records.database import OpenFile
from store.records.event_tables import (
    ConfirmationRow,
    ConfirmedLineRow,
    CreditRow,
    MovementRow,
    PurchaseLineRow,
    PurchaseRow,
)
from store.records.filed_events import Filed, grouped
from store.records.filed_movements import movement_stands
from store.records.nouns import build, filed
from store.records.products import ProductDrawer
from store.records.tables import JobRow, ProductRow
from store.records.within import stands
from store.trade.confirmations import Confirmation, ConfirmationDraft, ConfirmedLine
from store.trade.credits import Credit, CreditDraft, CreditFor
from store.trade.events import Order, OrderDraft, OrderLine, PlaceKind


def file_order(file: OpenFile, job_id: int, draft: OrderDraft) -> Order:
    """File an order, and what was confirmed of it; Refused for a product that is not on file."""
    products = ProductDrawer(file)
    order_id = file.file_away(
        PurchaseRow.insert(
            job_id=job_id,
            placed_on=draft.on,
            due_on=draft.due_on,
            supplier=draft.supplier,
            freight_minor=draft.freight_minor,
        )
    )
    for line in draft.lines:
        number = products.number_of(line.product)
        columns = {"packs": line.packs, "price_minor": line.price_minor}
        file.file_away(PurchaseLineRow.insert(purchase_id=order_id, product_id=number, **columns))
    confirmed = tuple(file_confirmation(file, job_id, order_id, one) for one in draft.confirmed)
    return filed(Order, draft, id=order_id, confirmed=confirmed)


def file_confirmation(file: OpenFile, job_id: int, order_id: int, draft: ConfirmationDraft) -> Confirmation:
    """File what a supplier said of an order; Refused for a product that is not on file."""
    products = ProductDrawer(file)
    row_id = file.file_away(
        ConfirmationRow.insert(job_id=job_id, purchase_id=order_id, at=draft.at, number=draft.number)
    )
    for line in draft.lines:
        number = products.number_of(line.product)
        columns = {"packs": line.packs, "due_on": line.due_on, "price_minor": line.price_minor}
        file.file_away(ConfirmedLineRow.insert(confirmation_id=row_id, product_id=number, **columns))
    return filed(Confirmation, draft, id=row_id)


def file_credit(file: OpenFile, job_id: int, draft: CreditDraft) -> Credit:
    """File what a supplier has credited; Refused for a product that is not on file."""
    columns = {name: getattr(draft, name) for name in ("at", "amount_minor", "number", "settles", "replaced_packs")}
    columns["owed_for"] = str(draft.owed_for)
    product_id = ProductDrawer(file).number_of(draft.product)
    return filed(Credit, draft, id=file.file_away(CreditRow.insert(job_id=job_id, product_id=product_id, **columns)))


def orders(file: OpenFile, which: Expression) -> Filed[Order]:
    """Return orders with their lines and what was confirmed of them, by four questions."""
    numbers = PurchaseRow.select(PurchaseRow.id).where(which)
    query = PurchaseLineRow.select(
        PurchaseLineRow.purchase_id,
        PurchaseLineRow.packs,
        PurchaseLineRow.price_minor,
        ProductRow.code.alias("product"),
    )
    query = query.join(ProductRow, JOIN.INNER, on=(PurchaseLineRow.product_id == ProductRow.id))
    query = query.where(PurchaseLineRow.purchase_id.in_(numbers)).order_by(PurchaseLineRow.id)
    lines = grouped(file.rows(query, _order_line))
    said = grouped(
        confirmations(file, ConfirmationRow.purchase_id.in_(numbers) & stands(ConfirmationRow, "confirmation"))
    )

    def order(*, job_id: int, id: int, **columns: object) -> tuple[int, Order]:  # noqa: A002 - the column's name
        return job_id, build(Order, columns, id=id, lines=tuple(lines.get(id, ())), confirmed=tuple(said.get(id, ())))

    heads = PurchaseRow.select(
        PurchaseRow.job_id,
        PurchaseRow.id,
        PurchaseRow.placed_on.alias("on"),
        PurchaseRow.due_on,
        PurchaseRow.supplier,
        PurchaseRow.freight_minor,
    )
    return file.rows(heads.where(which).order_by(PurchaseRow.id), order)


def confirmations(file: OpenFile, which: Expression) -> Filed[Confirmation]:
    """Return what suppliers said, each with the number of its order."""
    numbers = ConfirmationRow.select(ConfirmationRow.id).where(which)
    query = ConfirmedLineRow.select(
        ConfirmedLineRow.confirmation_id,
        ConfirmedLineRow.packs,
        ConfirmedLineRow.due_on,
        ConfirmedLineRow.price_minor,
        ProductRow.code.alias("product"),
    )
    query = query.join(ProductRow, JOIN.INNER, on=(ConfirmedLineRow.product_id == ProductRow.id))
    query = query.where(ConfirmedLineRow.confirmation_id.in_(numbers)).order_by(ConfirmedLineRow.id)
    lines = grouped(file.rows(query, _confirmed_line))

    def confirmation(*, purchase_id: int, id: int, **columns: object) -> tuple[int, Confirmation]:  # noqa: A002
        return purchase_id, build(Confirmation, columns, id=id, lines=tuple(lines.get(id, ())))

    heads = ConfirmationRow.select(
        ConfirmationRow.purchase_id, ConfirmationRow.id, ConfirmationRow.at, ConfirmationRow.number
    )
    return file.rows(heads.where(which).order_by(ConfirmationRow.id), confirmation)


def credit_notes(file: OpenFile, which: Expression) -> Filed[Credit]:
    """Return what suppliers have credited."""
    query = CreditRow.select(
        CreditRow.job_id,
        CreditRow.id,
        CreditRow.at,
        ProductRow.code.alias("product"),
        CreditRow.amount_minor,
        CreditRow.number,
        CreditRow.settles,
        CreditRow.owed_for,
        CreditRow.replaced_packs,
    )
    query = query.join(ProductRow, JOIN.INNER, on=(CreditRow.product_id == ProductRow.id))
    return file.rows(query.where(which).order_by(CreditRow.id), _credit)


def refs_awaiting_credit(file: OpenFile, damaged_since: datetime) -> tuple[str, ...]:
    """Return the jobs that a credit is still to come for, by reference.

    Something of theirs was counted back to a supplier, or came damaged on or after a moment, and no credit for it has
    settled that yet.
    """
    back = MovementRow.target == str(PlaceKind.RETURN)
    broken = (MovementRow.damaged_packs > 0) & (MovementRow.at >= damaged_since)
    query = JobRow.select(JobRow.ref).join(MovementRow, JOIN.INNER, on=(MovementRow.job_id == JobRow.id))
    waiting = (back & ~_settled(CreditFor.RETURN)) | (broken & ~_settled(CreditFor.DAMAGE))
    return file.rows(query.where(waiting, movement_stands()).distinct().order_by(JobRow.ref), _ref)


def _settled(owed_for: CreditFor) -> Expression:
    """Whether a credit has settled what is owed for the product of a movement."""
    settled = CreditRow.select(SQL("1")).where(
        CreditRow.job_id == MovementRow.job_id,
        CreditRow.product_id == MovementRow.product_id,
        CreditRow.settles,
        CreditRow.owed_for == str(owed_for),
        stands(CreditRow, "credit"),
    )
    found: Expression = fn.EXISTS(settled) == 1
    return found


def _ref(*, ref: str) -> str:
    return ref


def _order_line(*, purchase_id: int, **columns: object) -> tuple[int, OrderLine]:
    return purchase_id, build(OrderLine, columns)


def _confirmed_line(*, confirmation_id: int, **columns: object) -> tuple[int, ConfirmedLine]:
    return confirmation_id, build(ConfirmedLine, columns)


def _credit(*, job_id: int, owed_for: str, **columns: object) -> tuple[int, Credit]:
    return job_id, build(Credit, columns, owed_for=CreditFor(owed_for))
