"""The counter for what closed jobs taught: the report, and what they say to a floor that is still to be ordered."""

from store.desk.counter import Bench
from store.trade.facts import JobFacts
from store.trade.jobs import RoomDraft
from store.trade.products import Board
from store.trade.taught.hints import Hint, hint_for
from store.trade.taught.lessons import taught_by
from store.trade.taught.report import Report, report_on


class TaughtCounter:
    """Questions about the lessons of closed jobs; of another moment, those of the jobs closed by then.

    Lessons are what the file says today about a job: what was put right since is known at every moment.
    """

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def report(self) -> Report:
        """Return what the jobs closed up to now taught."""
        return report_on(*self._bench.cabinet.lessons.past(self._bench.now()))

    def hint(self, room: RoomDraft) -> Hint | None:
        """Return what the latest floors like a room say to it; None where there is none, or its board is unknown."""
        return next(iter(self._hints((room,))), (room, None))[1]

    def hints(self, facts: JobFacts) -> tuple[tuple[str, Hint], ...]:
        """Return what the latest floors say to the rooms of a job, each hint once with the first room it is for."""
        told: dict[Hint, str] = {}
        for room, hint in self._hints(facts.rooms):
            if hint is not None:
                told.setdefault(hint, room.name)
        return tuple((room, hint) for hint, room in told.items())

    def _hints(self, rooms: tuple[RoomDraft, ...]) -> tuple[tuple[RoomDraft, Hint | None], ...]:
        floors, _ = self._bench.cabinet.lessons.past(self._bench.now())
        boards = {one.code: one for one in self._bench.cabinet.products.all()}
        told = ((room, boards.get(room.board)) for room in rooms)
        return tuple((room, hint_for(room, board, floors)) for room, board in told if isinstance(board, Board))


def fill_up(bench: Bench) -> None:
    """Put the lessons of jobs that were closed before lessons were kept; where none is wanting, it only looks."""
    refs = bench.cabinet.lessons.refs_without()
    if not refs:
        return
    told = {one.job.id: taught_by(one) for one in bench.cabinet.facts.many(refs, pieces=False)}
    # A job whose products make no sense teaches nothing, and is no reason to write.
    if any(one.floors for one in told.values()):
        with bench.cabinet.deed():
            for job_id, taught in told.items():
                bench.cabinet.lessons.put(job_id, taught)
