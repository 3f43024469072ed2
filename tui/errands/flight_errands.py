"""Errands about the stairs of a job: putting a flight on file, changing it, taking it out."""

from store.errors import Refused
from store.trade.flight_sum import flight_sum
from store.trade.flights import Flight, FlightDraft
from store.trade.products import Board
from store.trade.traditions import Tradition
from tui.dialogs.flight_form import FlightForm
from tui.errands.subject import Shown, Subject
from tui.words.stairs import say_steps
from tui.words.wording import clean

_CODES = {
    Tradition.USUAL: "ad-k-private",
    Tradition.UK: "ad-k-private",
    Tradition.GERMAN: "din-18065",
    Tradition.FRENCH: "din-18065",
    Tradition.NORTH_AMERICAN: "irc",
}
"""The building code that a new flight begins with, by the tradition the firm works to."""


class FlightErrands(Subject):
    """The stairs of a job."""

    async def add(self, ref: str) -> bool:
        """Measure a flight and put it on file."""
        facts = self.card(ref).facts
        code = facts.flights[-1].code if facts.flights else _CODES[self.firm.tradition]
        form = FlightForm(boards=self._boards(), check=lambda draft: self.desk.flights.problems(ref, draft), code=code)
        draft = await self.ask(form, lambda flight: self.desk.flights.add(ref, flight))
        return draft is not None and self.done(f"{_said(draft)} n says what they take; x takes them out.")

    async def change(self, ref: str, flight: Flight) -> bool:
        """Change a flight."""
        shown = Shown(flight)
        form = FlightForm(
            boards=self._boards(),
            check=lambda draft: self.desk.flights.problems(ref, draft, flight=shown.fact),
            draft=flight,
        )
        draft = await self.ask(
            form,
            lambda changed: self.desk.flights.change(ref, shown.fact, changed),
            if_changed=lambda: shown.see(self._flight(ref, flight.id)),
        )
        return draft is not None and self.done(_said(draft))

    async def remove(self, ref: str, flight: Flight) -> bool:
        """Take a flight out of a job."""
        detail = "What was ordered for it stays on file; the history keeps what it said."
        question = f"Take {clean(flight.name)} out of the job?"
        if not await self.sure(question, yes="Take out", no="Keep it", detail=detail):
            return False
        self.desk.flights.remove(ref, flight)
        return self.done(f"{clean(flight.name)} is out of job {clean(ref)}.")

    def _flight(self, ref: str, number: int) -> Flight:
        found = [one for one in self.card(ref).facts.flights if one.id == number]
        if not found:
            raise Refused("These stairs are not in the job any more.")
        return found[0]

    def _boards(self) -> list[Board]:
        return [one for one in self.desk.products.all() if isinstance(one, Board)]


def _said(draft: FlightDraft) -> str:
    found = flight_sum(draft.measured)
    broken = "" if found.ok else " ▲ They break a limit; the survey says which."
    return f"The stairs {clean(draft.name)} are on file: {say_steps(found)}.{broken}"
