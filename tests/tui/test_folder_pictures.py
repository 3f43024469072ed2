"""Each section of a job's folder looks as it did, at two sizes."""

from pathlib import Path

import pytest

from tests.tui.firm_window import (
    NARROW,
    SECTIONS,
    WIDE,
    demo_desk,
    press,
    turn_to,
    window_on,
)
from tests.tui.shop_window import answer_all, match_picture, picture

SHOWN = {
    "survey": "GQ-0149",
    "orders": "GQ-0143",
    "readings": "GQ-0142",
    "laying": "GQ-0150",
    "close-out": "GQ-0148",
    "times": "GQ-0149",
    "history": "GQ-0146",
}


@pytest.mark.parametrize("size", [NARROW, WIDE], ids=["80x24", "120x36"])
@pytest.mark.parametrize("section", SECTIONS)
async def test_each_section_looks_as_it_did(tmp_path: Path, section: str, size: tuple[int, int]) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, SHOWN[section], size) as pilot:
            await turn_to(pilot, section)
            await pilot.pause()
            match_picture(pilot.app, f"folder_{section}_{size[0]}x{size[1]}")


async def test_the_packs_of_a_job_keep_to_their_lines_in_the_smallest_window(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0143", (60, 18)) as pilot:
            await turn_to(pilot, "orders")
            await pilot.pause()
            assert " Packs    needed  ordered  unit  on site  ready  used  left\n OAK-190 " in picture(pilot.app)


async def test_a_floor_laid_within_the_day_says_till_what_hour(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0150") as pilot:
            await press(pilot, "l")
            await answer_all(pilot, "24/11 16:00", "8")
            await pilot.press("ctrl+s")
            await pilot.pause()
            await turn_to(pilot, "laying")
            await pilot.pause()
            assert "8.00 m² to 16:00" in picture(pilot.app)
