"""How the file came to have the tables it has: one plain function of SQL for each release that added to them.

``PRAGMA user_version`` says how many steps a file has been through. A step, once released, is never edited.
"""

import sqlite3
from collections.abc import Callable

from store.records import (
    step_1,
    step_2,
    step_3,
    step_4,
    step_5,
    step_6,
    step_7,
    step_8,
    step_9,
    step_10,
    step_11,
    step_12,
    step_13,
    step_14,
    step_15,
    step_16,
    step_17,
)
from store.records.seals import seal_all

APPLICATION_ID = 0x4C617964
"""“Layd”, at byte 68 of every file of ours: how we know our own."""

Step = Callable[[sqlite3.Connection], None]


def first_tables(connection: sqlite3.Connection) -> None:
    """Make every table of the first release."""
    for statement in step_1.statements():
        connection.execute(statement)


def lay_plans(connection: sqlite3.Connection) -> None:
    """Make the table of lay plans."""
    for statement in step_2.statements():
        connection.execute(statement)


def surveyed(connection: sqlite3.Connection) -> None:
    """Add packs of several lengths, doorways, fixed things, patterns and borders."""
    for statement in step_3.statements():
        connection.execute(statement)


def evidence(connection: sqlite3.Connection) -> None:
    """Add what stands behind a reading, and the reading it was put right from."""
    for statement in step_4.statements():
        connection.execute(statement)


def signed_verdicts(connection: sqlite3.Connection) -> None:
    """Add limits of one's own, heating, old floors, training, the morning list, and what makes readings void."""
    for statement in step_5.statements():
        connection.execute(statement)


def diary(connection: sqlite3.Connection) -> None:
    """Add what people can do, when they are away, and who is booked where."""
    for statement in step_6.statements():
        connection.execute(statement)


def lead_times(connection: sqlite3.Connection) -> None:
    """Add the days from an order of a product to its delivery."""
    for statement in step_7.statements():
        connection.execute(statement)


def single_figures(connection: sqlite3.Connection) -> None:
    """Add single figures behind a mean, a probe's check, a sample's part of the screed, and grids of levels."""
    for statement in step_8.statements():
        connection.execute(statement)


def seals(connection: sqlite3.Connection) -> None:
    """Add the chain of seals, and seal what is on file."""
    for statement in step_9.statements():
        connection.execute(statement)
    seal_all(connection)


def suppliers(connection: sqlite3.Connection) -> None:
    """Add the firm's suppliers, and from which of them a product is bought."""
    for statement in step_10.statements():
        connection.execute(statement)


def stock_takes(connection: sqlite3.Connection) -> None:
    """Make the table of what stock-takes found or missed."""
    for statement in step_11.statements():
        connection.execute(statement)


def own_lines(connection: sqlite3.Connection) -> None:
    """Make the table of lines of a take-off that were set by hand."""
    for statement in step_12.statements():
        connection.execute(statement)


def order_terms(connection: sqlite3.Connection) -> None:
    """Add prices to orders, and make the tables of what suppliers confirmed and credited."""
    for statement in step_13.statements():
        connection.execute(statement)


def materials(connection: sqlite3.Connection) -> None:
    """Add materials as products, flights of stairs, and let lines set by hand name a material."""
    for statement in step_14.statements():
        connection.execute(statement)


def lessons(connection: sqlite3.Connection) -> None:
    """Make the tables of what closed jobs taught; the desk fills them."""
    for statement in step_15.statements():
        connection.execute(statement)


def damage_claims(connection: sqlite3.Connection) -> None:
    """Let a credit say what it is for, and how many packs were sent in the place of damaged ones."""
    for statement in step_16.statements():
        connection.execute(statement)


def paid_lessons(connection: sqlite3.Connection) -> None:
    """Let lessons say what was paid; the desk fills them anew."""
    for statement in step_17.statements():
        connection.execute(statement)


STEPS: tuple[Step, ...] = (
    first_tables,
    lay_plans,
    surveyed,
    evidence,
    signed_verdicts,
    diary,
    lead_times,
    single_figures,
    seals,
    suppliers,
    stock_takes,
    own_lines,
    order_terms,
    materials,
    lessons,
    damage_claims,
    paid_lessons,
)


def step_up(connection: sqlite3.Connection, steps: tuple[Step, ...]) -> None:
    """Run the steps a file has not been through yet, each whole or not at all.

    Args:
        connection: open in autocommit.
        steps: all steps there are, from the first.
    """
    while version_of(connection) < len(steps):
        connection.execute("BEGIN IMMEDIATE")
        try:
            # Asked again under the lock: another window may have run the step while this one waited.
            version = version_of(connection)
            if version < len(steps):
                steps[version](connection)
                connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
                connection.execute(f"PRAGMA user_version = {version + 1}")
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise


def version_of(connection: sqlite3.Connection) -> int:
    """Return how many steps a file has been through."""
    version: int = connection.execute("PRAGMA user_version").fetchone()[0]
    return version
