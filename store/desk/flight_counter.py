"""The counter for flights of stairs: put on file with a job, changed, taken out."""

from store.desk.counter import Bench, refuse
from store.errors import Problem
from store.trade.flights import Flight, FlightDraft, problems_with_flight
from store.trade.products import Board


class FlightCounter:
    """Questions and deeds about the stairs of a job."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def problems(self, ref: str, draft: FlightDraft, *, flight: Flight | None = None) -> tuple[Problem, ...]:
        """Return what is wrong with a flight; ``flight`` is the one being changed, if any."""
        boards = {one.code for one in self._bench.cabinet.products.all() if isinstance(one, Board)}
        others = {one.name for one in self._bench.facts(ref).flights if flight is None or one.id != flight.id}
        return problems_with_flight(draft, boards, others)

    def add(self, ref: str, draft: FlightDraft) -> Flight:
        """File a flight of a job."""
        with self._bench.deed():
            refuse(self.problems(ref, draft))
            flight = self._bench.cabinet.flights.add(self._bench.job_id(ref), draft)
            self._bench.write_down("stairs added", ref=ref, subject=flight.name, after=flight)
        return flight

    def change(self, ref: str, flight: Flight, draft: FlightDraft) -> Flight:
        """Change a flight; ChangedMeanwhile if ``flight`` is not the latest."""
        with self._bench.deed():
            refuse(self.problems(ref, draft, flight=flight))
            changed = self._bench.cabinet.flights.change(flight.id, draft, flight.rev)
            self._bench.write_down("stairs changed", ref=ref, subject=flight.name, before=flight, after=changed)
        return changed

    def remove(self, ref: str, flight: Flight) -> None:
        """Take a flight out of a job."""
        with self._bench.deed():
            self._bench.cabinet.flights.remove(flight.id, flight.rev)
            self._bench.write_down("stairs removed", ref=ref, subject=flight.name, before=flight)
