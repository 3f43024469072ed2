"""An import is one deed: wherever it breaks off, nothing of it is on file, and a new file is not left behind."""

import json
from pathlib import Path

import pytest

from store.desk.copies import import_into
from store.records.events import EventDrawer
from store.records.jobs import JobDrawer
from store.records.products import ProductDrawer
from tests.desk.shop_floor import Hand, dump, history
from tests.tui.somebodys_folder import WHOLE, board, folder, glue, job

MORE = json.dumps(folder(WHOLE, job("AFTER"), products=[board(), glue(), board("ELM-160")])).encode()
PLACES = [
    (ProductDrawer, "add"),
    (JobDrawer, "add"),
    (EventDrawer, "add_order"),
    (EventDrawer, "add_delivery"),
    (EventDrawer, "add_reading"),
    (EventDrawer, "add_laying"),
    (EventDrawer, "add_count"),
    (EventDrawer, "add_handover"),
    (JobDrawer, "mark_closed"),
]


@pytest.mark.parametrize(("drawer", "name"), PLACES, ids=[f"{drawer.__name__}.{name}" for drawer, name in PLACES])
def test_an_import_that_breaks_off_anywhere_leaves_nothing_of_it(
    records: Path, drawer: type, name: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    said = dump(records)
    with monkeypatch.context() as broken:
        broken.setattr(drawer, name, _break_off)
        with pytest.raises(ZeroDivisionError):
            import_into(records, MORE, clock=Hand(), who="Ode")
        with pytest.raises(ZeroDivisionError):
            import_into(tmp_path / "new.layday", MORE, clock=Hand(), who="Ode")
    assert dump(records) == said
    assert not (tmp_path / "new.layday").exists()
    import_into(records, MORE, clock=Hand(), who="Ode")
    assert history(records)[-1] == ("Ode", "job taken in from a folder", "AFTER")


def _break_off(*_: object, **__: object) -> None:
    raise ZeroDivisionError
