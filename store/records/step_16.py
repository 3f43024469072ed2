"""The sixteenth step: what a credit is for, packs that went back or packs that came damaged, and packs sent instead.

The text of a step is never changed once it has been released; a later step can only add.
"""

_COLUMNS = (
    "owed_for TEXT NOT NULL DEFAULT 'return' CHECK (owed_for IN ('return', 'damage'))",
    "replaced_packs INTEGER NOT NULL DEFAULT 0 CHECK (replaced_packs BETWEEN 0 AND 100000)",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the sixteenth step, in the order it is run."""
    return tuple(f"ALTER TABLE credit ADD COLUMN {column}" for column in _COLUMNS)
