"""The counter for proposals: who could lay which floor when, and taking such a plan up into the diary."""

from collections.abc import Collection, Iterator
from dataclasses import replace
from datetime import timedelta

from store.desk.counter import Bench
from store.desk.diary_cards import Booked
from store.desk.diary_counter import DiaryCounter
from store.errors import Refused
from store.trade.bookings import Booking, BookingDraft, Part
from store.trade.facts import known_at
from store.trade.planning.floors import stretches_of
from store.trade.planning.nouns import FloorKey, Proposal
from store.trade.planning.propose import propose
from store.trade.planning.rates import laid_in
from store.trade.planning.situation import Planning, Situation, planning_of, visit_as_booked

_LEARNED_FROM = timedelta(days=365)
_PARTS = {None: Part.WHOLE, 0: Part.MORNING, 1: Part.AFTERNOON}


class ProposalCounter:
    """Asks for the facts of a plan, searches it, and books what is taken up of it."""

    def __init__(self, bench: Bench, diary: DiaryCounter) -> None:
        self._bench, self._diary = bench, diary

    def situation(self) -> Situation:
        """Return how things stand now for a plan."""
        firm, now, today = self._bench.firm(), self._bench.now(), self._bench.today()
        cabinet = self._bench.cabinet
        year = [known_at(one, now, today) for one in cabinet.facts.open_at(now - _LEARNED_FROM)]
        open_refs = {one.ref for one in cabinet.jobs.open_at(now)}
        return Situation(
            firm=firm,
            now=now,
            jobs=tuple(one for one in year if one.job.ref in open_refs and one.rooms and one.handover is None),
            people=cabinet.people.all(),
            bookings=tuple(one for one in cabinet.bookings.all() if not one.cancelled and one.last >= today),
            laid=tuple(one for facts in year for one in laid_in(firm, facts)),
        )

    def facts(self) -> Planning:
        """Return what a plan is made from, as things stand now.

        Raises:
            Refused: nobody is on file, or no floor is left to be laid.
        """
        return planning_of(self.situation())

    def search(self, planning: Planning) -> Iterator[Proposal]:
        """Yield ever better plans; fit for a thread, since nothing on file is touched."""
        return propose(planning.firm, planning.floors, planning.fitters, self._bench.now())

    def take_up(self, planning: Planning, proposal: Proposal, chosen: Collection[FloorKey]) -> Booked:
        """Book the chosen floors as proposed, in one deed that can be turned back whole.

        Raises:
            Refused: none of the chosen floors would be booked otherwise than now.
            ChangedMeanwhile: a booking is not any more what the plan was made from.
        """
        cancelled: list[Booking] = []
        changed: list[tuple[Booking, Booking]] = []
        fresh: list[tuple[str, BookingDraft]] = []
        for visit in proposal.visits:
            old = planning.booked.get(visit.floor, ())
            if visit.floor not in chosen or (old and visit_as_booked(planning.firm, visit.floor, old) == visit):
                continue
            new = [
                BookingDraft(
                    person=visit.fitter,
                    room=visit.floor.room,
                    first=one.first,
                    last=one.last,
                    part=_PARTS[one.half],
                )
                for one in stretches_of(planning.firm, visit)
            ]
            # A booking that is moved stays the same one, so that it moves in everybody's calendar too.
            changed += [(was, _as(was, draft)) for was, draft in zip(old, new, strict=False)]
            cancelled += old[len(new) :]
            fresh += [(visit.floor.job, draft) for draft in new[len(old) :]]
        if not (cancelled or changed or fresh):
            raise Refused("All that was chosen is booked like that already.")
        return self._diary.rebook("plan taken up", changed, cancelled, fresh)


def _as(was: Booking, draft: BookingDraft) -> Booking:
    return replace(was, person=draft.person, room=draft.room, first=draft.first, last=draft.last, part=draft.part)
