"""A small window for tests: it opens one dialog and keeps its answer; and a firm, products and a moment."""

import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from textual.app import App
from textual.pilot import Pilot
from textual.screen import Screen

import tui
from store.trade.products import Board, Glue
from tui.theme import DARK, THEMES
from tui.typed.wall_clock import WallClock

GOLDEN = Path(__file__).parent / "golden"
ZONE = ZoneInfo("Europe/Brussels")
NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)  # Wed 25 Nov 2026 07:30 in Brussels
CLOCK = WallClock(now=NOW, zone=ZONE)
OAK = Board(
    id=1,
    rev=1,
    code="OAK-190",
    name="Oak, oiled",
    length_mm=1900,
    width_mm=190,
    thickness_mm=14,
    boards_per_pack=6,
    acclimatise_hours=168,
)
ASH = Board(
    id=2,
    rev=1,
    code="ASH-140",
    name="[/] Ash & Söhne",
    length_mm=1400,
    width_mm=140,
    thickness_mm=15,
    boards_per_pack=8,
    acclimatise_hours=72,
)
GLUE = Glue(
    id=3,
    rev=1,
    code="MS-15",
    name="Elastic glue",
    rate_g_per_m2=1000,
    tub_kg=15,
    open_time_min=40,
    walk_on_hours=24,
    full_load_hours=72,
)
NOTHING_YET = object()
HOSTILE = (
    "[/]",
    "[bold",
    "[@click=app.quit]x[/]",
    "a\x1b[31mb",
    "x" * 10_000,
    "\u202egnirtS\u202c שלום",
    ":house: é",
)


class ShopWindow(App[None]):
    """Opens one dialog and keeps what it answers."""

    CSS_PATH = Path(tui.__file__).parent / "app.tcss"

    def __init__(self, make: Callable[[], Screen[Any]], theme: str = DARK) -> None:
        super().__init__()
        self._make = make
        self._theme_wanted = theme
        self.answer: object = NOTHING_YET

    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = self._theme_wanted
        self.push_screen(self._make(), self._keep)

    def _keep(self, answer: object) -> None:
        self.answer = answer


def picture(app: App[Any]) -> str:
    """What the terminal shows, as plain text."""
    return "\n".join(strip.text.rstrip() for strip in app.screen._compositor.render_strips())


async def settled(app: App[Any], pilot: Pilot[Any]) -> str:
    """What the terminal shows once it has stopped changing, the footer and the scrolling bars included."""
    shown, same = "", 0
    for _ in range(500):
        await pilot.pause(0.02)
        now = picture(app)
        same = same + 1 if now == shown else 0
        shown = now
        if same == 5:
            return shown
    raise AssertionError(f"still changing:\n{shown}")


def assert_as_painted(shown: str, name: str) -> None:
    """Compare words with the picture on file; LAYDAY_PAINT=1 puts them on file instead."""
    path = GOLDEN / f"{name}.txt"
    if os.environ.get("LAYDAY_PAINT"):
        path.write_text(shown + "\n", encoding="utf-8")
    assert shown + "\n" == path.read_text(encoding="utf-8")


def match_picture(app: App[Any], name: str) -> None:
    """Compare what the terminal shows with the picture on file; LAYDAY_PAINT=1 puts it on file instead."""
    assert_as_painted(picture(app), name)


async def type_over(pilot: Pilot[None], text: str) -> None:
    """Type a text in place of what the field under the cursor holds."""
    await pilot.press("home", "shift+end", "delete")
    await pilot.press(*("space" if one == " " else one for one in text))


async def answer_all(pilot: Pilot[None], *answers: str | tuple[str, ...] | None) -> None:
    """Answer the fields one after another, each with Enter: a text is typed, keys pressed, None leaves it."""
    for answer in answers:
        if isinstance(answer, str):
            await type_over(pilot, answer)
        elif answer is not None:
            await one_by_one(pilot, *answer)
        await pilot.press("enter")
    await pilot.pause()


async def one_by_one(pilot: Pilot[None], *keys: str) -> None:
    """Press keys, each only when all that the last one set off is over."""
    for key in keys:
        await pilot.press(key)
        await pilot.pause()
