"""The counter for what closed jobs taught: the report, and what they say to a floor that is still to be ordered."""

from collections.abc import Callable

from store.desk.cards import JobCard
from store.desk.counter import Bench, must_make_sense, shown
from store.trade.jobs import Room, RoomDraft
from store.trade.products import Board, Product, problems_with_product
from store.trade.taught.hints import Hint, hint_for
from store.trade.taught.lessons import taught_by
from store.trade.taught.report import Report, report_on
from store.trade.taught.suggest import Suggestion, suggestions

Hinter = Callable[[RoomDraft], Hint | None]


class TaughtCounter:
    """Questions about the lessons of closed jobs; of another moment, those of the jobs closed by then.

    Lessons are what the file says today about a job: what was put right since is known at every moment.
    """

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def report(self) -> Report:
        """Return what the jobs closed up to now taught."""
        floors, glues = self._bench.cabinet.lessons.past(self._bench.now())
        products: set[Product] = {*(one.board for one in floors), *(one.glue for one in glues)}
        for product in products:
            must_make_sense(f"Product “{shown(product.code)}”", problems_with_product(product))
        return report_on(floors, glues)

    def hinter(self) -> Hinter:
        """Return what tells a room what the latest floors like it say; however often it is asked, the file is not.

        It answers None where no such floor was closed yet, or the room's board is not on file.
        """
        floors, _ = self._bench.cabinet.lessons.past(self._bench.now())
        boards = {one.code: one for one in self._bench.cabinet.products.all() if isinstance(one, Board)}

        def hint(room: RoomDraft) -> Hint | None:
            board = boards.get(room.board)
            return None if board is None else hint_for(room, board, floors)

        return hint

    def suggestions(self, card: JobCard) -> tuple[Suggestion, ...]:
        """Return with which cut loss a job's boards would be ordered by closed floors, where it changes the packs."""
        return suggestions(card.facts, self.hinter())

    def take_up(self, ref: str, suggestion: Suggestion) -> tuple[Room, ...]:
        """File the cut loss that closed floors suggest for rooms of a job, all of them or none.

        Raises:
            ChangedMeanwhile: a room is another one by now than the suggestion was made for.
        """
        with self._bench.deed():
            changed = tuple(self._bench.cabinet.rooms.change(one.id, one, one.rev) for one in suggestion.rooms)
            names = ", ".join(one.name for one in changed)
            self._bench.write_down("cut loss by own floors", ref=ref, subject=names, after=changed)
            self._bench.settle(ref)
        return changed

    def hints_for_order(self, card: JobCard) -> tuple[Hint, ...]:
        """Return what the latest floors say to the rooms of a job whose boards are not all ordered; no floors twice."""
        short = {one.product for one in card.standing.packs if one.ordered < one.needed}
        rooms = [room for room in card.facts.rooms if room.board in short]
        if not rooms:
            return ()
        told: dict[tuple[str, ...], Hint] = {}
        for hint in map(self.hinter(), rooms):
            if hint is not None:
                told.setdefault(hint.line.refs, hint)
        return tuple(told.values())


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
