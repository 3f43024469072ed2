"""What each command does: opens the desk as asked, answers in words or JSON, and turns a no into its exit status."""

import argparse
import json
import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path

from store.desk.cards import Finding
from store.desk.clock import wall_clock
from store.desk.copies import dated_copy_path, import_into, put_copy_back
from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from store.errors import Refused, StoreDamaged, StoreError
from store.papers.on_disk import read_stream, write_whole
from tui.command.answers import day_answer, whole_job_answer
from tui.command.buying_answer import buying_answer
from tui.command.diary import week_answer, week_text
from tui.command.lasting_answer import lasting_answer
from tui.command.order_answer import order_answer
from tui.command.order_text import order_text
from tui.command.plain import Beside, check_text, day_text, job_text
from tui.command.stairs_answer import stairs_answer
from tui.command.taught import hints_answer, taught_answer, taught_text
from tui.typed.wall_clock import WallClock
from tui.words.wording import clean, counted

USED_WRONGLY = 2
Answer = Callable[[argparse.Namespace], int]


class UsedWronglyError(Exception):
    """What was typed makes no command; ``str(error)`` is the sentence shown."""


def answering(answer: Answer) -> Answer:
    """Let a command's no become one sentence on standard error and its exit status."""

    def told(asked: argparse.Namespace) -> int:
        try:
            return answer(asked)
        except StoreError as error:
            sys.stderr.write(f"{clean(str(error))}\n")
            return error.exit_status
        except UsedWronglyError as error:
            sys.stderr.write(f"layday: {clean(str(error))}\n")
            return USED_WRONGLY

    return told


def records_path(asked: argparse.Namespace) -> Path:
    """Return where the records lie: as typed, else as LAYDAY_FILE says, else where the platform keeps such things."""
    typed = asked.file or os.environ.get("LAYDAY_FILE")
    if typed:
        try:
            return Path(typed).expanduser()
        except RuntimeError:
            raise UsedWronglyError(f"“{typed}” names a home folder that is not known; write the whole path.") from None
    from platformdirs import user_data_path  # noqa: PLC0415 - only needed where no file is named

    return user_data_path("layday", appauthor=False) / "records.layday"


@contextmanager
def desk_for(asked: argparse.Namespace) -> Iterator[Desk]:
    """Open the desk on the records, or on a throw-away copy of the made-up firm, at the moment asked for."""
    if asked.demo:
        if asked.file:
            raise UsedWronglyError("--demo and --file exclude each other; the made-up firm lives in its own copy.")
        with tempfile.TemporaryDirectory(prefix="layday-demo-") as folder:
            path = Path(folder) / "demo.layday"
            furnish(path, wall_clock())
            with open_desk(path, who=asked.who or "", throw_away=True) as desk:
                _look_at(desk, asked)
                yield desk
        return
    with open_desk(records_path(asked), who=asked.who or "") as desk:
        _look_at(desk, asked)
        yield desk


def _look_at(desk: Desk, asked: argparse.Namespace) -> None:
    if asked.at is None:
        return
    try:
        moment = datetime.fromisoformat(asked.at)
    except ValueError:
        raise UsedWronglyError(f"--at takes an instant like 2026-11-25T07:30+01:00, not “{asked.at}”.") from None
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=desk.zone())
    if not 1901 <= moment.year <= 2198:
        raise UsedWronglyError("--at takes an instant between the years 1901 and 2198.")
    desk.look_at(moment.astimezone(UTC))


def _no_looking_back(asked: argparse.Namespace) -> None:
    if asked.at is not None:
        raise Refused("Nothing can be changed while looking at another moment; leave --at out.")


def _print_json(answer: object) -> None:
    # Escapes keep every character of the data from steering the terminal it is printed on.
    sys.stdout.write(json.dumps(answer, ensure_ascii=True, indent=1) + "\n")


def today(asked: argparse.Namespace) -> int:
    """Print every open job."""
    with desk_for(asked) as desk:
        firm, now, cards = desk.firm.card(), desk.now(), desk.jobs.today()
        if asked.json:
            _print_json(day_answer(cards, firm, now))
        else:
            sys.stdout.write(day_text(cards, firm, now))
    return 0


def job(asked: argparse.Namespace) -> int:
    """Print one job whole."""
    with desk_for(asked) as desk:
        firm, now, card = desk.firm.card(), desk.now(), desk.jobs.card(asked.ref)
        beside = Beside(
            times=desk.times.of(card.facts),
            buying=desk.buying.of(card.facts),
            lasting=desk.laying.lasting(card.facts),
            hints=desk.taught.hints_for_order(card),
        )
        orders, cost = desk.orders.standings(card.facts), desk.orders.cost(card.facts)
        if asked.json:
            bought = buying_answer(beside.buying, card.facts, firm) | order_answer(card, orders, cost, firm)
            more = stairs_answer(card.facts.flights) | lasting_answer(beside.lasting) | hints_answer(beside.hints)
            _print_json(whole_job_answer(card, beside.times, firm, now) | bought | more)
        else:
            clock = WallClock(now=now, zone=firm.zone)
            sys.stdout.write(job_text(card, beside, firm, now) + order_text(card, orders, cost, firm, clock))
    return 0


def taught(asked: argparse.Namespace) -> int:
    """Print what closed jobs taught."""
    with desk_for(asked) as desk:
        firm, now, report = desk.firm.card(), desk.now(), desk.taught.report()
        if asked.json:
            _print_json(taught_answer(report, firm, now))
        else:
            sys.stdout.write(taught_text(report, firm, now))
    return 0


def export(asked: argparse.Namespace) -> int:
    """Write job folders."""
    with desk_for(asked) as desk:
        raw = desk.papers.export(asked.refs)
    return _write_out(asked, raw)


def _write_out(asked: argparse.Namespace, raw: bytes) -> int:
    """Write to the file that was named, or to standard output."""
    if asked.output is None or asked.output == "-":
        sys.stdout.flush()
        sys.stdout.buffer.write(raw)
        return 0
    # The desk is closed by now: the file named may be the records themselves, and is looked at before it is written.
    target = Path(asked.output)
    done = "Replaced" if target.is_file() else "Written to"
    write_whole(target, raw)
    sys.stdout.write(f"{done} {clean(str(target))}, {len(raw)} bytes.\n" if not asked.json else "")
    if asked.json:
        _print_json({"file": str(target), "bytes": len(raw)})
    return 0


def diary(asked: argparse.Namespace) -> int:
    """Print a week of the diary."""
    with desk_for(asked) as desk:
        try:
            day = date.fromisoformat(asked.week) if asked.week else desk.today()
        except ValueError:
            raise UsedWronglyError(f"--week takes a day like 2026-11-30, not “{asked.week}”.") from None
        if not 1901 <= day.year <= 2198:
            raise UsedWronglyError("--week takes a day between the years 1901 and 2198.")
        card, now = desk.diary.week(day, person=asked.person or ""), desk.now()
        if asked.json:
            _print_json(week_answer(card, now))
        else:
            sys.stdout.write(week_text(card, now))
    return 0


def calendar(asked: argparse.Namespace) -> int:
    """Write bookings as a calendar file."""
    with desk_for(asked) as desk:
        raw = desk.diary.calendar(person=asked.person or "", ref=asked.job or "")
    return _write_out(asked, raw)


def take_in(asked: argparse.Namespace) -> int:
    """File job folders."""
    _no_looking_back(asked)
    source = read_stream(sys.stdin.buffer, "What came in") if asked.source == "-" else Path(asked.source)
    if asked.demo:
        with desk_for(asked) as desk:
            path = desk.path
            taken = import_into(path, source, clock=wall_clock, who=asked.who or "")
    else:
        path = records_path(asked)
        taken = import_into(path, source, clock=wall_clock, who=asked.who or "")
    if asked.json:
        _print_json({"jobs": list(taken.refs), "products": taken.products, "people": taken.people})
    else:
        new = (counted(taken.products, "new product"), counted(taken.people, "new person", "new people"))
        sys.stdout.write(f"Taken in: {counted(len(taken.refs), 'job')}, {', '.join(new)}.\n")
    return 0


def backup(asked: argparse.Namespace) -> int:
    """Make a verified copy."""
    _no_looking_back(asked)
    with desk_for(asked) as desk:
        target = Path(asked.output) if asked.output else dated_copy_path(desk.path, desk.now())
        if asked.demo and not asked.output:
            raise UsedWronglyError("the made-up firm is thrown away on leaving; name the copy with -o FILE.")
        saved = desk.papers.save_copy(target)
    if asked.json:
        _print_json({"file": str(saved.path), "bytes": saved.size_bytes, "sha256": saved.sha256})
    else:
        sys.stdout.write(
            f"Copied and verified: {clean(str(saved.path))}, {saved.size_bytes} bytes,\nSHA-256 {saved.sha256}\n"
        )
    return 0


def restore(asked: argparse.Namespace) -> int:
    """Put a copy back."""
    _no_looking_back(asked)
    if asked.demo:
        raise UsedWronglyError("the made-up firm is thrown away on leaving; name the records with --file.")
    done = put_copy_back(Path(asked.source), records_path(asked), now=wall_clock())
    if asked.json:
        _print_json({"file": str(done.path), "set_aside": str(done.aside) if done.aside else None})
    else:
        aside = f" What lay there is now {clean(str(done.aside))}." if done.aside else ""
        sys.stdout.write(f"Put back to {clean(str(done.path))}.{aside}\n")
    return 0


def check(asked: argparse.Namespace) -> int:
    """Say whether everything is in order."""
    with desk_for(asked) as desk:
        findings = desk.papers.look_over()
    if asked.json:
        _print_json(
            {
                "in_order": all(one.good for one in findings),
                "findings": [{"what": one.what, "good": one.good, "say": one.say} for one in findings],
            }
        )
    else:
        sys.stdout.write(check_text(findings))
    return _status_of(findings)


def _status_of(findings: tuple[Finding, ...]) -> int:
    """Damaged records are one thing; records that others can read, or counts that do not add up, another."""
    wrong = {one.what for one in findings if not one.good}
    if not wrong:
        return 0
    if wrong <= {"rights", "ledger"}:
        sys.stderr.write("Not everything is in order.\n")
        return StoreError.exit_status
    return StoreDamaged.exit_status


def sums(asked: argparse.Namespace) -> int:
    """Work out one sum of the trade."""
    from tui.command.sums import answer_sum  # noqa: PLC0415 - the sums are not needed by the other commands

    return answer_sum(asked.rest, as_json=asked.json)


def screens(asked: argparse.Namespace) -> int:
    """Open the screens."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise UsedWronglyError("the screens need a terminal; try “layday today”, or “layday --help” for more.")
    from tui.opening import run_screens  # noqa: PLC0415 - Textual is only needed here

    return run_screens(asked)


ANSWERS: dict[str, Answer] = {
    "today": answering(today),
    "job": answering(job),
    "taught": answering(taught),
    "export": answering(export),
    "diary": answering(diary),
    "calendar": answering(calendar),
    "import": answering(take_in),
    "backup": answering(backup),
    "restore": answering(restore),
    "check": answering(check),
    "sum": answering(sums),
    "screens": answering(screens),
}
