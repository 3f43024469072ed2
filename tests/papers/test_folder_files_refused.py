"""Files that are no job folder at all, and numbers that are none: refused in a sentence, never a crash."""

import json
import re
from collections.abc import Callable
from typing import Any

import pytest

from store.errors import Refused
from store.papers.reading_in import read_folder

Spoiled = Callable[[str, object], bytes]
Refusal = Callable[[bytes], str]

AIR = "jobs[0].readings[0]"


@pytest.fixture
def good(whole_folder: dict[str, Any]) -> bytes:
    return json.dumps(whole_folder).encode()


def in_place_of_52(good: bytes, written: str) -> bytes:
    assert good.count(b'"rh_percent": 52') == 1
    return good.replace(b'"rh_percent": 52', b'"rh_percent": ' + written.encode())


@pytest.mark.parametrize(
    ("written", "say"),
    [
        ("NaN", "NaN is no number"),
        ("Infinity", "Infinity is no number"),
        ("-Infinity", "-Infinity is no number"),
        ("1e999", "1e999 is no number"),
        ("-1e99999999999999999999", "is no number"),
        ("9" * 400, "more than 60 figures"),
        ("9" * 5_000, "more than 60 figures"),
        ("0." + "3" * 400, "more than 60 figures"),
        ("1e300", "not 1e+300"),
    ],
)
def test_a_number_that_no_instrument_shows_is_refused(written: str, say: str, good: bytes, refusal: Refusal) -> None:
    said = refusal(in_place_of_52(good, written))
    assert said.startswith(f"{AIR}.rh_percent: ")
    assert say in said


def test_a_figure_too_small_to_keep_is_nought(good: bytes) -> None:
    reading = read_folder(in_place_of_52(good, "1e-99999999999999999999")).jobs[0].readings[0]
    assert reading.measure.rh_percent == 0.0  # type: ignore[union-attr]


def test_a_key_given_twice_is_refused_at_its_object(good: bytes, refusal: Refusal) -> None:
    twice = good.replace(b'"rh_percent": 52', b'"rh_percent": 52, "rh_percent": 53')
    assert refusal(twice) == f"{AIR}: has the key “rh_percent” twice."
    assert refusal(b'{"layday_folder": 1, "layday_folder": 1}') == ("The file: has the key “layday_folder” twice.")


@pytest.mark.parametrize(
    ("spoil", "say"),
    [
        (lambda good: b"", "empty"),
        (lambda good: b" \n", "empty"),
        (lambda good: b"\xef\xbb\xbf", "empty"),
        (lambda good: good[:-1], "cut off"),
        (lambda good: good[: len(good) // 2], "cut off"),
        (lambda good: good[: good.index(b"Harbour")], "cut off"),
        (lambda good: good + b"}", "not JSON: line 1, column"),
        (lambda good: good.replace(b"{", b"{,", 1), "not JSON: line 1, column 2"),
        (lambda good: good.replace(b"1,", b"01,", 1), "not JSON"),
        (lambda good: good.replace(b"Hall", b"Ha\tll", 1), "not JSON"),
        (lambda good: good.replace(b"Hall", b"H\xe4ll", 1), "not text in UTF-8"),
        (lambda good: good.decode().encode("utf-16"), "not text in UTF-8"),
        (lambda good: b"[" * 200_000 + b"]" * 200_000, "nested"),
        (lambda good: b'{"a":' * 200_000 + b"1" + b"}" * 200_000, "nested"),
        (lambda good: b"SQLite format 3\x00", "not JSON"),
        (lambda good: b"[]", "an object, not a list"),
        (lambda good: b"null", "an object, not null"),
        (lambda good: b"1" * 5_000, "an object"),
    ],
)
def test_a_file_that_is_no_folder_is_refused_in_a_sentence(
    spoil: Callable[[bytes], bytes], say: str, good: bytes, refusal: Refusal
) -> None:
    assert say in refusal(spoil(good))


def test_every_place_the_file_may_be_cut_at_is_refused_and_nothing_else_happens(good: bytes, refusal: Refusal) -> None:
    for end in range(0, len(good), 7):
        refusal(good[:end])


def every_place(at: object, place: str = "") -> list[str]:
    found = [place] if place else []
    if isinstance(at, dict):
        for key, value in at.items():
            found += every_place(value, f"{place}.{key}" if place else key)
    elif isinstance(at, list):
        for index, value in enumerate(at):
            found += every_place(value, f"{place}[{index}]")
    return found


@pytest.mark.parametrize("value", [None, True, -1, 0, 1.5, "", "x", [], [[]], {}, {"a": 1}], ids=repr)
def test_whatever_stands_anywhere_is_read_or_refused_at_a_place(
    value: object, whole_folder: dict[str, Any], spoiled: Spoiled
) -> None:
    refusals = 0
    for place in every_place(whole_folder):
        try:
            read_folder(spoiled(place, value))
        except Refused as refused:
            refusals += 1
            told = str(refused)
            assert re.match(r"[a-z_]+[][a-z0-9_.]*: ", told)
    assert refusals > 50
