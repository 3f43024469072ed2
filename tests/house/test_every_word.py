"""A table keyed by the kinds of something has a line for every kind, or says here which it leaves out on purpose."""

import importlib
import pkgutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from enum import Enum

import store
import tui
from store.trade.verdict import DeedKind, NextDeed
from tui.words.deeds import say_deed
from tui.words.today import say_briefly

LEFT_OUT = {
    "store.records.filed_movements._DESTINATIONS": "places a count cannot go to",
    "store.trade.buying.steps._PIECE_OF": "only what is cut for stairs",
    "store.trade.holds_base.QUIET_DAYS": "the others have the usual days",
    "store.trade.standing._ANSWERS": "reasons for which nobody need do anything",
    "tui.folder.sections._BY_DEED": "the others show in Readings",
    "tui.words.holds.SENTENCES": "a part of the table of holds",
    "tui.words.holds_base.SENTENCES": "a part of the table of holds",
    "tui.words.lays._KEPT": "of a whole board nothing is kept",
    "tui.words.morning._SHORT": "the others are said with their figures",
    "tui.words.stock._PLACES": "a room is said by its name",
    "tui.words.times._OF_A_BOARD": "the others are about a room",
    "tui.words.times._IN_A_ROOM": "the others are about a board",
}
"""The tables that are short on purpose, and what they leave out."""


def tables() -> Iterator[tuple[str, type[Enum], set[Enum]]]:
    for room in (store, tui):
        for found in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
            for name, value in vars(importlib.import_module(found.name)).items():
                if isinstance(value, dict) and value:
                    kinds = {type(key) for key in value}
                    if len(kinds) == 1 and issubclass(kind := kinds.pop(), Enum):
                        yield f"{found.name}.{name}", kind, set(value)


def test_no_kind_is_forgotten_in_a_table_of_kinds() -> None:
    found = list(tables())
    assert len(found) > 30
    short = {name: sorted(one.name for one in set(kind) - keys) for name, kind, keys in found if set(kind) - keys}
    assert {name: gone for name, gone in short.items() if name not in LEFT_OUT} == {}
    assert set(LEFT_OUT) <= set(short), "these are whole by now"


def test_every_deed_has_words_in_the_days_list_and_in_the_folder() -> None:
    now = datetime(2026, 11, 25, 7, 30, tzinfo=UTC)
    for kind in DeedKind:
        for deed in (
            NextDeed(kind=kind),
            NextDeed(kind=kind, room="Hall", product="MS-15", packs=2, not_before=now + timedelta(days=1)),
        ):
            assert all(say_briefly(deed, now, UTC))
            assert say_deed(deed, now, UTC)
