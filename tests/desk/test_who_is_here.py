"""Who is named in the history when nobody has said who is at the desk."""

from pathlib import Path

from store.desk.desk import open_desk
from store.trade.firm import FirmDraft


def firm_of(path: Path, *names: str) -> None:
    with open_desk(path, create=True) as desk:
        desk.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
        for name in names:
            desk.firm.add_person(name)


def test_where_nobody_is_on_file_nobody_is_named(tmp_path: Path) -> None:
    firm_of(tmp_path / "records.layday")
    with open_desk(tmp_path / "records.layday") as desk:
        assert desk.firm.sit_down_again() == ""


def test_the_first_on_file_sits_down_until_somebody_has_done_something(tmp_path: Path) -> None:
    firm_of(tmp_path / "records.layday", "Maren Holt", "Nils Aaker")
    with open_desk(tmp_path / "records.layday") as desk:
        assert desk.firm.sit_down_again() == "Maren Holt"


def test_whoever_did_the_last_thing_sits_down_again(tmp_path: Path) -> None:
    path = tmp_path / "records.layday"
    firm_of(path, "Maren Holt", "Nils Aaker")
    with open_desk(path, who="Nils Aaker") as desk:
        desk.firm.add_person("Tove Ruud")
    with open_desk(path) as desk:
        assert desk.firm.sit_down_again() == "Nils Aaker"
        desk.firm.add_person("Somebody new")
    with open_desk(path) as desk:
        assert desk.firm.at_the_desk == ""


def test_somebody_who_is_named_already_stays(tmp_path: Path) -> None:
    path = tmp_path / "records.layday"
    firm_of(path, "Maren Holt")
    with open_desk(path, who="The office") as desk:
        assert desk.firm.sit_down_again() == "The office"
