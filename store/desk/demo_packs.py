"""How packs move in the made-up firm: ordered, confirmed, come, carried, counted, credited."""

from typing import cast

from store.desk.demo_scene import Scene, place_called
from store.desk.desk import Desk
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    MoveDraft,
    OrderDraft,
    OrderLine,
)
from store.trade.stock_take import CountedLine, StockTake


def ordered(desk: Desk, scene: Scene) -> None:
    """File an order, at the prices that are told."""
    lines = tuple(
        OrderLine(
            product=str(one["product"]),
            packs=cast("int", one["packs"]),
            price_minor=cast("int | None", one.get("price_minor")),
        )
        for one in scene.lines()
    )
    draft = OrderDraft(
        on=scene.at.astimezone(desk.zone()).date(),
        due_on=scene.day(scene.word("due")),
        lines=lines,
        supplier=scene.word("supplier"),
        freight_minor=cast("int", scene.told.get("freight_minor", 0)),
    )
    desk.packs.order(scene.ref, draft)


def confirmed(desk: Desk, scene: Scene) -> None:
    """File what the supplier confirmed of the job's latest order."""
    lines = tuple(
        ConfirmedLine(
            product=str(one["product"]),
            packs=cast("int", one["packs"]),
            due_on=scene.day(str(one["due"])),
            price_minor=cast("int | None", one.get("price_minor")),
        )
        for one in scene.lines()
    )
    order = desk.jobs.card(scene.ref).facts.orders[-1]
    desk.orders.confirm(scene.ref, order, ConfirmationDraft(at=scene.at, lines=lines, number=scene.word("number")))


def credited(desk: Desk, scene: Scene) -> None:
    """File a credit that came."""
    amount = cast("int", scene.told["amount_minor"])
    draft = CreditDraft(at=scene.at, product=scene.word("product"), amount_minor=amount, number=scene.word("number"))
    desk.orders.credit(scene.ref, draft)


def unit_counted(desk: Desk, scene: Scene) -> None:
    """A stock-take of the lines that are told; the job it stands with only gives its moment."""
    filed = {(one.product, one.batch): one for one in desk.stock.lines() if not one.job_ref}
    lines = []
    for one in scene.lines():
        told = filed[str(one["product"]), str(one["batch"])]
        per_pack = desk.jobs.card(scene.ref).facts.board(told.product).boards_per_pack
        lines.append(
            CountedLine(
                product=told.product,
                batch=told.batch,
                job_ref="",
                packs=cast("int", one["packs"]),
                boards=cast("int", one.get("boards", 0)),
                filed=told.packs * per_pack + told.boards,
            )
        )
    desk.stock.book(StockTake(lines=tuple(lines), why=scene.word("why")))


def came(desk: Desk, scene: Scene) -> None:
    """File a delivery."""
    lines = tuple(
        DeliveryLine(
            product=str(one["product"]),
            batch=str(one.get("batch", "")),
            packs=cast("int", one["packs"]),
            damaged_packs=cast("int", one.get("damaged", 0)),
            use_by=scene.day(str(one["use_by"])) if "use_by" in one else None,
        )
        for one in scene.lines()
    )
    desk.packs.take_in(scene.ref, DeliveryDraft(at=scene.at, into=place_called(scene.word("into")), lines=lines))


def carried(desk: Desk, scene: Scene) -> None:
    """File packs carried from one place to another."""
    desk.packs.carry(
        scene.ref,
        MoveDraft(
            at=scene.at,
            product=scene.word("product"),
            batch=scene.word("batch"),
            packs=cast("int", scene.told["packs"]),
            source=place_called(scene.word("from")),
            target=place_called(scene.word("to")),
        ),
    )


def counted(desk: Desk, scene: Scene) -> None:
    """File what was left over, and where it went."""
    drafts = tuple(
        CountDraft(
            at=scene.at,
            product=str(one["product"]),
            batch=str(one["batch"]),
            packs=cast("int", one.get("packs", 0)),
            boards=cast("int", one.get("boards", 0)),
            to=Destination(str(one["to"])),
        )
        for one in scene.lines()
    )
    desk.closing.count(scene.ref, drafts)
