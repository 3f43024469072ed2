"""What every test of the window and the command line needs: quicker waiting, and a shop asked by commands."""

import importlib
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import READY, Shop, folder, in_a_hurry


def pytest_configure(config: pytest.Config) -> None:
    wait = importlib.import_module("textual._wait")
    if hasattr(wait, "SLEEP_GRANULARITY") and hasattr(wait, "SLEEP_IDLE"):
        wait.SLEEP_GRANULARITY = 1 / 500
        wait.SLEEP_IDLE = wait.SLEEP_GRANULARITY / 4


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
