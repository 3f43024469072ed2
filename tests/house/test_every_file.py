"""The house's rules that a machine can check, file by file."""

import ast
import functools
import re
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
SHOP = sorted(path for room in ("store", "tui") for path in (ROOT / room).rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))
MOST_LINES = 400
SHOWS = {"Static", "Label", "notify"}
SAFE = {"tui/widgets/safe.py", "tui/telling.py"}


def named(path: Path) -> str:
    return str(path.relative_to(ROOT))


@functools.cache
def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8")


@functools.cache
def parts_of(path: Path) -> list[ast.AST]:
    return list(ast.walk(ast.parse(text_of(path))))


def test_there_are_files_to_look_at() -> None:
    assert len(SHOP) > 100
    assert len(TESTS) > 50


def test_every_file_opens_with_one_sentence() -> None:
    def opens_well(path: Path) -> bool:
        said = ast.get_docstring(ast.parse(text_of(path))) or " "
        sentence = said.split("\n\n")[0]
        return (sentence[0].isupper() or sentence.startswith("``")) and sentence.rstrip()[-1:] in {".", "?"}

    assert [named(path) for path in SHOP + TESTS if not opens_well(path)] == []


def test_every_file_can_be_read_at_a_sitting() -> None:
    lengths = {named(path): text_of(path).count("\n") for path in SHOP + TESTS}
    assert {name: lines for name, lines in lengths.items() if lines > MOST_LINES} == {}


def test_a_rooms_door_plate_says_what_it_is_and_does_nothing() -> None:
    for path in SHOP:
        if path.name == "__init__.py":
            body = ast.parse(text_of(path)).body
            assert len(body) == 1, named(path)
            assert ast.get_docstring(ast.parse(text_of(path))), named(path)


def test_tests_are_known_by_their_names_alone() -> None:
    assert [named(path) for path in TESTS if path.name == "__init__.py"] == []
    times = Counter(path.name for path in TESTS)
    assert [name for name, many in times.items() if many > 1 and name != "conftest.py"] == []


def test_no_test_is_skipped_expected_to_fail_or_asleep() -> None:
    idle = {"skip", "skipif", "xfail", "importorskip", "sleep"}
    found = [
        f"{named(path)}:{one.lineno}"
        for path in TESTS
        if "bench" not in path.parts
        for one in parts_of(path)
        if isinstance(one, ast.Attribute | ast.Name)
        and (one.attr if isinstance(one, ast.Attribute) else one.id) in idle
    ]
    assert found == []


def test_nothing_is_caught_wholesale() -> None:
    found = [
        f"{named(path)}:{one.lineno}"
        for path in SHOP
        for one in parts_of(path)
        if isinstance(one, ast.ExceptHandler)
        and (one.type is None or (isinstance(one.type, ast.Name) and one.type.id == "Exception"))
    ]
    assert found == []


def test_nothing_is_silenced_wholesale_or_left_for_later() -> None:
    blunt = re.compile(r"# type: ignore(?!\[)|# noqa(?!:)|\bTODO\b|\bFIXME\b")
    assert [named(path) for path in SHOP if blunt.search(text_of(path))] == []


def _calls(path: Path) -> list[tuple[str, ast.Call]]:
    calls = [one for one in parts_of(path) if isinstance(one, ast.Call)]
    return [(getattr(one.func, "id", getattr(one.func, "attr", "")), one) for one in calls]


def test_only_words_of_our_own_are_given_to_what_obeys_markup() -> None:
    found = [
        f"{named(path)}:{call.lineno}"
        for path in SHOP
        if named(path).startswith("tui") and named(path) not in SAFE
        for name, call in _calls(path)
        if name in SHOWS and call.args and not isinstance(call.args[0], ast.Constant)
    ]
    assert found == []


def test_nothing_on_file_is_ever_run() -> None:
    found = [
        f"{named(path)}:{call.lineno}"
        for path in SHOP
        for name, call in _calls(path)
        if name in {"eval", "exec", "from_markup", "system", "popen"}
        or any(key.arg == "shell" for key in call.keywords)
    ]
    assert found == []
