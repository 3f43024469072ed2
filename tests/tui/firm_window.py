"""The window on a firm for tests: the made-up firm or a new one, with a clock that is moved on by hand."""

from collections.abc import AsyncIterator, Coroutine, Iterator
from contextlib import asynccontextmanager, contextmanager
from dataclasses import fields
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from textual.pilot import Pilot

from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from store.trade.firm import FirmDraft
from store.trade.products import BoardDraft, GlueDraft
from tests.tui.shop_window import GLUE, NOW, OAK, ZONE, picture
from tui.app import LaydayApp
from tui.doors import OpenJob
from tui.folder.sections import Section
from tui.screens.folder import FolderScreen

NARROW, WIDE = (80, 24), (120, 36)


class MovingClock:
    """Shows the moment it was moved on to."""

    def __init__(self, shows: datetime = NOW) -> None:
        self.shows = shows

    def __call__(self) -> datetime:
        return self.shows

    def show(self, day: int, hour: int, minute: int = 0, *, month: int = 11) -> None:
        """Move on to a moment of 2026 on the firm's wall clock."""
        self.shows = datetime(2026, month, day, hour, minute, tzinfo=ZONE).astimezone(UTC)


@cache
def _made_up_firm() -> bytes:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "demo.layday"
        furnish(path, NOW)
        return path.read_bytes()


@contextmanager
def demo_desk(folder: Path, clock: MovingClock | None = None) -> Iterator[Desk]:
    """Open the desk on the made-up firm as it stands on Wed 25 Nov 2026 07:30."""
    path = folder / "demo.layday"
    path.write_bytes(_made_up_firm())
    with open_desk(path, clock=clock or MovingClock(), who="Maren Holt") as desk:
        yield desk


@contextmanager
def new_desk(folder: Path, clock: MovingClock) -> Iterator[Desk]:
    """Open the desk on new records: a firm, one board and one glue."""
    with open_desk(folder / "new.layday", clock=clock, who="Maren Holt", create=True) as desk:
        desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
        desk.firm.add_person("Maren Holt")
        for draft, product in ((BoardDraft, OAK), (GlueDraft, GLUE)):
            desk.products.add(draft(**{field.name: getattr(product, field.name) for field in fields(draft)}))
        yield desk


@asynccontextmanager
async def window_on(desk: Desk, ref: str = "", size: tuple[int, int] = NARROW) -> AsyncIterator[Pilot[None]]:
    """Open the window on a desk, with a job's folder in it if one is named."""
    app = LaydayApp(desk)
    async with app.run_test(size=size, notifications=True) as pilot:
        await pilot.pause()
        if ref:
            app.post_message(OpenJob(ref))
            await pilot.pause()
            await pilot.pause()
        yield pilot


def told(pilot: Pilot[Any]) -> str:
    """The sentences told in toasts so far, the latest last."""
    return "\n".join(one.message for one in pilot.app._notifications)


def seen(pilot: Pilot[Any]) -> str:
    """What the terminal shows, its lines joined by single blanks and frames left out, for words that are wrapped."""
    return " ".join(picture(pilot.app).replace("│", " ").split())


async def set_out(pilot: Pilot[Any], errand: Coroutine[None, None, object]) -> None:
    """Begin an errand from the screen that is shown."""
    pilot.app.screen.run_worker(errand)
    await pilot.pause()
    await pilot.pause()


async def press(pilot: Pilot[Any], key: str) -> None:
    """Press a key that opens a form, and wait until it is open."""
    await pilot.press(key)
    await pilot.pause()
    await pilot.pause()


SECTIONS = [section.value for section in Section]


async def turn_to(pilot: Pilot[None], section: str) -> None:
    screen = folder(pilot)
    for _ in SECTIONS:
        if screen.pane.section.value == section:
            return
        await press(pilot, "right")
    raise AssertionError(section)


def folder(pilot: Pilot[None]) -> FolderScreen:
    screen = pilot.app.screen
    assert isinstance(screen, FolderScreen)
    return screen
