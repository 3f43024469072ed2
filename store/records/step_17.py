"""The seventeenth step: lessons know what was paid. Those on file are taken out, and filled by the desk anew.

The text of a step is never changed once it has been released; a later step can only add.
"""

_COLUMNS = (
    "paid_packs INTEGER NOT NULL DEFAULT 0 CHECK (paid_packs >= 0)",
    "paid_minor INTEGER NOT NULL DEFAULT 0 CHECK (paid_minor >= 0)",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the seventeenth step, in the order it is run."""
    tables = ("floor_lesson", "glue_lesson")
    return (
        *(f"DELETE FROM {table}" for table in tables),  # noqa: S608 - names from this file
        *(f"ALTER TABLE {table} ADD COLUMN {column}" for table in tables for column in _COLUMNS),
    )
