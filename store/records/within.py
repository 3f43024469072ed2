"""Conditions that several drawers share: one of many, of these jobs, not taken back."""

import json
from collections.abc import Collection

from peewee import SQL, Expression, fn

from store.records.event_tables import TakenBackRow
from store.records.fields import Written
from store.records.rows import Row

MOST_ASKED = 500
"""So many texts are asked for by name; for more of them, all are read and the wanted ones picked."""


def one_of(field: Written, some: Collection[int] | Collection[str]) -> Expression:
    """Whether a column is one of these; they travel as one parameter, so there is no most of them."""
    listed = json.dumps(list(some))
    among: Expression = field.in_(SQL("(SELECT value FROM json_each(?))", [listed]))
    return among


def stands(row: type[Row], kind: str) -> Expression:
    """Whether a row has not been taken back."""
    taken = TakenBackRow.select(SQL("1")).where(TakenBackRow.kind == kind, TakenBackRow.row_id == row.id)
    standing: Expression = ~fn.EXISTS(taken)
    return standing
