"""Each section of a job's folder looks as it did, at two sizes."""

from pathlib import Path

import pytest

from tests.tui.firm_window import (
    NARROW,
    SECTIONS,
    WIDE,
    demo_desk,
    turn_to,
    window_on,
)
from tests.tui.shop_window import match_picture

SHOWN = {
    "survey": "GQ-0149",
    "orders": "GQ-0143",
    "readings": "GQ-0142",
    "laying": "GQ-0150",
    "close-out": "GQ-0148",
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
