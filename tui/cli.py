"""The command line: reads what was typed, opens the desk, answers, and says how it went by its exit status.

The only composition root. Whatever costs time to import is imported by the command that needs it.
"""

import argparse
import contextlib
import errno
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from tui.command.parser import CommandParser
from tui.version import VERSION

EXIT_STATUSES = """exit status:
  0 done    1 refused, with a sentence on standard error    2 used wrongly
  10 no such records    11 another window is writing    12 made by a newer release
  13 damaged    14 no room left on the disk"""

NO_ROOM = 14
Answer = Callable[[argparse.Namespace], int]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    _ready_the_streams()
    try:
        status = _run(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # A pipe that is closed early is no fault of ours; neither is a reader that asks to stop.
        _say_no_more()
        return 0
    except OSError as error:
        _say_no_more()
        sys.stderr.write(f"The answer cannot be written: {(error.strerror or 'unknown trouble').lower()}.\n")
        return NO_ROOM if error.errno in {errno.ENOSPC, errno.EDQUOT, errno.EFBIG} else 1
    except KeyboardInterrupt:
        return 130
    return status


def _run(arguments: Sequence[str] | None) -> int:
    try:
        asked = parser().parse_args(arguments)
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else 0
    _fill_in(asked)
    if asked.version:
        sys.stdout.write(f"layday {VERSION}\n")
        return 0
    return _answer_for(asked)(asked)


def _ready_the_streams() -> None:
    """Make do with a closed stream, and with one whose alphabet lacks a letter of the answer."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, Path(os.devnull).open(mode, encoding="utf-8"))  # noqa: SIM115 - open to the end
        elif name != "stdin" and isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _say_no_more() -> None:
    """Let what is left of the answer go nowhere, so that leaving does not stumble over it again."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def parser() -> argparse.ArgumentParser:
    """Return the parser; the common options stand before or after the command's name."""
    common = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    common.add_argument("--file", metavar="PATH", help="use these records instead of the firm's own")
    common.add_argument("--demo", action="store_true", help="use a throw-away copy of the made-up firm")
    common.add_argument("--at", metavar="INSTANT", help="answer as if it were then, e.g. 2026-11-25T07:30+01:00")
    common.add_argument("--json", action="store_true", help="answer in JSON")
    common.add_argument("--who", metavar="NAME", help="who is named in the history of what is done")
    top: argparse.ArgumentParser = CommandParser(
        prog="layday",
        parents=[common],
        description="Tracks wood-floor jobs from survey to handover. Without a command it opens the screens.",
        epilog=EXIT_STATUSES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="store_true", help="say which release this is")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", title="commands")

    def command(name: str, about: str, *, helps: bool = True) -> argparse.ArgumentParser:
        return commands.add_parser(
            name, parents=[common], help=about, description=about, allow_abbrev=False, add_help=helps
        )

    command("today", "Every open job: its stage, what stands in its way, and what to do today.")
    job = command("job", "One job, whole.")
    job.add_argument("ref", metavar="REF", help="the job's reference")
    command("taught", "What closed jobs taught: real cut loss and glue beside what was allowed, and the worth lost.")
    diary = command("diary", "A week of the diary: who is where, and what speaks against it.")
    diary.add_argument("--week", metavar="DATE", help="the week this day is in; the present one if left out")
    diary.add_argument("--person", metavar="NAME", help="this person's days only")
    calendar = command("calendar", "The diary as an iCalendar file, to standard output or a file.")
    calendar.add_argument("-o", "--output", metavar="FILE", help="write to this file")
    whose = calendar.add_mutually_exclusive_group()
    whose.add_argument("--person", metavar="NAME", help="this person's bookings only")
    whose.add_argument("--job", metavar="REF", help="this job's bookings only")
    sums = command("sum", "One sum of the trade, without a job.", helps=False)
    sums.add_argument("-h", "--help", action=_HelpOnSums, nargs=0)
    sums.add_argument("rest", nargs=argparse.REMAINDER)
    export = command("export", "Job folders, out: as JSON, to standard output or a file.")
    export.add_argument("refs", nargs="*", metavar="REF", help="the jobs; all of them if none is named")
    export.add_argument("-o", "--output", metavar="FILE", help="write to this file")
    take_in = command("import", "Job folders, in: all of a file, or nothing.")
    take_in.add_argument("source", metavar="FILE", help="a folder file; - for standard input")
    backup = command("backup", "A verified copy of the records.")
    backup.add_argument("-o", "--output", metavar="FILE", help="the copy's name; a dated one if left out")
    restore = command("restore", "Put a copy back; the present records are set aside, never overwritten.")
    restore.add_argument("source", metavar="FILE", help="the copy")
    command("check", "Is everything in order?")
    return top


class _HelpOnSums(argparse.Action):
    """Lists the sums, which only the command that works them out knows."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object, **__: object) -> None:
        from tui.command.sums import parser as parser_of_sums  # noqa: PLC0415 - the sums are not needed otherwise

        parser_of_sums().print_help()
        parser.exit()


def _fill_in(asked: argparse.Namespace) -> None:
    """Give the options that were not typed their values; the same option may stand in either place."""
    for name, value in (("file", None), ("demo", False), ("at", None), ("json", False), ("who", None)):
        if not hasattr(asked, name):
            setattr(asked, name, value)


def _answer_for(asked: argparse.Namespace) -> Answer:
    from tui.command import commands  # noqa: PLC0415 - asking for the version must not pay for the shop

    return commands.ANSWERS[asked.command or "screens"]
