"""What every test of the window needs: quicker waiting, and one firm, one job and one moment to show."""

import importlib

import pytest


def pytest_configure(config: pytest.Config) -> None:
    wait = importlib.import_module("textual._wait")
    if hasattr(wait, "SLEEP_GRANULARITY") and hasattr(wait, "SLEEP_IDLE"):
        wait.SLEEP_GRANULARITY = 1 / 500
        wait.SLEEP_IDLE = wait.SLEEP_GRANULARITY / 4
