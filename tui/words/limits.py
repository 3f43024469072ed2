"""The sentences about what a reading must keep to, and whether it does."""

from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.judging import Limit, is_good, is_void, limit_for
from store.trade.readings import ReadingDraft
from tui.words.wording import figure, say_percent, say_range


def say_limit(limit: Limit, kind: str) -> str:
    """Return a limit in a few words: “18–24 °C and 40–65 %”, “at most 3 mm”, “at most 2 points from 9.5 %”."""
    if limit.climate is not None:
        return say_range(limit.climate)
    if limit.near is not None and limit.apart is not None:
        return f"at most {figure(limit.apart)} points from {say_percent(limit.near)}"
    if limit.most is not None:
        return f"at most {figure(limit.most)} {'mm' if kind == 'straightedge' else '%'}"
    return ""


def say_limit_before(firm: FirmDraft, facts: JobFacts, room: str, kind: str) -> str:
    """Return what a reading to be taken must keep to, in a sentence; empty where nothing is asked of it."""
    limit = limit_for(firm, facts, facts.room(room), kind)
    if limit is None:
        return ""
    words = say_limit(limit, kind)
    if kind == "board" and limit.near is not None:
        return f"Must be {words}, the subfloor's last reading."
    return f"Must be {words}."


def say_judgement(firm: FirmDraft, facts: JobFacts, reading: ReadingDraft) -> tuple[str, str]:
    """Return the limit of a reading in words, and whether it is good: “✓ good”, “✗ not good”, “· levelled since”."""
    limit = limit_for(firm, facts, facts.room(reading.room), reading.kind)
    if limit is None:
        return "", "· noted"
    words = say_limit(limit, reading.kind)
    if is_void(reading, facts):
        return words, "· levelled since"
    return words, "✓ good" if is_good(reading.measure, limit) else "✗ not good"
