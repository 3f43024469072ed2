"""The sentences about what a reading must keep to, and whether it does."""

from store.trade.doubts import PROBE_HOURS, probe_depth_mm
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Room
from store.trade.judging import Limit, is_good, is_levelled_away, is_made_void, limit_for
from store.trade.limits import Authority, TakenLimit, damp_limits
from store.trade.own_limits import OwnLimit
from store.trade.readings import KIND_OF, ReadingDraft
from tui.words.vocabulary import METHODS, SUBFLOORS
from tui.words.wording import clean, figure, say_percent, say_range

_INSTRUMENTS = {
    "carbide": "carbide test",
    "hygrometer": "hygrometer",
    "in_situ_probe": "probe",
    "timber_subfloor": "timber meter",
}
_IN_MM = {"straightedge", "level_grid"}


def say_limit(limit: Limit, kind: str) -> str:
    """Return a limit in a few words: “18–24 °C and 40–65 %”, “at most 3 mm”, “at most 2 points from 9.5 %”."""
    if limit.climate is not None:
        return say_range(limit.climate)
    if limit.near is not None and limit.apart is not None:
        return f"at most {figure(limit.apart)} points from {say_percent(limit.near)}"
    if limit.most is not None and kind == "level_grid":
        return f"at most {figure(limit.most)} mm gap under 2 m"
    if limit.most is not None:
        return f"at most {figure(limit.most)} {'mm' if kind in _IN_MM else '%'}"
    return ""


def say_limit_before(firm: FirmDraft, facts: JobFacts, room: str, kind: str) -> str:
    """Return what a reading to be taken must keep to, in a sentence; empty where nothing is asked of it."""
    limit = limit_for(firm, facts, facts.room(room), kind)
    if limit is None:
        return ""
    words = say_limit(limit, kind)
    if kind == "board" and limit.near is not None:
        return f"Must be {words}, the subfloor's last reading."
    source = f" ({say_source(limit.taken)})" if limit.taken is not None else ""
    thickness = facts.room(room).screed_mm
    hole = ""
    if kind == "in_situ_probe" and thickness is not None:
        hole = (
            f" Hole {figure(probe_depth_mm(thickness), 0)} mm deep (40 %), read after {PROBE_HOURS} hours: ASTM F2170."
        )
    return f"Must be {words}{source}.{hole}"


def say_source(taken: TakenLimit) -> str:
    """Return where a limit is from, short: “EN 1264-4:2021, table 2”, “sheet of MS-15”, “the firm's own: …”."""
    if taken.by is Authority.SHEET:
        return f"sheet of {clean(taken.source)}"
    if taken.by is Authority.FIRM:
        return f"the firm's own: {clean(taken.source)}"
    return taken.source


def say_limits_of(firm: FirmDraft, facts: JobFacts, room: Room) -> list[str]:
    """Return each moisture limit of a room's subfloor with its source, what else is said, and why this one."""
    return [_say_whole(_INSTRUMENTS[KIND_OF[kind]], taken) for kind, taken in damp_limits(firm, facts, room).items()]


def _say_whole(instrument: str, taken: TakenLimit) -> str:
    words = f"Limit, {instrument}: at most {figure(taken.most)} % ({say_source(taken)})."
    given = taken.given
    if given is None:
        return words
    if taken.by is not Authority.TRADITION:
        return f"{words} Else {figure(given.most)} %, {given.source}."
    return " ".join(part for part in (words, given.others, given.why) if part)


def say_own_limit(own: OwnLimit) -> str:
    """Return a limit set by the firm or a sheet: “hygrometer, heated, at most 60 %: our own rule”."""
    where = [SUBFLOORS[own.subfloor]] if own.subfloor else []
    where += [] if own.heated is None else ["heated" if own.heated else "unheated"]
    where += [METHODS[own.method]] if own.method else []
    because = f": {clean(own.because)}" if own.because else ""
    return f"{', '.join([_INSTRUMENTS[own.kind], *where])}, at most {figure(own.most)} %{because}"


def say_judgement(firm: FirmDraft, facts: JobFacts, reading: ReadingDraft) -> tuple[str, str]:
    """Return the limit of a reading in words, and whether it is good: “✓ good”, “✗ not good”, “· levelled since”."""
    limit = limit_for(firm, facts, facts.room(reading.room), reading.kind)
    if limit is None:
        return "", "· noted"
    words = say_limit(limit, reading.kind)
    if is_levelled_away(reading, facts):
        return words, "· levelled since"
    if is_made_void(reading, facts):
        return words, "· void since"
    return words, "✓ good" if is_good(reading, limit) else "✗ not good"
