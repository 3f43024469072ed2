"""The made-up firm as it stands on Wed 25 Nov 2026 at 07:30, and a window onto it."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from textual.app import App
from textual.pilot import Pilot

from store.desk.clock import stopped_clock
from store.desk.desk import Desk, open_desk
from store.trade.firm import FirmDraft
from tests.tui.shop_window import NOW
from tests.tui.whole_window import _furnished


@contextmanager
def made_up_desk(path: Path) -> Iterator[Desk]:
    """Open the desk of the made-up firm, moved in at ``path``."""
    shutil.copy(_furnished(), path)
    with open_desk(path, clock=stopped_clock(NOW)) as desk:
        yield desk


@contextmanager
def new_desk(path: Path) -> Iterator[Desk]:
    """Open the desk of a firm that has nothing on file but its name."""
    with open_desk(path, clock=stopped_clock(NOW), create=True) as desk:
        desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
        yield desk


@contextmanager
def second_window(desk: Desk) -> Iterator[Desk]:
    """Open a desk on the same records, as another window of the firm does."""
    with open_desk(desk.path, clock=stopped_clock(NOW), who="the other window") as other:
        yield other


async def press(pilot: Pilot[Any], *keys: str) -> None:
    """Press keys, each once all that the last one set off is over."""
    for key in keys:
        await pilot.press(key)
        await pilot.pause()


async def write(pilot: Pilot[Any], text: str) -> None:
    """Type a text in place of what the field under the cursor holds."""
    await pilot.press("home", "shift+end", "delete", *(_KEYS.get(one, one) for one in text))
    await pilot.pause()


def toasts(app: App[Any]) -> str:
    """What has been told in toasts, in the order of telling."""
    return "\n".join(one.message for one in app._notifications)


_KEYS = {" ": "space", "/": "slash", "-": "minus", ".": "full_stop", ":": "colon", ",": "comma", "_": "underscore"}
