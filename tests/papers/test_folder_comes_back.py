"""A folder written and read again: nothing is altered, and the same content is always the same bytes."""

import json
from collections.abc import Callable
from dataclasses import fields
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from typing import Any

import pytest

from store.papers.folder import Folder, JobFolder, folder_of
from store.papers.reading_in import read_folder
from store.papers.writing_out import write_folder
from store.trade.events import Note, in_room
from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, ClockForm, FirmDraft
from store.trade.jobs import Job

Spoiled = Callable[[str, object], bytes]

STRANGE = [
    "[bold red]not markup[/] [$x] [",
    "\x1b[31m\x07\x9b31m\x7f\r\n\t",
    "\u202egnihtemos\u202c \u2066left\u2069 \u200f",
    "e\u0301 is not \u00e9, \u2028 nor is \ufeff this",
    "𝄞 🪵 שלום ＝1+2",
    '"quotes", \\ and /',
]


@pytest.mark.parametrize("strange", STRANGE)
def test_any_text_comes_back_exactly_as_it_went_out(strange: str, spoiled: Spoiled) -> None:
    name = (strange * 10_000)[:10_000]
    before = read_folder(spoiled("jobs[0].customer.name", name))
    assert before.jobs[0].job.customer.name == name
    assert read_folder(write_folder(before)) == before


def test_a_written_folder_holds_nothing_that_a_terminal_would_obey(spoiled: Spoiled) -> None:
    written = write_folder(read_folder(spoiled("jobs[0].title", "".join(STRANGE)))).decode()
    assert all(sign.isprintable() for sign in written.replace("\n", ""))


def test_a_long_room_name_may_be_referred_to(whole_folder: dict[str, Any]) -> None:
    name = "[hall]" * 1_600
    raw = json.dumps(whole_folder).replace('"Hall"', json.dumps(name)).encode()
    assert read_folder(raw).jobs[0].deliveries[0].into == in_room(name)


def test_years_at_the_edge_are_kept_in_any_zone(spoiled: Spoiled) -> None:
    early, late = datetime(1900, 1, 1, tzinfo=UTC), datetime(2200, 1, 1, tzinfo=UTC) - timedelta(seconds=1)
    folder = json.loads(spoiled("firm.time_zone", "America/New_York"))
    folder["jobs"][0]["notes"] = [{"at": when.isoformat(), "text": "edge"} for when in (early, late)]
    read = read_folder(json.dumps(folder).encode())
    assert [note.at for note in read_folder(write_folder(read)).jobs[0].notes] == [early, late]


def test_the_firms_own_settings_are_read(spoiled: Spoiled) -> None:
    firm = {
        "name": "Gannet Quay Floors",
        "time_zone": "Europe/Lisbon",
        "working_days": ["sat", "mon"],
        "day_starts": "07:15",
        "day_ends": "15:45:30",
        "currency": "SEK",
        "climate": {"temp_min_c": 15, "temp_max_c": 25.5, "rh_min_percent": 30, "rh_max_percent": 60},
        "clock_form": "strict_log",
        "log_gap_hours": 12,
        "flat_limit_mm": 2,
        "reading_good_days": 3,
    }
    raw = spoiled("firm", firm)
    assert read_folder(raw).firm == FirmDraft(
        name="Gannet Quay Floors",
        time_zone="Europe/Lisbon",
        working_days=(5, 0),
        day_starts=time(7, 15),
        day_ends=time(15, 45, 30),
        currency="SEK",
        climate=ClimateRange(temp_min_c=15, temp_max_c=25.5, rh_min_percent=30, rh_max_percent=60),
        clock_form=ClockForm.STRICT_LOG,
        log_gap_hours=12,
        flat_limit_mm=2,
        reading_good_days=3,
    )
    assert json.loads(write_folder(read_folder(raw)))["firm"] == firm


def test_a_whole_folder_is_written_as_the_file_it_was_read_from() -> None:
    raw = (Path(__file__).parent / "whole_folder.json").read_bytes()
    assert write_folder(read_folder(raw)) == raw


def test_instants_are_written_by_the_firms_clock_on_both_sides_of_a_clock_change(
    whole_folder: dict[str, Any],
) -> None:
    # Directive 2000/84/EC: summer time ends at 01:00 UTC on the last Sunday of October.
    moments = ["2026-10-25T00:30:00+00:00", "2026-10-25T01:30:00+00:00", "2026-10-25T01:30:00.250000+00:00"]
    whole_folder["jobs"][0]["notes"] = [{"at": moment, "text": "awake"} for moment in moments]
    before = read_folder(json.dumps(whole_folder).encode())
    written = json.loads(write_folder(before))["jobs"][0]["notes"]
    assert [note["at"] for note in written] == [
        "2026-10-25T02:30:00+02:00",
        "2026-10-25T02:30:00+01:00",
        "2026-10-25T02:30:00.250000+01:00",
    ]
    assert read_folder(write_folder(before)) == before


def test_what_says_nothing_is_left_out() -> None:
    firm = {"name": "Gannet Quay Floors", "time_zone": "Europe/Brussels"}
    job = {"ref": "L-1", "title": "Oak", "customer": {"name": "Library"}, "rooms": []}
    raw = json.dumps({"layday_folder": 1, "firm": firm, "jobs": [job]}).encode()
    written = json.loads(write_folder(read_folder(raw)))
    assert written["jobs"] == [
        job | {"orders": [], "deliveries": [], "readings": [], "laid": [], "counts": []},
    ]
    assert list(written["firm"]) == ["name", "time_zone", "working_days", "day_starts", "day_ends"]


def test_what_is_on_file_can_be_put_in_a_folder_straight_away(whole_folder: dict[str, Any]) -> None:
    folder = read_folder(json.dumps(whole_folder).encode())
    (draft,) = folder.jobs
    job = Job(id=3, rev=8, **{field.name: getattr(draft.job, field.name) for field in fields(draft.job)})
    (note,) = draft.notes
    facts = JobFacts(job=job, notes=(Note(id=5, at=note.at, text=note.text),), products={})
    on_file = write_folder(Folder(firm=folder.firm, jobs=(folder_of(facts),)))
    drafted = write_folder(Folder(firm=folder.firm, jobs=(JobFolder(job=draft.job, notes=draft.notes),)))
    assert on_file == drafted
