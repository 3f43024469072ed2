"""What the README says is so: its commands, its options, its setup; and the project file names what the code needs."""

import ast
import os
import re
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.tui.somebodys_folder import run

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BOOK: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PROJECT: dict[str, Any] = BOOK["project"]


def test_every_command_in_the_readmes_table_is_one() -> None:
    table = README[README.index("| command |") : README.index("\n\n", README.index("| command |"))]
    named = set(re.findall(r"`layday ([a-z]+)", table))
    asked = {"today", "job", "taught", "sum", "diary", "calendar", "check"}
    assert named == asked | {"export", "import", "backup", "restore"}
    assert all(run(command, "--help").status == 0 for command in named)


def test_every_option_in_the_readme_is_one() -> None:
    told = "".join(run(*asked, "--help").said for asked in ((), ("export",), ("diary",), ("calendar",)))
    for option in set(re.findall(r"(?<!\w)(--[a-z]+)", README)):
        assert option in told, option


def test_the_readme_and_the_project_ask_for_the_same_python() -> None:
    (least,) = re.findall(r"Python (3\.\d+) or newer", README)
    assert PROJECT["requires-python"] == f">={least}"
    assert BOOK["tool"]["ruff"]["target-version"] == f"py{least.replace('.', '')}"


def test_the_command_that_is_installed_is_the_one_that_is_tested() -> None:
    assert PROJECT["scripts"] == {"layday": "tui.cli:main"}


def test_the_tests_are_run_as_the_readme_says_by_people_and_by_the_machine() -> None:
    command = re.findall(r"^(python3 -m venv .*pytest.*)$", README, re.MULTILINE)
    assert len(command) == 1
    assert "'.[dev]'" in command[0]
    assert "dev" in PROJECT["optional-dependencies"]
    gate = ROOT / ".ci" / "run"
    assert os.access(gate, os.X_OK)
    for tool in ("ruff format --check", "ruff check", "mypy", "lint-imports"):
        assert tool in gate.read_text(encoding="utf-8")


def test_what_is_shipped_is_there() -> None:
    wheel = BOOK["tool"]["hatch"]["build"]["targets"]["wheel"]["only-include"]
    assert set(wheel) == {"tui", "store", "demo_data"}
    assert all((ROOT / name).is_dir() for name in wheel)
    assert (ROOT / PROJECT["readme"]).is_file()
    assert all((ROOT / name).is_file() for name in PROJECT["license-files"])


def test_the_code_needs_what_the_project_names_and_the_project_names_what_the_code_needs() -> None:
    needed: set[str] = set()
    for room in ("store", "tui"):
        for path in (ROOT / room).rglob("*.py"):
            for one in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(one, ast.Import):
                    needed |= {alias.name.split(".")[0] for alias in one.names}
                elif isinstance(one, ast.ImportFrom):
                    needed.add((one.module or "").split(".")[0])
    needed -= {*sys.stdlib_module_names, "store", "tui", "demo_data"}
    sold_as = {"dateutil": "python-dateutil"}
    asked = {re.split(r"[><=\[; ]", one)[0] for one in PROJECT["dependencies"]}
    # The clock data has no name of its own in the code: zoneinfo looks for it.
    assert {sold_as.get(name, name) for name in needed} == asked - {"tzdata"}


@pytest.mark.parametrize("word", ["Gannet Quay Floors", "not encrypted", "MIT"])
def test_the_readme_says_what_a_stranger_must_know(word: str) -> None:
    assert word in README


def test_every_link_in_the_readme_that_stays_in_the_house_leads_somewhere() -> None:
    for target in re.findall(r"\]\((?!https?://|#)([^)#]+)", README):
        assert (ROOT / target).exists(), target
