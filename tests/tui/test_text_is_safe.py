"""No words on file reach a widget that would obey markup in them: such widgets only take literal words."""

import ast
from pathlib import Path

import pytest

import tui

OBEY_MARKUP = {
    "Static",
    "Label",
    "Button",
    "Checkbox",
    "RadioButton",
    "Collapsible",
    "TabPane",
    "Tab",
    "Option",
    "Placeholder",
    "notify",
    "add_column",
    "add_columns",
    "add_row",
}
SAFE = {"plain", "cell", "Content", "Text"}
SOURCES = sorted(path for path in Path(tui.__file__).parent.rglob("*.py") if path.name not in {"safe.py", "telling.py"})


def is_safe(argument: ast.expr) -> bool:
    if isinstance(argument, ast.Starred):
        return is_safe(argument.value)
    if isinstance(argument, ast.GeneratorExp):
        return is_safe(argument.elt)
    if isinstance(argument, ast.IfExp):
        return is_safe(argument.body) or is_safe(argument.orelse)
    if isinstance(argument, ast.Call):
        return isinstance(argument.func, ast.Name) and argument.func.id in SAFE
    return isinstance(argument, ast.Constant)


def unsafe_calls(source: str) -> list[str]:
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in OBEY_MARKUP and not all(is_safe(one) for one in node.args):
                found.append(f"line {node.lineno}: {ast.unparse(node)[:80]}")
        if isinstance(node, ast.Assign):
            for target in node.targets:
                titled = isinstance(target, ast.Attribute) and target.attr in {
                    "border_title",
                    "border_subtitle",
                    "tooltip",
                }
                if titled and not is_safe(node.value):
                    found.append(f"line {node.lineno}: {ast.unparse(node)[:80]}")
    return found


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.name)
def test_widgets_that_obey_markup_take_only_literal_or_safe_words(path: Path) -> None:
    assert unsafe_calls(path.read_text(encoding="utf-8")) == []


def test_the_search_finds_what_it_looks_for() -> None:
    assert unsafe_calls("yield Static(name)\napp.notify(f'{name}')\nself.border_title = name") != []
    assert unsafe_calls("yield Static('Words')\nyield Button(plain(name))\ntable.add_row(*(cell(n) for n in x))") == []
