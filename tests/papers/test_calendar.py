"""Calendar files keep RFC 5545 whatever is in them, and three other readers find in them what was booked."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.papers.calendar import Entry, folded, text, write_calendar
from tests.papers.calendar_checker import faults
from tests.papers.calendar_readers import found_by_all

STAMP = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
FRIDAY = date(2026, 11, 27)
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)


def entry(**more: object) -> Entry:
    told: dict[str, object] = {
        "uid": "one@layday",
        "sequence": 3,
        "summary": "Nils: L-0001 Reading room",
        "location": "4 Lamp Lane, Gannet Quay",
        "description": "",
        "days": (FRIDAY,),
    }
    return Entry(**(told | more))  # type: ignore[arg-type]  # told by name


def test_a_whole_day_ends_on_the_day_after_and_the_other_readers_say_so() -> None:
    # RFC 5545 §3.6.1: the end of an event is not part of it.
    raw = write_calendar("Firm", [entry()], STAMP)
    (event,) = found_by_all(raw)
    assert (event.begin, event.end, event.also_on) == (FRIDAY, FRIDAY + timedelta(days=1), ())
    assert (event.uid, event.sequence, event.status) == ("one@layday", 3, "CONFIRMED")
    assert event.location == "4 Lamp Lane, Gannet Quay"
    assert b"DTSTAMP:20261125T063000Z\r\n" in raw


def test_days_with_a_weekend_between_are_one_event_that_leaves_the_weekend_free() -> None:
    monday = date(2026, 11, 30)
    (event,) = found_by_all(write_calendar("Firm", [entry(days=(FRIDAY, monday))], STAMP))
    assert (event.begin, event.end, event.also_on) == (FRIDAY, date(2026, 11, 28), (monday,))


def test_half_a_day_is_told_in_utc() -> None:
    # 26 October 2026 08:00 in Brussels is 07:00 UTC: the clocks went back the day before (IANA).
    hours = (datetime(2026, 10, 26, 7, tzinfo=UTC), datetime(2026, 10, 26, 11, 15, tzinfo=UTC))
    raw = write_calendar("Firm", [entry(days=(date(2026, 10, 26),), hours=hours, cancelled=True)], STAMP)
    assert b"DTSTART:20261026T070000Z\r\nDTEND:20261026T111500Z\r\n" in raw
    (event,) = found_by_all(raw)
    assert (event.begin, event.end, event.status) == (*hours, "CANCELLED")


def test_the_worked_example_of_the_standard_is_escaped_like_there() -> None:
    # RFC 5545 §3.3.11: “Project XYZ Final Review / Conference Room - 3B / Come Prepared.” on three lines.
    said = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    assert text(said) == r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    assert text(r"a\b;c,d:e") == r"a\\b\;c\,d:e"


def test_lines_are_folded_at_75_octets_and_no_letter_is_cut() -> None:
    line = "SUMMARY:" + "é🪵" * 60
    parts = folded(line).split("\r\n")
    assert all(len(part.encode()) <= 75 for part in parts)
    assert max(len(part.encode()) for part in parts) > 70
    assert parts[0] + "".join(part[1:] for part in parts[1:]) == line
    assert all(part.startswith(" ") for part in parts[1:])


def test_a_calendar_without_anything_in_it_is_refused() -> None:
    with pytest.raises(Refused):
        write_calendar("Firm", [], STAMP)


@settings(max_examples=60, deadline=None)
@given(texts, texts, texts, st.integers(0, 10_000), st.booleans())
def test_whatever_is_typed_the_file_keeps_the_standard_and_the_words_come_back(
    summary: str, location: str, name: str, sequence: int, cancelled: bool
) -> None:
    raw = write_calendar(
        name, [entry(summary=summary, location=location, sequence=sequence, cancelled=cancelled)], STAMP
    )
    assert faults(raw) == []
    (event,) = found_by_all(raw)
    assert event.sequence == sequence
    if summary.isprintable():
        assert event.summary == summary


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (b"\r\n", b"\n"),
        (b"UID:one@layday\r\n", b""),
        (b"VERSION:2.0\r\n", b""),
        (b"DTEND;VALUE=DATE:20261128", b"DTEND;VALUE=DATE:20261127"),
        (rb"Lane\, Gannet", b"Lane, Gannet"),
        (b"SUMMARY:", b"SUMMARY:" + b"x" * 80),
        (b"SUMMARY:", b"SUMMARY:\x1b"),
        (b"DTSTAMP:20261125T063000Z\r\n", b""),
    ],
)
def test_the_checker_finds_what_is_broken_on_purpose(old: bytes, new: bytes) -> None:
    raw = write_calendar("Firm", [entry()], STAMP)
    assert faults(raw) == []
    assert old in raw
    assert faults(raw.replace(old, new)) != []
