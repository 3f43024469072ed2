"""Somebody else's small sums through the command itself: where options stand and how figures are typed."""

import json
import re

import pytest

from tests.tui.somebodys_folder import run

# USDA Wood Handbook, Table 4-2, at 70 °F and 65 %: 12.0 %.
ASKED = ("emc", "--temp", "21.111", "--rh", "65")


@pytest.mark.parametrize(
    "typed",
    [
        ("--json", "sum", *ASKED),
        ("sum", "--json", *ASKED),
        ("sum", *ASKED, "--json"),
        ("sum", "emc", "--json", "--rh", "65", "--temp", "21.111"),
        ("--json", "sum", "--json", *ASKED, "--json"),
        ("--file", "no/such/records", "--json", "sum", *ASKED),
        ("sum", *ASKED, "--file", "no/such/records", "--json"),
        ("--at", "2027-01-04T08:00:00+01:00", "sum", *ASKED, "--json"),
        ("sum", "--at", "2027-01-04T08:00:00+01:00", *ASKED, "--json"),
        ("sum", *ASKED, "--demo", "--json"),
        ("sum", "emc", "--temp=21,111", "--rh=65,0", "--json"),
        ("sum", "emc", "--temp", "2.1111e1", "--rh", "065", "--json"),
    ],
)
def test_options_stand_before_or_after_the_name_and_records_are_not_needed(typed: tuple[str, ...]) -> None:
    ran = run(*typed)
    assert (ran.status, ran.err) == (0, b"")
    assert set(ran.answer) == {"emc_percent"}
    assert abs(ran.answer["emc_percent"] - 12.0) <= 0.06


@pytest.mark.parametrize(
    "typed",
    [
        ("sum",),
        ("sum", "--json"),
        ("sum", "EMC", "--temp", "20", "--rh", "50"),
        ("sum", "wood", "--temp", "20", "--rh", "50"),
        ("sum", "emc", "--temp", "20"),
        ("sum", "emc", "--temp", "--rh", "50"),
        ("sum", "emc", "--temp", "20", "--rh", "50 %"),
        ("sum", "emc", "--temp", "20 °C", "--rh", "50"),
        ("sum", "emc", "--temp", "1.000,5", "--rh", "50"),
        ("sum", "emc", "--temp", "", "--rh", "50"),
        ("sum", "emc", "--temp", "20", "--rh", "50", "60"),
        ("sum", "emc", "--t", "20", "--rh", "50"),
        ("sum", "rows", "--across", "4000", "--board", "190", "--rh", "50"),
        ("sum", "movement", "--species", "oak", "--width", "140", "--from", "8", "--to", "9", "--cut", "rift"),
        ("sum", "trims", "--stick", "2400", "--kerf", "3", "--pieces", "1200;900"),
    ],
)
def test_a_sum_asked_wrongly_is_told_how_and_prints_nothing_else(typed: tuple[str, ...]) -> None:
    ran = run(*typed)
    assert (ran.status, ran.out) == (2, b"")
    assert ran.complained.startswith("usage: layday sum")
    assert "Traceback" not in ran.complained


def test_a_figure_may_hold_anything_and_never_steers_the_terminal() -> None:
    for figure in ("\x1b[31m20", "[bold]20", "2\u202e0", "9" * 10_000, "-" * 50):
        ran = run("sum", "emc", "--temp", figure, "--rh", "50")
        assert (ran.status in {1, 2}, ran.out) == (True, b"")
        assert "\x1b" not in ran.complained
        assert "\u202e" not in ran.complained
        assert "Traceback" not in ran.complained


def test_words_and_json_say_the_same_figures() -> None:
    typed = ("sum", "moisture-gap", "--board", "8", "--subfloor", "10.5", "--width", "180")
    assert json.loads(run(*typed, "--json").out) == {"difference": 2.5, "limit": 2, "ok": False}
    assert run(*typed).said.splitlines() == ["difference: 2.5", "limit: 2", "ok: no"]


def test_a_refusal_is_one_sentence_that_names_what_was_wrong_and_what_would_do() -> None:
    ran = run("sum", "flatness", "--rule", "sr1", "--span", "3000", "--gap", "2")
    assert (ran.status, ran.out) == (1, b"")
    assert re.search(r"3000.*2000|2000.*3000", ran.complained)
    assert ran.complained.count("\n") == 1
