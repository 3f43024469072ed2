"""The sentences of a job's standing: why each hold is as it is, with its figures."""

from collections.abc import Callable
from datetime import datetime

from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.verdict import Hold, HoldKind, Why
from tui.words.holds_base import SENTENCES, is_or_are, say_no_due_day, say_on_order, say_overdue
from tui.words.setting import Setting
from tui.words.vocabulary import HOLD_KINDS, the_room
from tui.words.wording import (
    clean,
    figure,
    say_air,
    say_hours,
    say_packs,
    say_range,
    upper,
)


def say_hold(hold: Hold, facts: JobFacts, firm: FirmDraft, now: datetime) -> str:
    """Return one sentence that says why a hold is as it is, with its figures."""
    return _SENTENCES[hold.why](hold, Setting(facts=facts, firm=firm, now=now))


def _packs(hold: Hold) -> str:
    if hold.packs is None:
        return f"packs of {clean(hold.product)}" if hold.product else "packs"
    return f"{say_packs(hold.packs)} of {clean(hold.product)}" if hold.product else say_packs(hold.packs)


_UNITS = {
    "carbide": "% in the carbide test",
    "hygrometer": "% relative humidity",
    "in_situ_probe": "% relative humidity at the probe",
}
_HOW = {
    "carbide": " with the carbide bottle",
    "hygrometer": " with the hygrometer",
    "in_situ_probe": " with the probe",
}


def _damp_figures(hold: Hold, at: Setting) -> str:
    unit = _UNITS.get(hold.reading, "%")
    source = at.source_of(hold)
    most = f"; at most {figure(hold.limit)} % is allowed{source}" if hold.limit is not None else ""
    measured = figure(hold.measured) if hold.measured is not None else "?"
    return f"The subfloor in {the_room(hold.room)} was at {measured} {unit}{most}"


def _dry(hold: Hold, at: Setting) -> str:
    return f"{_damp_figures(hold, at)}: dry enough."


def _damp(hold: Hold, at: Setting) -> str:
    later = f" Test again from {at.at(hold.not_before)}." if hold.not_before else ""
    if hold.pace is not None:
        later = f" {say_pace(hold, at)}"
    return f"{_damp_figures(hold, at)}: too damp.{later}"


def _no_damp(hold: Hold, at: Setting) -> str:
    how = _HOW.get(hold.reading, "")
    later = f"; by the drying rule it can be dry from {at.at(hold.not_before)}" if hold.not_before else ""
    return f"The subfloor in {the_room(hold.room)} has not been tested{how} for moisture{later}."


def _old_damp(hold: Hold, at: Setting) -> str:
    when = f" was taken {at.at(hold.since)} and" if hold.since else ""
    good = at.firm.reading_good_days
    pace = f" {say_pace(hold, at)}" if hold.pace is not None else ""
    return f"The moisture reading of {the_room(hold.room)}{when} is older than {good} days; test again.{pace}"


def say_pace(hold: Hold, at: Setting) -> str:
    """Return when a screed may be dry at its own pace, with the rule of thumb beside it; never a release."""
    pace = hold.pace
    if pace is None:
        return ""
    if pace.latest is None:
        when = f"after {at.day(pace.earliest)} at the soonest, with no end in sight"
    elif pace.latest == pace.earliest:
        when = f"about {at.day(pace.earliest)}"
    else:
        when = f"about {at.day(pace.earliest)} to {at.day(pace.latest)}"
    rule = f"; rule of thumb {at.day(hold.due_on)}" if hold.due_on else ""
    return f"At this pace dry {when}{rule}. Only a test releases it."


def _gap(hold: Hold, verdict: str) -> str:
    most = f"; {figure(hold.limit)} mm is allowed" if hold.limit is not None else ""
    measured = figure(hold.measured) if hold.measured is not None else "?"
    found = "found by the grid of levels" if hold.reading == "level_grid" else "under the straightedge"
    return f"The widest gap {found} in {the_room(hold.room)} is {measured} mm{most}: {verdict}."


def _flat(hold: Hold, at: Setting) -> str:
    return _gap(hold, "flat enough")


def _not_flat(hold: Hold, at: Setting) -> str:
    return _gap(hold, "level it first")


def _air(hold: Hold) -> str:
    if hold.measured is None or hold.measured_rh is None:
        return f"Air in {the_room(hold.room)}"
    return f"Air in {the_room(hold.room)} is {say_air(hold.measured, hold.measured_rh)}"


def _air_good(hold: Hold, at: Setting) -> str:
    return f"{_air(hold)}: in range." if hold.measured is not None else f"{_air(hold)} is in range."


def _air_outside(hold: Hold, at: Setting) -> str:
    if hold.measured is None:
        return f"{_air(hold)} is out of range; it must be {say_range(at.range_of(hold.room))}."
    return f"{_air(hold)}; it must be {say_range(at.range_of(hold.room))}."


def _old_air(hold: Hold, at: Setting) -> str:
    since = f" since its packs came in {at.at(hold.since)}" if hold.since else " since its packs came in"
    return f"The air in {the_room(hold.room)} has not been read{since}."


def _wait_over(hold: Hold, at: Setting) -> str:
    since = f" since {at.at(hold.since)}" if hold.since else ""
    return f"The boards for {the_room(hold.room)} have had their wait and are ready{since}."


def _hours(hold: Hold) -> str:
    if hold.measured is None or hold.limit is None:
        return "Acclimatising"
    return f"{say_hours(hold.measured)} of {say_hours(hold.limit)}"


def _running(hold: Hold, at: Setting) -> str:
    ready = f", ready {at.at(hold.clears_at)}" if hold.clears_at else ""
    return f"{_hours(hold)}{ready}."


def _stopped(hold: Hold, at: Setting) -> str:
    since = f" since {at.at(hold.since)}" if hold.since else ""
    return f"{_hours(hold)}; the clock has stood still{since}, until a reading in range starts it again."


def _log_broken(hold: Hold, at: Setting) -> str:
    gap = say_hours(at.firm.log_gap_hours)
    return f"{_hours(hold)}; the log has a gap: readings in range at most {gap} apart make the clock count."


def _to_come(hold: Hold, at: Setting) -> str:
    ready = f"; at best they are ready {at.at(hold.clears_at)}" if hold.clears_at else ""
    return f"The wait begins when enough packs are in the room{ready}."


def _nothing(hold: Hold, at: Setting) -> str:
    if hold.kind is HoldKind.SITE:
        return f"No day is on file from which {the_room(hold.room)} is closed in and ready."
    return f"{HOLD_KINDS[hold.kind]}: nothing on file stands in the way."


def _site_ready(hold: Hold, at: Setting) -> str:
    since = f" since {at.day(hold.due_on)}" if hold.due_on else ""
    return f"{upper(the_room(hold.room))} is closed in and ready{since}."


def _site_not_ready(hold: Hold, at: Setting) -> str:
    when = at.at(hold.clears_at) if hold.clears_at else at.day(hold.due_on)
    return f"{upper(the_room(hold.room))} is not ready for a floor before {when}."


_SENTENCES: dict[Why, Callable[[Hold, Setting], str]] = {
    Why.NOTHING_ON_FILE: _nothing,
    Why.SITE_READY: _site_ready,
    Why.SITE_NOT_READY: _site_not_ready,
    Why.DRY: _dry,
    Why.DAMP: _damp,
    Why.NO_DAMP_READING: _no_damp,
    Why.OLD_DAMP_READING: _old_damp,
    Why.FLAT: _flat,
    Why.NOT_FLAT: _not_flat,
    Why.NO_FLAT_READING: lambda h, at: f"The subfloor in {the_room(h.room)} has not been checked for flatness.",
    Why.AIR_GOOD: _air_good,
    Why.AIR_OUTSIDE: _air_outside,
    Why.NO_AIR_READING: lambda h, at: f"The air in {the_room(h.room)} has not been read yet.",
    Why.OLD_AIR_READING: _old_air,
    Why.PACKS_ENOUGH: lambda h, at: f"{upper(_packs(h))} {is_or_are(h.packs)} here: enough.",
    Why.NOT_ORDERED: lambda h, at: f"{upper(_packs(h))} {is_or_are(h.packs)} needed and not ordered.",
    Why.ORDERED_TOO_FEW: lambda h, at: f"{upper(_packs(h))} {is_or_are(h.packs)} still to be ordered.",
    Why.ON_ORDER: lambda h, at: say_on_order(_packs(h), h, at),
    Why.NO_DUE_DAY: lambda h, at: say_no_due_day(_packs(h), h),
    Why.OVERDUE: lambda h, at: say_overdue(_packs(h), h, at),
    Why.READY: _wait_over,
    Why.CLOCK_RUNNING: _running,
    Why.CLOCK_STOPPED: _stopped,
    Why.LOG_BROKEN: _log_broken,
    Why.IN_THE_UNIT: lambda h, at: (
        f"{upper(_packs(h))} {'lies' if h.packs == 1 else 'lie'} in the unit; carry "
        f"{'it' if h.packs == 1 else 'them'} in, so that the wait can begin."
    ),
    Why.PACKS_TO_COME: _to_come,
}
_SENTENCES |= SENTENCES
