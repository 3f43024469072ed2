"""The shop as it stands before a deed."""

from pathlib import Path

import pytest

from tests.desk.shop_floor import furnished
from tests.tui.somebodys_folder import in_a_hurry

_MADE: dict[str, bytes] = {}


@pytest.fixture
def records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file of its own for each test, with three jobs: one fresh, one being laid, one laid."""
    in_a_hurry(monkeypatch)
    path = tmp_path / "records.layday"
    if "shop" not in _MADE:
        _MADE["shop"] = furnished(path).read_bytes()
    path.write_bytes(_MADE["shop"])
    path.chmod(0o600)
    return path
