"""The sentences that sum up where a job stands: its verdict, and how far each stack's wait has come."""

from datetime import datetime

from store.trade.firm import FirmDraft
from store.trade.verdict import StackClock, Standing, Verdict, Windows
from tui.words.vocabulary import the_room
from tui.words.wording import clean, figure, say_hours, say_instant, say_packs


def say_verdict(standing: Standing, firm: FirmDraft, now: datetime) -> str:
    """Return what a job's standing says about laying, in one sentence; empty where all is laid."""
    if standing.verdict is Verdict.READY:
        return "Ready to lay now."
    if standing.verdict is Verdict.READY_FROM and standing.ready_from:
        return f"Ready from {say_instant(standing.ready_from, now, firm.zone)}."
    if standing.verdict is Verdict.BLOCKED:
        best = standing.best_case
        return (
            f"Something to do first; at best {say_instant(best, now, firm.zone)}."
            if best
            else ("Something to do first; no date can be given yet.")
        )
    return ""


def say_clock(clock: StackClock, firm: FirmDraft, now: datetime) -> str:
    """Return how far a stack's wait has come: “31 h of 168 h, ready Sat 28 Nov 09:30”."""
    if clock.by_reading:
        return _say_settling(clock, firm, now)
    so_far = f"{say_hours(clock.hours_counted)} of {say_hours(clock.hours_needed)}"
    if clock.ready_at is not None and clock.ready_at <= now:
        return f"{say_hours(clock.hours_needed)} over, ready since {say_instant(clock.ready_at, now, firm.zone)}"
    if clock.ready_at is not None:
        return f"{so_far}, ready {say_instant(clock.ready_at, now, firm.zone)}"
    since = f" since {say_instant(clock.stopped_at, now, firm.zone)}" if clock.stopped_at else ""
    return f"{so_far}, stopped{since}: the air is out of range"


def _say_settling(clock: StackClock, firm: FirmDraft, now: datetime) -> str:
    """How far boards are whose moisture ends the wait."""
    if clock.ready_at is not None:
        return f"their moisture stands still, read {say_instant(clock.ready_at, now, firm.zone)}"
    again = f"; read them again from {say_instant(clock.again_at, now, firm.zone)}" if clock.again_at else ""
    moved = f"they moved by {figure(clock.change)} points" if clock.change is not None else "not read often enough"
    return f"waits until their moisture stands still: {moved}{again}"


def say_stack(clock: StackClock) -> str:
    """Return which packs a clock is about: “12 packs of OAK-190 in the Reading room”."""
    return f"{say_packs(clock.packs)} of {clean(clock.product)} in {the_room(clock.room)}"


def say_windows(windows: Windows, firm: FirmDraft, now: datetime) -> str:
    """Return when a laid floor may be walked on, loaded and handed over, as one sentence."""
    if windows.walk_on is None or windows.full_load is None or windows.handover is None:
        return "All laid; the glue's times are not on file."
    walk = "may be walked on" if windows.walk_on <= now else f"walk on {say_instant(windows.walk_on, now, firm.zone)}"
    load = "fully loaded" if windows.full_load <= now else f"full load {say_instant(windows.full_load, now, firm.zone)}"
    return f"All laid: {walk}, {load}, handover from {say_instant(windows.handover, now, firm.zone)}."
