"""A proposed plan in words: who lays which floor when, why then, and what it comes to."""

from datetime import date

from store.trade.planning.nouns import Decider, FloorKey, Half, Proposal, Reason, Visit
from store.trade.planning.situation import Planning
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_day

_HALVES = {0: "morning", 1: "afternoon"}


def say_floor(key: FloorKey) -> str:
    """Return a floor: “GQ-0149 Parlour”."""
    return f"{clean(key.job)} {clean(key.room)}"


def say_visit(visit: Visit, today: date) -> str:
    """Return when somebody comes: “Wed 16 Dec to Thu 17 Dec morning”, “Fri 18 Dec afternoon”."""
    first, last = visit.halves[0], visit.halves[-1]
    begun = f"{say_day(first.day, today)}{' afternoon' if first.half == 1 else ''}"
    if first.day == last.day:
        whole = {half.half for half in visit.halves} == {0, 1}
        return say_day(first.day, today) if whole else f"{say_day(first.day, today)} {_HALVES[first.half]}"
    return f"{begun} to {say_day(last.day, today)}{' morning' if last.half == 0 else ''}"


def say_reason(reason: Reason, today: date) -> str:
    """Return why a floor is laid when it is, without a full stop."""
    ready = _say_half(reason.ready_from, today) if reason.ready_from else ""
    behind = f"{clean(reason.fitter)} lays {say_floor(reason.behind)} first" if reason.behind else "its fitter is busy"
    return {
        Decider.READY: f"as soon as it can be laid, {ready}",
        Decider.DAYS_OFF: f"{clean(reason.fitter)} is not there before",
        Decider.FITTER_BUSY: behind,
        Decider.BOOKED: "stays where it is booked",
        Decider.PINNED: "laying goes on there",
        Decider.NOBODY: "nobody on file can lay herringbone",
        Decider.NO_DAY: "no day within a year",
    }[reason.decider]


def say_plan_sum(proposal: Proposal, planning: Planning, today: date) -> list[str]:
    """Return what a plan comes to: the days late, what moves, which jobs are late, and what it rests on."""
    late = [one for one in proposal.ends if one.days_late]
    days = counted(proposal.days_late, "day")
    said = [
        f"{'▲' if late else '✓'} {counted(len(proposal.visits), 'floor')}, "
        f"{'no day' if not late else days} late in all; {counted(proposal.changes, 'booking')} would move."
    ]
    if late:
        jobs = (
            f"{clean(one.job)} {counted(one.days_late, 'day')} (handed over {say_day(one.handover_on, today)})"
            for one in late
        )
        said.append(f"▲ Late: {', '.join(jobs)}.")
    if planning.with_crews:
        rooms = ", ".join(say_floor(key) for key in planning.with_crews)
        said.append(f"Left as booked, by several people: {rooms}.")
    learned = "the trade's rule" if not planning.records else f"{counted(planning.records, 'laying')} of the last year"
    said.append(f"Hours by {learned}. A plan is a plan: holds and readings release a floor.")
    return said


def say_where_to(reason: Reason, planning: Planning) -> str:
    """Return the job's title and its room, for the line that is chosen."""
    return f"{clean(planning.titles.get(reason.floor.job, ''))}, {the_room(reason.floor.room)}"


def _say_half(half: Half, today: date) -> str:
    return f"{say_day(half.day, today)} {_HALVES[half.half]}"
