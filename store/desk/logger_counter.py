"""The counter for data loggers: a file is looked through first, and what is new in it filed in one deed."""

from dataclasses import dataclass
from datetime import datetime

from store.desk.counter import Bench, shown
from store.errors import Refused
from store.papers.logger import LineFault, read_logger
from store.trade import checks
from store.trade.evidence import Evidence
from store.trade.readings import Air, ReadingDraft

INSTRUMENT = "data logger"


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedThrough:
    """What a logger's file would add to a room: readings not on file yet, how many are, and what was not read.

    ``taken_back`` counts the lines that were on file once and were put right or taken back; they are not filed again.
    """

    new: tuple[ReadingDraft, ...]
    on_file: int
    taken_back: int
    faults: tuple[LineFault, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenFromLogger:
    """What one file added; this is what the history keeps of it."""

    room: str
    readings: int
    first: datetime
    last: datetime


class LoggerCounter:
    """Air readings that a data logger wrote."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def look_through(self, ref: str, room: str, raw: bytes) -> LookedThrough:
        """Return what a file would add to a room.

        Naive times are told on the firm's clock. A reading with the same moment and the same air as one on file in
        that room is on file; one that was put right or taken back there is left out; one that could not be filed by
        hand is a fault of its line.

        Raises:
            Refused: it is no logger's file, or there is no such job or room.
        """
        facts, now = self._bench.facts(ref), self._bench.now()
        if all(one.name != room for one in facts.rooms):
            raise Refused(f"The job has no room “{shown(room)}”.")
        file = read_logger(raw, self._bench.firm().zone)
        known = {(one.at, one.measure) for one in facts.readings if one.room == room}
        withdrawn = self._bench.cabinet.events.withdrawn_readings(facts.job.id)
        gone = {(one.at, one.measure) for one in (gone.reading for gone in withdrawn) if one.room == room}
        new: list[ReadingDraft] = []
        faults, on_file, taken_back = list(file.faults), 0, 0
        for line in file.lines:
            air = Air(temp_c=line.temp_c, rh_percent=line.rh_percent)
            draft = ReadingDraft(room=room, at=line.at, measure=air, evidence=Evidence(instrument=INSTRUMENT))
            wrong = checks.problems_with_reading(draft, facts, now)
            if wrong:
                faults.append(LineFault(line=line.line, say=wrong[0].say))
            elif (line.at, air) in known:
                on_file += 1
            elif (line.at, air) in gone:
                taken_back += 1
            else:
                known.add((line.at, air))
                new.append(draft)
        in_order = tuple(sorted(faults, key=lambda fault: fault.line))
        return LookedThrough(new=tuple(new), on_file=on_file, taken_back=taken_back, faults=in_order)

    def take_in(self, ref: str, room: str, raw: bytes) -> TakenFromLogger:
        """File what is new in a logger's file, in one deed and one line of history.

        Raises:
            Refused: nothing in it is new, it is no logger's file, or there is no such job or room.
        """
        with self._bench.deed():
            found = self.look_through(ref, room, raw)
            if not found.new:
                raise Refused("Nothing in this file is new and can be read; nothing was filed.")
            job_id = self._bench.job_id(ref)
            for draft in found.new:
                self._bench.cabinet.events.add_reading(job_id, draft)
            moments = [draft.at for draft in found.new]
            taken = TakenFromLogger(room=room, readings=len(moments), first=min(moments), last=max(moments))
            self._bench.write_down("logger file taken in", ref=ref, subject=room, after=taken)
        return taken
