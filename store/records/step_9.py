"""The ninth step: a chain of seals over every line that is never changed.

The text of a step is never changed once it has been released; a later step can only add.
"""

_SAME = "SELECT 1 FROM seal WHERE id = NEW.id OR of_table = NEW.of_table AND row_id = NEW.row_id"
_STAYS = "BEGIN SELECT RAISE(ABORT, 'seal is never changed'); END"

_TABLE = """
CREATE TABLE seal (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    of_table TEXT NOT NULL CHECK (length(of_table) BETWEEN 1 AND 100),
    row_id INTEGER NOT NULL,
    columns TEXT NOT NULL CHECK (columns GLOB '[[]*]'),
    seal TEXT NOT NULL CHECK (length(seal) = 64),
    UNIQUE (of_table, row_id)
) STRICT
"""


def statements() -> tuple[str, ...]:
    """Return the SQL of the ninth step, in the order it is run."""
    return (
        _TABLE,
        f"CREATE TRIGGER seal_not_updated BEFORE UPDATE ON seal {_STAYS}",
        f"CREATE TRIGGER seal_not_deleted BEFORE DELETE ON seal {_STAYS}",
        f"CREATE TRIGGER seal_not_replaced BEFORE INSERT ON seal WHEN EXISTS ({_SAME}) {_STAYS}",
    )
