"""Imports go downhill, each room speaks its own language, and a command costs no more than what it asks for."""

import ast
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.desk.shop_floor import furnished
from tui.version import VERSION

ROOT = Path(__file__).parents[2]
BOOK: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def imported_by(path: Path) -> set[str]:
    """The modules that a file names, wherever in it."""
    found: set[str] = set()
    for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(one, ast.Import):
            found |= {alias.name for alias in one.names}
        elif isinstance(one, ast.ImportFrom):
            assert one.level == 0, path
            found.add(one.module or "")
    return found


def files_of(room: str) -> list[Path]:
    place = ROOT / room.replace(".", "/")
    return [place.with_suffix(".py")] if place.with_suffix(".py").exists() else sorted(place.rglob("*.py"))


def within(module: str, room: str) -> bool:
    return module == room or module.startswith(room + ".")


FORBIDDEN = [
    ("store.errors", ("store.", "tui")),
    ("store.trade", ("store.desk", "store.records", "store.papers", "tui")),
    ("store.records", ("store.desk", "store.papers", "tui")),
    ("store.papers", ("store.desk", "store.records", "tui")),
    ("store.desk", ("tui",)),
    ("tui", ("store.records",)),
    ("store", ("textual", "rich")),
    ("tui", ("peewee", "playhouse", "sqlite3")),
    ("store.desk", ("peewee", "playhouse", "sqlite3")),
    ("store.papers", ("peewee", "playhouse", "sqlite3")),
    ("store.trade", ("peewee", "playhouse", "sqlite3", "os", "pathlib", "time")),
]


@pytest.mark.parametrize(("room", "others"), FORBIDDEN, ids=[f"{room} from {others[0]}" for room, others in FORBIDDEN])
def test_a_room_knows_nothing_of_the_rooms_above_it(room: str, others: tuple[str, ...]) -> None:
    for path in files_of(room):
        knows = {one for one in imported_by(path) for other in others if within(one, other.rstrip("."))}
        if room == "store.errors":
            knows -= {"store.errors"}
        assert knows == set(), path


def test_the_trade_needs_nothing_but_python() -> None:
    for path in files_of("store.trade"):
        others = {one.split(".")[0] for one in imported_by(path)} - set(sys.stdlib_module_names) - {"store"}
        assert others <= {"dateutil"}, path


def test_the_wall_clock_is_looked_at_in_one_place() -> None:
    for path in [*files_of("store"), *files_of("tui")]:
        for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(one, ast.Attribute) and one.attr in {"now", "utcnow", "today"}:
                whose = getattr(one.value, "id", getattr(one.value, "attr", ""))
                clock = path == ROOT / "store/desk/clock.py"
                assert clock or whose not in {"datetime", "date"}, path


def test_the_import_contracts_stand_in_the_project_file() -> None:
    contracts = BOOK["tool"]["importlinter"]["contracts"]
    layers = next(one for one in contracts if one["type"] == "layers")
    assert layers["layers"] == ["tui", "store.desk", "store.records | store.papers", "store.trade", "store.errors"]
    forbidden = {
        (source, target)
        for one in contracts
        if one["type"] == "forbidden"
        for source in one["source_modules"]
        for target in one["forbidden_modules"]
    }
    assert forbidden >= {("tui", "store.records"), ("tui", "peewee"), ("store.desk", "peewee"), ("store", "textual")}
    assert any(one["type"] == "independence" and one["modules"] == ["tui.screens.*"] for one in contracts)


def loaded(*arguments: str) -> set[str]:
    """The modules that are in memory once a command has answered."""
    asking = (
        "import sys; from tui.cli import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "sys.stderr.write(' '.join(sys.modules))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", asking, *arguments], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(ran.stderr.split()[-5000:])


def test_asking_for_the_version_or_for_help_pays_for_nothing_else() -> None:
    for asked in ("--version", "--help"):
        dear = {
            "textual",
            "peewee",
            "rich",
            "tui.app",
            "tui.command.commands",
            "store.desk.desk",
            "dateutil",
            "zoneinfo",
        }
        assert loaded(asked) & dear == set()


def test_an_answer_in_text_never_pays_for_the_screens(tmp_path: Path) -> None:
    path = tmp_path / "records.layday"
    furnished(path)
    assert loaded("--file", str(path), "today") & {"textual", "rich", "tui.app"} == set()


def test_a_sum_never_pays_for_the_screens() -> None:
    assert loaded("sum", "emc", "--temp", "20", "--rh", "50") & {"textual", "rich.console", "tui.app"} == set()


def test_the_version_is_the_projects() -> None:
    assert BOOK["project"]["dynamic"] == ["version"]
    assert BOOK["tool"]["hatch"]["version"]["path"] == "tui/version.py"
    assert VERSION.count(".") >= 2
    assert VERSION in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
