"""Sums asked by somebody who has the rule's text and no code: what each is about, what is typed, what is right."""

import shlex
from typing import Any

import pytest

from tests.tui.somebodys_folder import Ran, refused, run

Row = tuple[str, str, dict[str, object]]


def near(value: float, within: float) -> Any:
    """A figure that was worked out to so many places, or printed to so many."""
    return pytest.approx(value, abs=within)


def each(rows: list[Row]) -> list[Any]:
    """A case for each row, known by what it is about."""
    assert len({about for about, _, _ in rows}) == len(rows), "two rows are about the same"
    return [pytest.param(typed, right, id=about) for about, typed, right in rows]


def each_no(rows: list[tuple[str, str]]) -> list[Any]:
    """A case for each row that must be refused, known by what it is about."""
    assert len({about for about, _ in rows}) == len(rows), "two rows are about the same"
    return [pytest.param(typed, id=about) for about, typed in rows]


def ask(typed: str, *more: str) -> Ran:
    return run("sum", *shlex.split(typed), *more)


def answers(typed: str, right: dict[str, object]) -> None:
    """See that a sum is done, says nothing else, and has the right figures under the keys of the contract."""
    ran = ask(typed, "--json")
    assert (ran.status, ran.err) == (0, b""), ran
    assert {key: ran.answer[key] for key in right} == right


def refuses(typed: str) -> None:
    """See that a sum is refused alike in words and in JSON."""
    assert refused(ask(typed)) == refused(ask(typed, "--json"))
