"""What every test of the window needs: waiting a busy machine does not cut short, and a shop asked by commands."""

import importlib
from pathlib import Path

import pytest

from tests.tui.quiet_loop import wait_until_quiet
from tests.tui.somebodys_folder import READY, Shop, folder, in_a_hurry


def pytest_configure(config: pytest.Config) -> None:
    for name in ("textual._wait", "textual.pilot", "textual.app"):
        module = importlib.import_module(name)
        assert hasattr(module, "wait_for_idle"), f"{name} waits in another way now: see quiet_loop.py"
        module.wait_for_idle = wait_until_quiet


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    """A shop reached through the command line, with no records yet."""
    in_a_hurry(monkeypatch)
    return Shop(tmp_path)


@pytest.fixture
def open_shop(shop: Shop) -> Shop:
    """The same with one job on file, its packs in the room."""
    shop.take_in(folder(READY))
    return shop
