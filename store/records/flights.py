"""The drawer of flights of stairs."""

from collections.abc import Collection
from dataclasses import fields

from peewee import JOIN

from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.products import ProductDrawer
from store.records.tables import FlightRow, ProductRow
from store.records.within import one_of
from store.trade.flights import Flight, FlightDraft, Turn

_OWN = tuple(field.name for field in fields(FlightDraft) if field.name != "board")


class FlightDrawer:
    """Holds the flights of jobs; a flight names the board it is clad with by its code."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._products = ProductDrawer(file)

    def add(self, job_id: int, draft: FlightDraft) -> Flight:
        """File a flight; Refused if the job has one of that name, or for a board not on file."""
        row_id = self._file.file_away(FlightRow.insert(job_id=job_id, rev=1, **self._columns(draft)))
        return filed(Flight, draft, id=row_id, rev=1)

    def change(self, flight_id: int, draft: FlightDraft, rev: int) -> Flight:
        """Correct the flight shown at ``rev``; ChangedMeanwhile if it says something else by now."""
        query = FlightRow.update(rev=rev + 1, **self._columns(draft))
        query = query.where(FlightRow.id == flight_id, FlightRow.rev == rev)
        self._file.alter_as_shown(query, f"“{draft.name}”")
        return filed(Flight, draft, id=flight_id, rev=rev + 1)

    def remove(self, flight_id: int, rev: int) -> None:
        """Take a flight out of its job."""
        query = FlightRow.delete().where(FlightRow.id == flight_id, FlightRow.rev == rev)
        self._file.alter_as_shown(query, "The flight of stairs")

    def of_jobs(self, job_ids: Collection[int] | None) -> tuple[tuple[int, Flight], ...]:
        """Return the flights of these jobs (None: all), with the job's number, in the order of filing."""
        own = (getattr(FlightRow, name) for name in _OWN)
        query = FlightRow.select(
            FlightRow.id, FlightRow.job_id, FlightRow.rev, *own, ProductRow.code.alias("board")
        ).join(ProductRow, JOIN.LEFT_OUTER, on=(FlightRow.board_id == ProductRow.id))
        if job_ids is not None:
            query = query.where(one_of(FlightRow.job_id, job_ids))
        return self._file.rows(query.order_by(FlightRow.id), _with_job)

    def _columns(self, draft: FlightDraft) -> dict[str, object]:
        own = {name: getattr(draft, name) for name in _OWN}
        board_id = None if draft.board is None else self._products.number_of(draft.board)
        return own | {"turn": draft.turn.value, "board_id": board_id}


def _with_job(*, job_id: int, turn: str, **columns: object) -> tuple[int, Flight]:
    return job_id, build(Flight, columns, turn=Turn(turn))
