"""The counter for papers: job folders in and out, verified copies, and the look whether all is in order."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from store.desk.cards import Finding, Saved
from store.desk.counter import Bench, must_make_sense, refuse, shown
from store.errors import Problem, Refused, StoreError
from store.papers.folder import Folder, JobFolder, folder_of
from store.papers.on_disk import write_whole
from store.papers.reading_in import read_folder
from store.papers.writing_out import write_folder
from store.records.backup import save_copy, sha256_of
from store.records.checking import findings
from store.records.trouble import saying_no
from store.trade.facts import JobFacts, known_at
from store.trade.firm import FirmDraft
from store.trade.ledger import balances
from store.trade.plans import in_short
from store.trade.products import Board, problems_with_product, same_product
from store.trade.standing import closed_at
from store.trade.stock_take import Difference, DifferenceDraft
from store.trade.taught.lessons import taught_by
from store.trade.taught.nouns import Taught


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenIn:
    """What an import brought: references of jobs, and how many products and people were new."""

    refs: tuple[str, ...]
    products: int
    people: int


class PaperCounter:
    """Questions and deeds about files that enter and leave the shop."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def export(self, refs: Sequence[str] = ()) -> bytes:
        """Return job folders as JSON: of the jobs named, or of all of them and of the free stock.

        Raises:
            Refused: a reference is not on file.
        """
        cabinet = self._bench.cabinet
        now, today = self._bench.now(), self._bench.today()
        stored = cabinet.facts.many(tuple(refs) or None)
        facts = tuple(known_at(one, now, today) for one in stored) if self._bench.looking_back else stored
        known = {one.job.ref for one in facts}
        for ref in refs:
            if ref not in known:
                raise Refused(f"There is no job “{shown(ref)}” on file.")
        products = tuple(sorted(cabinet.products.all(), key=lambda product: product.id))
        if refs:
            wanted = {code for one in facts for code in one.products}
            products = tuple(product for product in products if product.code in wanted)
        return write_folder(
            Folder(
                firm=self._bench.firm(),
                people=cabinet.people.all(),
                products=products,
                jobs=tuple(folder_of(one) for one in facts),
                stock_takes=() if refs else self._of_free_stock(),
            )
        )

    def _of_free_stock(self) -> tuple[Difference, ...]:
        """What stock-takes found or missed of free stock, up to the moment that is looked at."""
        now, back = self._bench.now(), self._bench.looking_back
        booked = (one for one in self._bench.cabinet.stock.booked() if not one.job_ref)
        return tuple(one.difference for one in booked if not back or one.difference.at <= now)

    def take_in(self, raw: bytes) -> TakenIn:
        """File everything that job folders hold, or nothing.

        Raises:
            Refused: the file is not a job folder, or says something else than the records do; one sentence names
                the place.
        """
        return self.file(read_folder(raw))

    def file(self, folder: Folder) -> TakenIn:
        """File a folder that was read already, or nothing of it."""
        with self._bench.deed():
            self._file_firm(folder)
            people = self._file_people(folder)
            products = self._file_products(folder)
            self._marks_are_new(folder)
            for index, job in enumerate(folder.jobs):
                if self._bench.cabinet.jobs.by_ref(job.job.ref) is not None:
                    raise Refused(f"jobs[{index}].ref: there is a job “{shown(job.job.ref)}” on file already.")
                self._file_job(job)
            self._file_stock_takes(folder)
        return TakenIn(refs=tuple(job.job.ref for job in folder.jobs), products=products, people=people)

    def _file_firm(self, folder: Folder) -> None:
        mine = self._bench.cabinet.firm.get()
        if mine is None:
            firm = self._bench.cabinet.firm.put(folder.firm)
            self._bench.write_down("firm set up", subject=firm.name, after=firm)
            return
        known = {one.name for one in mine.suppliers}
        strange = tuple(one for one in folder.firm.suppliers if one.name not in known)
        if strange:
            mine = self._bench.cabinet.firm.change(replace(mine, suppliers=mine.suppliers + strange), mine.rev)
            self._bench.write_down("suppliers added", subject=", ".join(one.name for one in strange), after=mine)
        for field in FirmDraft.__dataclass_fields__:
            if field == "suppliers":
                continue  # those on file keep their terms; what a folder says of others is added
            ours, theirs = getattr(mine, field), getattr(folder.firm, field)
            same = set(ours) == set(theirs) if field in {"working_days", "holidays"} else ours == theirs
            if not same:
                raise Refused(
                    f"firm.{field}: these folders are another firm's, or its settings differ from the file's."
                )

    def _file_people(self, folder: Folder) -> int:
        known = {person.name for person in self._bench.cabinet.people.all()}
        new = [person for person in folder.people if person.name not in known]
        for person in new:
            self._bench.cabinet.people.add(person)
        return len(new)

    def _file_products(self, folder: Folder) -> int:
        new = 0
        for index, draft in enumerate(folder.products):
            mine = self._bench.cabinet.products.by_code(draft.code)
            if mine is None:
                product = self._bench.cabinet.products.add(draft)
                self._bench.write_down("product added", subject=product.code, after=product)
                new += 1
            elif not same_product(mine, draft):
                raise Refused(
                    f"products[{index}].code: “{shown(draft.code)}” is on file and says something else there."
                )
        return new

    def _marks_are_new(self, folder: Folder) -> None:
        known = {one.mark for one in self._bench.cabinet.bookings.all()}
        for place, job in enumerate(folder.jobs):
            for number, booking in enumerate(job.bookings):
                if booking.mark and booking.mark in known:
                    raise Refused(
                        f"jobs[{place}].bookings[{number}].mark: there is a booking of this mark on file already."
                    )
                known.add(booking.mark)

    def _file_job(self, folder: JobFolder) -> None:
        job = self._bench.cabinet.jobs.add(folder.job)
        for room in folder.rooms:
            self._bench.cabinet.rooms.add(job.id, room)
        for flight in folder.flights:
            self._bench.cabinet.flights.add(job.id, flight)
        self._file_packs(job.id, folder)
        self._file_site(job.id, folder)
        for booking in folder.bookings:
            self._bench.cabinet.bookings.add(job.id, job.ref, booking)
        shortened = replace(folder, plans=tuple(in_short(plan) for plan in folder.plans))
        self._bench.write_down("job taken in from a folder", ref=job.ref, subject=job.title, after=shortened)
        self._bench.settle(job.ref)

    def _file_stock_takes(self, folder: Folder) -> None:
        stock = self._bench.cabinet.stock
        known = {_as_told(one.difference) for one in stock.booked() if not one.job_ref}
        for index, draft in enumerate(folder.stock_takes):
            if _as_told(draft) in known:
                raise Refused(f"stock_takes[{index}]: this stock-take of {shown(draft.product)} is on file already.")
            stock.book(None, draft)
        if folder.stock_takes:
            subject = ", ".join(dict.fromkeys(one.product for one in folder.stock_takes))
            self._bench.write_down("stock-takes taken in from a folder", subject=subject, after=folder.stock_takes)

    def _file_packs(self, job_id: int, folder: JobFolder) -> None:
        events = self._bench.cabinet.events
        for order in folder.orders:
            events.add_order(job_id, order)
        for delivery in folder.deliveries:
            events.add_delivery(job_id, delivery)
        for move in folder.moves:
            events.add_move(job_id, move)
        for opening in folder.openings:
            events.add_opening(job_id, opening)
        for count in folder.counts:
            events.add_count(job_id, count)
        for credit in folder.credits:
            events.add_credit(job_id, credit)
        for difference in folder.stock_takes:
            self._bench.cabinet.stock.book(job_id, difference)

    def _file_site(self, job_id: int, folder: JobFolder) -> None:
        events = self._bench.cabinet.events
        for reading in folder.readings:
            events.add_reading(job_id, reading)
        for smoothing in folder.smoothings:
            events.add_smoothing(job_id, smoothing)
        for laying in folder.layings:
            events.add_laying(job_id, laying)
        for snag in folder.snags:
            filed = events.add_snag(job_id, snag)
            if snag.mended_at is not None and filed.mended_at is None:
                events.mend_snag(filed.id, snag.mended_at, filed.rev)
        for note in folder.notes:
            events.add_note(job_id, note)
        for plan in folder.plans:
            events.add_plan(job_id, plan)
        for morning in folder.mornings:
            events.add_morning(job_id, morning)
        for voiding in folder.voidings:
            events.add_voiding(job_id, voiding)
        for own_line in folder.own_lines:
            events.add_own_line(job_id, own_line)
        if folder.handover is not None:
            events.add_handover(job_id, folder.handover)

    def save_copy(self, target: Path) -> Saved:
        """Make a verified copy of the records; Refused if there is a file of that name."""
        size = save_copy(self._bench.cabinet, target)
        return Saved(path=target, at=self._bench.now(), size_bytes=size, sha256=sha256_of(target))

    def target_problems(self, target: Path) -> tuple[Problem, ...]:
        """Return why no new file can be written to ``target``: its folder is missing, or its name is taken."""
        try:
            with saying_no(target):
                if not target.parent.is_dir():
                    return (Problem(field="target", say=f"There is no folder {target.parent}; write another one."),)
                if os.path.lexists(target):
                    return (Problem(field="target", say=f"There is a file {target} already; write another name."),)
        except StoreError as error:
            return (Problem(field="target", say=str(error)),)
        return ()

    def save_folders(self, target: Path) -> int:
        """Write the job folders of all jobs to a new file; return its size in bytes.

        Raises:
            DraftRefused: the file is there already, or its folder is not.
            DiskFull: there was no room; nothing is left behind.
        """
        refuse(self.target_problems(target))
        raw = self.export()
        write_whole(target, raw)
        return len(raw)

    def look_over(self) -> tuple[Finding, ...]:
        """Return whether everything is in order: the file, its history, the ledger, and what was worked out."""
        found = [Finding(what=what, good=good, say=say) for what, good, say in findings(self._bench.cabinet)]
        found.append(self._ledger_holds())
        jobs = self._bench.cabinet.facts.many(None, pieces=False)
        found.append(self._closings_agree(jobs))
        found.append(self._lessons_agree(jobs))
        return tuple(found)

    def _ledger_holds(self) -> Finding:
        products = self._bench.cabinet.products.all()
        for one in products:
            must_make_sense(f"Product “{shown(one.code)}”", problems_with_product(one))
        per_pack = {one.code: one.boards_per_pack for one in products if isinstance(one, Board)}
        heaps = balances(self._bench.cabinet.stock.movements(self._bench.now()), per_pack)
        short = [heap for heap, boards in heaps.items() if boards < 0]
        if not short:
            return Finding(what="ledger", good=True, say="No place holds less than nothing.")
        first = short[0]
        where = f"{first.product}, batch {first.batch}" if first.batch else first.product
        job = f" of job {first.job_ref}" if first.job_ref else ""
        return Finding(what="ledger", good=False, say=f"More {where}{job} was taken away than ever came.")

    def _closings_agree(self, jobs: tuple[JobFacts, ...]) -> Finding:
        marks = {line.ref: line.closed_at for line in self._bench.cabinet.jobs.lines()}
        wrong = [one.job.ref for one in jobs if _closes_otherwise(one, marks)]
        if not wrong:
            return Finding(what="closings", good=True, say="Every job is closed or open as its facts say.")
        say = f"Job {wrong[0]} is noted as closed at another moment than its facts say."
        return Finding(what="closings", good=False, say=say)

    def _lessons_agree(self, jobs: tuple[JobFacts, ...]) -> Finding:
        kept = self._bench.cabinet.lessons.by_job()
        wrong = [one.job.ref for one in jobs if kept.get(one.job.id, Taught()) != taught_by(one)]
        if not wrong:
            return Finding(what="lessons", good=True, say="What closed jobs taught is what their facts say.")
        say = f"Something else is kept of what job {wrong[0]} taught than its facts say."
        return Finding(what="lessons", good=False, say=say)


def _as_told(one: DifferenceDraft) -> tuple[object, ...]:
    """A difference without its number on file, by which it is known again."""
    return tuple(getattr(one, field) for field in DifferenceDraft.__dataclass_fields__)


def _closes_otherwise(facts: JobFacts, marks: Mapping[str, datetime | None]) -> bool:
    return marks.get(facts.job.ref) != closed_at(facts)
