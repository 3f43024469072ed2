"""A job's times in its folder and on the command line: when it can and must be laid, and what to order by when."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.tui.firm_window import MovingClock, demo_desk, folder, press, seen, told, turn_to, window_on
from tui.cli import main
from tui.words.times import say_in_hand


async def test_a_job_with_nothing_ordered_says_the_last_safe_day_to_order(tmp_path: Path) -> None:
    # By hand, backwards from Tue 5 Jan 2027 16:30: 72 h of cure end then, so the study is laid by Sat 2 Jan, which is
    # not worked: by Fri 1 Jan 16:30. It takes 4.27 h, from 12:13 on; the parlour's 12.02 h before that are 4.23 h of
    # Friday and 7.79 of Thursday's 8.5, from Thu 31 Dec 08:42 on. Seven days to acclimatise begin Thu 24 Dec 08:42, too
    # early for a delivery at any hour of that day: here by Wed 23 Dec, ordered 14 days before.
    with demo_desk(tmp_path) as desk:
        times = desk.times.of_job("GQ-0149")
        assert times is not None
        (oak,) = times.boards
        assert (oak.deliver_by - oak.order_by).days == 14
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "times")
            shown = " ".join(seen(pilot).split())
            assert "Order OAK-190 by Wed 9 Dec at the latest: 14 days to come, here by Wed 23 Dec." in shown
            assert "must begin by Thu 31 Dec 08:42." in shown
            assert "▸ Order OAK-190" in shown


async def test_a_promise_that_cannot_be_kept_says_by_how_much_and_what_decides(tmp_path: Path) -> None:
    clock = MovingClock()
    clock.show(28, 9)
    with demo_desk(tmp_path, clock) as desk:
        job = desk.jobs.card("GQ-0145").facts.job
        desk.jobs.change(job, replace(job, promised_on=date(2026, 12, 24)))
        async with window_on(desk, "GQ-0145") as pilot:
            await turn_to(pilot, "times")
            shown = " ".join(seen(pilot).split())
            assert "promised for Thu 24 Dec: 4 days late." in shown
            assert "What decides: screed dries in Shop floor → OAK-190 acclimatises → lay Shop floor" in shown


async def test_a_step_is_read_whole_and_is_not_a_line_to_change_or_take_back(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "times")
            for key in ("e", "x"):
                await press(pilot, key)
                assert "Times are worked out from what is on file" in told(pilot)
            await press(pilot, "enter")
            assert "A day is for planning" in seen(pilot)


async def test_a_job_that_is_handed_over_has_no_times_left(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        assert desk.times.of_job("GQ-0138") is None
        async with window_on(desk, "GQ-0138") as pilot:
            await turn_to(pilot, "times")
            assert "Nothing is left to be timed." in seen(pilot)
            assert folder(pilot).pane.chosen is None


@pytest.mark.parametrize(
    ("hours", "words"),
    [(0, "0 h"), (47.9, "47 h"), (48, "2 days"), (71.9, "2 days"), (-0.2, "▲ 1 h short"), (-48.1, "▲ 3 days short")],
)
def test_time_in_hand_is_rounded_down_and_what_is_short_up(hours: float, words: str) -> None:
    assert say_in_hand(hours) == words


def test_the_command_line_answers_a_jobs_times_in_words_and_keys(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--demo", "job", "GQ-0149", "--json"]) == 0
    times = json.loads(capsys.readouterr().out)["times"]
    assert {one["product"] for one in times["boards"]} == {"OAK-190"}
    assert [one["step"] for one in times["steps"] if one["decides"]][-1] == "handover"
    assert not any("." in (one["latest"] or "") for one in times["steps"])
    assert main(["--demo", "job", "GQ-0149"]) == 0
    assert "Times, for planning\n" in capsys.readouterr().out
