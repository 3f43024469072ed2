"""The whole window over the made-up firm, at one stopped moment; and pictures of it to compare with."""

import functools
import shutil
import tempfile
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, contextmanager
from datetime import datetime
from pathlib import Path

from textual.pilot import Pilot

from store.desk.clock import stopped_clock
from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from store.trade.firm import FirmDraft
from tests.tui.shop_window import NOW, assert_as_painted, settled
from tui.app import LaydayApp

WIDE, SMALL = (120, 36), (80, 24)


@functools.cache
def _furnished() -> Path:
    path = Path(tempfile.mkdtemp(prefix="layday-tests-")) / "demo.layday"
    furnish(path, NOW)
    return path


@contextmanager
def demo_desk(folder: Path, now: datetime = NOW) -> Iterator[Desk]:
    """A desk over a copy of the made-up firm."""
    path = folder / "demo.layday"
    shutil.copy(_furnished(), path)
    with open_desk(path, clock=stopped_clock(now)) as desk:
        yield desk


@contextmanager
def empty_desk(folder: Path) -> Iterator[Desk]:
    """A desk over records that hold a firm and nothing else."""
    with open_desk(folder / "empty.layday", clock=stopped_clock(NOW), create=True) as desk:
        desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
        yield desk


@asynccontextmanager
async def demo_window(folder: Path, size: tuple[int, int] = SMALL) -> AsyncIterator[tuple[LaydayApp, Pilot[None]]]:
    """The window over the made-up firm."""
    with demo_desk(folder) as desk:
        async with window_on(desk, folder, size) as pair:
            yield pair


@asynccontextmanager
async def window_on(
    desk: Desk, folder: Path, size: tuple[int, int] = SMALL
) -> AsyncIterator[tuple[LaydayApp, Pilot[None]]]:
    """The window over a desk; a note of a crash would be left in the folder."""
    app = LaydayApp(desk, crash_folder=folder)
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        yield app, pilot


def toasts(app: LaydayApp) -> list[str]:
    """The sentences of the toasts shown."""
    return [note.message for note in app._notifications]


async def golden(app: LaydayApp, pilot: Pilot[None], name: str) -> None:
    """Compare the screen, once it has stopped changing, with its picture on file; LAYDAY_PAINT=1 draws it anew."""
    assert_as_painted(await settled(app, pilot), name)
