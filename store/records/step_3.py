"""The third step: packs of several lengths, and what a survey finds in a room beside its walls.

The text of a step is never changed once it has been released; a later step can only add.
"""

_LIST = "GLOB '[[]*]'"

_COLUMNS = (
    ("product", f"lengths TEXT CHECK (lengths {_LIST})"),
    ("product", "shortest_mm INTEGER CHECK (shortest_mm > 0)"),
    ("product", "pack_run_mm INTEGER CHECK (pack_run_mm > 0)"),
    ("product", "handed INTEGER CHECK (handed IN (0, 1))"),
    ("room", "line_mm INTEGER"),
    ("room", "pattern TEXT NOT NULL DEFAULT 'straight' CHECK (pattern IN ('straight', 'herringbone', 'chevron'))"),
    ("room", "border_mm INTEGER NOT NULL DEFAULT 0 CHECK (border_mm >= 0)"),
    ("room", f"doorways TEXT NOT NULL DEFAULT '[]' CHECK (doorways {_LIST})"),
    ("room", f"fixed_things TEXT NOT NULL DEFAULT '[]' CHECK (fixed_things {_LIST})"),
    ("lay_plan", f"lengths TEXT NOT NULL DEFAULT '[]' CHECK (lengths {_LIST})"),
    ("lay_plan", f"board_lengths_mm TEXT NOT NULL DEFAULT '[]' CHECK (board_lengths_mm {_LIST})"),
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the third step, in the order it is run."""
    return tuple(f"ALTER TABLE {table} ADD COLUMN {column}" for table, column in _COLUMNS)
