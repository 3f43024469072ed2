"""The drawer of what happens to jobs, but for the packs: see ``ledger.py``."""

from dataclasses import fields
from datetime import datetime

from store.errors import Refused
from store.records.event_tables import (
    ConfirmationRow,
    CreditRow,
    DeliveryRow,
    DifferenceRow,
    HandoverRow,
    LayingRow,
    LayPlanRow,
    MorningCheckRow,
    MovementRow,
    NoteRow,
    OwnLineRow,
    PurchaseRow,
    ReadingRow,
    SmoothingRow,
    SnagRow,
    TakenBackRow,
    VoidingRow,
)
from store.records.filed_events import readings, snags
from store.records.filed_on_site import insert_of_morning, insert_of_voiding
from store.records.filed_orders import file_confirmation, file_credit, file_order
from store.records.filed_own_lines import insert_of_own_line
from store.records.filed_plans import insert_of, plans
from store.records.ledger import Ledger
from store.records.nouns import build, filed
from store.records.rows import Row
from store.records.within import stands
from store.trade.buying.nouns import OwnLine, OwnLineDraft
from store.trade.confirmations import Confirmation, ConfirmationDraft
from store.trade.credits import Credit, CreditDraft
from store.trade.events import (
    Handover,
    HandoverDraft,
    Laying,
    LayingDraft,
    Note,
    NoteDraft,
    Order,
    OrderDraft,
    Smoothing,
    SmoothingDraft,
    Snag,
    SnagDraft,
)
from store.trade.morning import MorningCheck, MorningCheckDraft
from store.trade.plans import Plan, PlanDraft
from store.trade.readings import Reading, ReadingDraft, WithdrawnReading
from store.trade.voiding import Voiding, VoidingDraft

_ROWS: dict[str, type[Row]] = {
    "order": PurchaseRow,
    "delivery": DeliveryRow,
    "move": MovementRow,
    "opening": MovementRow,
    "count": MovementRow,
    "reading": ReadingRow,
    "smoothing": SmoothingRow,
    "laying": LayingRow,
    "handover": HandoverRow,
    "snag": SnagRow,
    "note": NoteRow,
    "plan": LayPlanRow,
    "morning list": MorningCheckRow,
    "voiding": VoidingRow,
    "stock-take": DifferenceRow,
    "own line": OwnLineRow,
    "confirmation": ConfirmationRow,
    "credit": CreditRow,
}
_IN_THE_LEDGER = frozenset({"move", "opening", "count"})


class EventDrawer(Ledger):
    """Holds what was ordered, brought, moved, opened, read, laid, counted, signed and noted.

    What is filed here is never changed and never removed; what was filed in error is taken back, and stays.
    """

    def add_order(self, job_id: int, draft: OrderDraft) -> Order:
        """File an order, and what was confirmed of it; Refused for a product that is not on file."""
        return file_order(self._file, job_id, draft)

    def add_confirmation(self, job_id: int, order_id: int, draft: ConfirmationDraft) -> Confirmation:
        """File what a supplier said of an order; Refused for a product that is not on file."""
        return file_confirmation(self._file, job_id, order_id, draft)

    def add_credit(self, job_id: int, draft: CreditDraft) -> Credit:
        """File what a supplier has credited; Refused for a product that is not on file."""
        return file_credit(self._file, job_id, draft)

    def add_reading(self, job_id: int, draft: ReadingDraft, corrects: int | None = None) -> Reading:
        """File a reading, in the place of one taken back or in none; Refused for a room the job has not."""
        figures = {field.name: getattr(draft.measure, field.name) for field in fields(draft.measure)}
        figures |= {field.name: getattr(draft.evidence, field.name) for field in fields(draft.evidence)}
        row_id = self._file.file_away(
            ReadingRow.insert(
                job_id=job_id,
                room_id=self._rooms.number_of(job_id, draft.room),
                at=draft.at,
                kind=draft.kind,
                taken_by=draft.taken_by,
                note=draft.note,
                corrects=corrects,
                **figures,
            )
        )
        return filed(Reading, draft, id=row_id, corrects=corrects)

    def add_smoothing(self, job_id: int, draft: SmoothingDraft) -> Smoothing:
        """File a smoothing; Refused for a room the job has not."""
        room_id = self._rooms.number_of(job_id, draft.room)
        row_id = self._file.file_away(SmoothingRow.insert(job_id=job_id, room_id=room_id, at=draft.at, note=draft.note))
        return filed(Smoothing, draft, id=row_id)

    def add_morning(self, job_id: int, draft: MorningCheckDraft) -> MorningCheck:
        """File a morning list; Refused for a room the job has not."""
        room_id = self._rooms.number_of(job_id, draft.room)
        return filed(MorningCheck, draft, id=self._file.file_away(insert_of_morning(job_id, room_id, draft)))

    def add_voiding(self, job_id: int, draft: VoidingDraft) -> Voiding:
        """File what makes a room's moisture readings void; Refused for a room the job has not."""
        room_id = self._rooms.number_of(job_id, draft.room)
        return filed(Voiding, draft, id=self._file.file_away(insert_of_voiding(job_id, room_id, draft)))

    def add_own_line(self, job_id: int, draft: OwnLineDraft) -> OwnLine:
        """File a line of the take-off set by hand; Refused for a product that is not on file."""
        product_id = self._products.number_of(draft.product) if draft.product else None
        return filed(OwnLine, draft, id=self._file.file_away(insert_of_own_line(job_id, product_id, draft)))

    def add_laying(self, job_id: int, draft: LayingDraft) -> Laying:
        """File a laying, ended or still going on; Refused for a room the job has not."""
        row_id = self._file.file_away(
            LayingRow.insert(
                rev=1,
                job_id=job_id,
                room_id=self._rooms.number_of(job_id, draft.room),
                begun_at=draft.begun_at,
                ended_at=draft.ended_at,
                area_mm2=draft.area_mm2,
                tubs=draft.tubs,
            )
        )
        return filed(Laying, draft, id=row_id, rev=1)

    def end_laying(self, laying_id: int, draft: LayingDraft, rev: int) -> Laying:
        """Fill in how an open laying ended; ChangedMeanwhile if it has by now. Room and beginning stay."""
        query = LayingRow.update(rev=rev + 1, ended_at=draft.ended_at, area_mm2=draft.area_mm2, tubs=draft.tubs).where(
            LayingRow.id == laying_id,
            LayingRow.rev == rev,
            LayingRow.ended_at.is_null(),
            LayingRow.begun_at == draft.begun_at,
            stands(LayingRow, "laying"),
        )
        self._file.alter_as_shown(query, f"The laying in “{draft.room}”")
        return filed(Laying, draft, id=laying_id, rev=rev + 1)

    def add_handover(self, job_id: int, draft: HandoverDraft) -> Handover:
        """File the signature; Refused if the job has one."""
        query = HandoverRow.select(HandoverRow.id)
        signed = self._file.number(query.where(HandoverRow.job_id == job_id, stands(HandoverRow, "handover")))
        if signed is not None:
            raise Refused("The job is signed for already.")
        row_id = self._file.file_away(HandoverRow.insert(job_id=job_id, signed_at=draft.signed_at, signed_by=draft.by))
        return filed(Handover, draft, id=row_id)

    def add_snag(self, job_id: int, draft: SnagDraft) -> Snag:
        """File a snag; Refused for a room the job has not."""
        room_id = self._rooms.number_of(job_id, draft.room) if draft.room else None
        row_id = self._file.file_away(
            SnagRow.insert(
                rev=1, job_id=job_id, room_id=room_id, at=draft.at, what=draft.what, mended_at=draft.mended_at
            )
        )
        return filed(Snag, draft, id=row_id, rev=1)

    def mend_snag(self, snag_id: int, mended_at: datetime | None, rev: int) -> Snag:
        """Note when a snag was put right; ChangedMeanwhile if somebody has touched it since it was shown."""
        query = SnagRow.update(rev=rev + 1, mended_at=mended_at).where(
            SnagRow.id == snag_id, SnagRow.rev == rev, stands(SnagRow, "snag")
        )
        self._file.alter_as_shown(query, "The snag")
        return snags(self._file, SnagRow.id == snag_id)[0][1]

    def add_note(self, job_id: int, draft: NoteDraft) -> Note:
        row_id = self._file.file_away(NoteRow.insert(job_id=job_id, at=draft.at, text=draft.text))
        return filed(Note, draft, id=row_id)

    def add_plan(self, job_id: int, draft: PlanDraft) -> Plan:
        """File a lay plan; Refused for a room the job has not or a board not on file."""
        room_id, board_id = self._rooms.number_of(job_id, draft.room), self._products.number_of(draft.board)
        row_id = self._file.file_away(insert_of(job_id, room_id, board_id, draft))
        return filed(Plan, draft, id=row_id)

    def whole_plan(self, plan_id: int) -> Plan | None:
        """Return a lay plan with every piece, or None if there is none of this number."""
        found = plans(self._file, LayPlanRow.id == plan_id)
        return found[0][1] if found else None

    def withdrawn_readings(self, job_id: int) -> tuple[WithdrawnReading, ...]:
        """Return the readings of a job that were taken back, in the order of filing."""
        gone = (ReadingRow.job_id == job_id) & ~stands(ReadingRow, "reading")
        taken = TakenBackRow.select(TakenBackRow.row_id, TakenBackRow.at, TakenBackRow.who, TakenBackRow.why)
        of_readings = taken.where(
            TakenBackRow.kind == "reading",
            TakenBackRow.row_id.in_(ReadingRow.select(ReadingRow.id).where(ReadingRow.job_id == job_id)),
        )

        def said(*, row_id: int, **columns: object) -> tuple[int, dict[str, object]]:
            return row_id, columns

        why = dict(self._file.rows(of_readings, said))
        return tuple(
            build(WithdrawnReading, why[reading.id], reading=reading) for _, reading in readings(self._file, gone)
        )

    def take_back(self, kind: str, row_id: int, *, at: datetime, who: str, why: str) -> None:
        """Say that a row no longer counts; it stays on file, and facts no longer show it.

        Args:
            kind: order, delivery, move, opening, reading, smoothing, laying, count, handover, snag, note, plan,
                morning list, voiding, stock-take, own line, confirmation or credit.
            row_id: the ``id`` of the filed noun.
            at: when it is taken back.
            who: by whom.
            why: for what reason.

        Raises:
            Refused: there is no such row, or it has been taken back already.
        """
        row = _ROWS[kind]
        query = row.select(row.id).where(row.id == row_id, stands(row, kind))
        if kind in _IN_THE_LEDGER:
            query = query.where(MovementRow.cause == kind)
        if self._file.number(query) is None:
            raise Refused("This is not on file, or has been taken back already.")
        self._file.file_away(TakenBackRow.insert(kind=kind, row_id=row_id, at=at, who=who, why=why))
