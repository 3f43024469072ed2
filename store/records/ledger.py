"""The ledger: every pack that came in, was carried, opened or counted is one row from a place to a place."""

from peewee import ModelInsert

from store.records.database import OpenFile
from store.records.event_tables import DeliveryRow, MovementRow
from store.records.nouns import filed
from store.records.products import ProductDrawer
from store.records.rooms import RoomDrawer
from store.trade.events import (
    OPENED,
    SITE,
    SUPPLIER,
    Count,
    CountDraft,
    Delivery,
    DeliveryDraft,
    Move,
    MoveDraft,
    Opening,
    OpeningDraft,
    Place,
    PlaceKind,
    in_room,
)
from store.trade.ledger import WHERE_COUNTED_GO


class Ledger:
    """Files the movements of packs."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._products = ProductDrawer(file)
        self._rooms = RoomDrawer(file)

    def add_delivery(self, job_id: int, draft: DeliveryDraft) -> Delivery:
        """File a delivery, a row for each line; Refused for a product or room that is not on file."""
        room_id = self._room_id(job_id, draft.into)
        delivery_id = self._file.file_away(
            DeliveryRow.insert(job_id=job_id, at=draft.at, into_place=str(draft.into.kind), into_room_id=room_id)
        )
        for line in draft.lines:
            self._file.file_away(
                self._movement(
                    job_id,
                    (SUPPLIER, draft.into),
                    cause="delivery",
                    at=draft.at,
                    product=line.product,
                    batch=line.batch,
                    packs=line.packs,
                    damaged_packs=line.damaged_packs,
                    use_by=line.use_by,
                    delivery_id=delivery_id,
                )
            )
        return filed(Delivery, draft, id=delivery_id)

    def add_move(self, job_id: int, draft: MoveDraft) -> Move:
        """File packs carried from one place to another; Refused for a product or room that is not on file."""
        query = self._movement(
            job_id,
            (draft.source, draft.target),
            cause="move",
            at=draft.at,
            product=draft.product,
            batch=draft.batch,
            packs=draft.packs,
        )
        return filed(Move, draft, id=self._file.file_away(query))

    def add_opening(self, job_id: int, draft: OpeningDraft) -> Opening:
        """File packs opened in a room; Refused for a product or room that is not on file."""
        query = self._movement(
            job_id,
            (in_room(draft.room), OPENED),
            cause="opening",
            at=draft.at,
            product=draft.product,
            batch=draft.batch,
            packs=draft.packs,
        )
        return filed(Opening, draft, id=self._file.file_away(query))

    def add_count(self, job_id: int, draft: CountDraft) -> Count:
        """File leftovers and where they go; Refused for a product that is not on file."""
        query = self._movement(
            job_id,
            (SITE, Place(kind=WHERE_COUNTED_GO[draft.to])),
            cause="count",
            at=draft.at,
            product=draft.product,
            batch=draft.batch,
            packs=draft.packs,
            boards=draft.boards,
        )
        return filed(Count, draft, id=self._file.file_away(query))

    def _movement(self, job_id: int, places: tuple[Place, Place], *, product: str, **columns: object) -> ModelInsert:
        source, target = places
        nothing = {"damaged_packs": 0, "boards": 0, "delivery_id": None}
        ends = {
            "source": str(source.kind),
            "source_room_id": self._room_id(job_id, source),
            "target": str(target.kind),
            "target_room_id": self._room_id(job_id, target),
        }
        return MovementRow.insert(
            job_id=job_id, product_id=self._products.number_of(product), **ends, **(nothing | columns)
        )

    def _room_id(self, job_id: int, place: Place) -> int | None:
        return self._rooms.number_of(job_id, place.room) if place.kind is PlaceKind.ROOM else None
