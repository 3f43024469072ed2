"""For tests of the lay and of the sums: the made-up firm's window, opened where it is wanted."""

import shutil
from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager, contextmanager
from datetime import UTC, datetime
from pathlib import Path

from textual.pilot import Pilot

from store.desk.clock import stopped_clock
from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from tests.tui.shop_window import picture
from tui.app import LaydayApp
from tui.doors import OpenLay
from tui.screens.lay import LayScreen
from tui.widgets.facts import Facts
from tui.widgets.lay_drawing import LayDrawing
from tui.widgets.safe import Line

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)  # Wed 25 Nov 2026 07:30 in Brussels


def made_up_firm(folder: Path) -> Path:
    """The made-up firm's records, in a file of their own."""
    path = folder / "made-up.layday"
    furnish(path, NOW)
    return path


@contextmanager
def desk_on(firm: Path, folder: Path) -> Iterator[Desk]:
    copy = folder / "copy.layday"
    shutil.copy(firm, copy)
    with open_desk(copy, clock=stopped_clock(NOW)) as desk:
        yield desk


@asynccontextmanager
async def window(desk: Desk, size: tuple[int, int] = (80, 24)) -> AsyncIterator[Pilot[None]]:
    app = LaydayApp(desk)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        yield pilot


async def open_lay(pilot: Pilot[None], ref: str, room: str) -> LayScreen:
    pilot.app.post_message(OpenLay(ref, room))
    await pilot.pause()
    screen = pilot.app.screen
    assert isinstance(screen, LayScreen)
    return screen


async def until(pilot: Pilot[None], happened: Callable[[], bool]) -> None:
    """Wait until something has happened; a test that waits in vain fails."""
    for _ in range(2000):
        if happened():
            return
        await pilot.pause(0.005)
    raise AssertionError(picture(pilot.app))


async def until_laid(pilot: Pilot[None]) -> None:
    """Wait for the search, and for what it told."""
    searching = [one for one in pilot.app.workers if one.group in {"lay", "sum", "what-if"}]
    if searching:  # Textual takes an empty list for all workers, the errand that waits for this very test among them
        await pilot.app.workers.wait_for_complete(searching)
    await pilot.pause()


def row_said(screen: LayScreen) -> str:
    return screen.query_one("#row", Line).words


def state_said(screen: LayScreen) -> str:
    return screen.query_one(".lay--state", Line).words


def facts_said(screen: LayScreen) -> str:
    return screen.query_one(Facts).words


def drawing(screen: LayScreen) -> LayDrawing:
    return screen.query_one(LayDrawing)
