"""Faults deeper inside a value, and keys and texts that no place of a job folder may hold."""

import json
from collections.abc import Callable
from typing import Any

import pytest

Spoiled = Callable[[str, object], bytes]
Refusal = Callable[[bytes], str]

ROOM = "jobs[0].rooms[1]"
ORDER, CAME, MOVED = "jobs[0].orders[0]", "jobs[0].deliveries[0]", "jobs[0].moves[0]"
AIR, EDGE = "jobs[0].readings[0]", "jobs[0].readings[1]"
LAID, COUNT = "jobs[0].laid[0]", "jobs[0].counts[0]"


INNER: list[tuple[str, object, str]] = [
    ("firm.working_days", ["mon", "funday"], "firm.working_days[1]: "),
    ("firm.day_starts", "8 o'clock", "firm.day_starts: must be a time of day"),
    ("firm.day_starts", "08:00+01:00", "firm.day_starts: must be a time of day without"),
    ("firm.holidays", ["2026-12-25", "Christmas"], "firm.holidays[1]: "),
    (f"{ROOM}.outline", [[0, 0], [5, 5.5], [0, 9]], f"{ROOM}.outline[1][1]: must be a whole number"),
    (f"{ROOM}.outline", [[0, 0], [5, 5, 5], [0, 9]], f"{ROOM}.outline[1]: a corner is two"),
    (f"{LAID}.to", None, f"{LAID}.area_m2: a laying that is still going on"),
    (
        "jobs[0].snags[0]",
        {"at": "2026-11-27T08:00:00Z", "what": "A gap", "mended_at": "2026-11-26T08:00:00Z"},
        "jobs[0].snags[0].mended_at: it was mended before",
    ),
]


@pytest.mark.parametrize(("place", "value", "say"), INNER)
def test_a_fault_inside_a_value_is_refused_at_the_inner_place(
    place: str, value: object, say: str, spoiled: Spoiled, refusal: Refusal
) -> None:
    assert refusal(spoiled(place, value)).startswith(say)


def test_two_jobs_of_one_reference_are_refused(
    whole_folder: dict[str, Any], spoiled: Spoiled, refusal: Refusal
) -> None:
    job = whole_folder["jobs"][0]
    said = refusal(spoiled("jobs", [job, job]))
    assert said == "jobs[1].ref: “L-0007” stands in this folder twice."


OBJECTS = [
    "",
    "firm.",
    "people[0].",
    "products[0].",
    "products[1].",
    "jobs[0].",
    "jobs[0].customer.",
    f"{ROOM}.",
    f"{ORDER}.",
    f"{ORDER}.lines[0].",
    f"{CAME}.",
    f"{CAME}.lines[0].",
    f"{MOVED}.",
    f"{MOVED}.to.",
    "jobs[0].openings[0].",
    f"{AIR}.",
    "jobs[0].smoothings[0].",
    f"{LAID}.",
    f"{COUNT}.",
    "jobs[0].snags[0].",
    "jobs[0].notes[0].",
    "jobs[0].handover.",
]


@pytest.mark.parametrize("place", OBJECTS)
def test_a_key_that_nobody_knows_is_refused_wherever_it_stands(place: str, spoiled: Spoiled, refusal: Refusal) -> None:
    said = refusal(spoiled(f"{place}colour", "red"))
    assert said == f"{place}colour: is a key that no job folder has here."


TEXTS = [
    "firm.name",
    "firm.time_zone",
    "firm.currency",
    "people[0].name",
    "products[0].name",
    "products[0].build",
    "products[0].species",
    "products[1].name",
    "jobs[0].title",
    "jobs[0].customer.name",
    "jobs[0].customer.phone",
    "jobs[0].customer.email",
    "jobs[0].promised_on",
    f"{ROOM}.name",
    f"{ROOM}.board",
    f"{ORDER}.supplier",
    f"{CAME}.at",
    f"{CAME}.lines[0].batch",
    f"{AIR}.taken_by",
    f"{AIR}.note",
    "jobs[0].snags[0].what",
    "jobs[0].notes[0].text",
    "jobs[0].handover.by",
]


@pytest.mark.parametrize("place", TEXTS)
@pytest.mark.parametrize(
    ("value", "say"),
    [
        ("x" * 10_001, "no more than 10,000 can be kept"),
        ("half \ud800 a pair", "a character that stands for none"),
        ("\udc00", "a character that stands for none"),
        ("nought \0 byte", "a character that stands for none"),
        (7, "must be text, not 7"),
        (["a"], "must be text, not a list"),
    ],
)
def test_a_text_that_cannot_be_kept_is_refused_wherever_it_stands(
    place: str, value: object, say: str, spoiled: Spoiled, refusal: Refusal
) -> None:
    said = refusal(spoiled(place, value))
    assert said.startswith(f"{place}: ")
    assert say in said


def test_a_text_of_five_megabytes_is_refused_without_being_repeated(spoiled: Spoiled, refusal: Refusal) -> None:
    said = refusal(spoiled("jobs[0].title", "x" * 5_000_000))
    assert said == "jobs[0].title: is 5,000,000 characters long; no more than 10,000 can be kept."


def test_control_characters_in_a_wrong_key_are_not_repeated(whole_folder: dict[str, Any], refusal: Refusal) -> None:
    said = refusal(json.dumps(whole_folder | {"\x1b]52;c;\x07": 1}).encode())
    assert said.startswith("�]52;c;�: is a key")
