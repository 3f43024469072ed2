"""The eleventh step: what a stock-take found in the unit beyond the file, or missed.

The text of a step is never changed once it has been released; a later step can only add.
"""

_MOMENT = "GLOB '????-??-??T??:??:??.??????Z'"

# Beside the movements and not among them: a movement belongs to a job, and free stock to none.
_TABLE = f"""
CREATE TABLE difference (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER REFERENCES job (id),
    at TEXT NOT NULL CHECK (at {_MOMENT}),
    product_id INTEGER NOT NULL REFERENCES product (id),
    batch TEXT NOT NULL CHECK (length(batch) <= 100000),
    packs INTEGER NOT NULL CHECK (packs >= 0),
    boards INTEGER NOT NULL CHECK (boards >= 0),
    way TEXT NOT NULL CHECK (way IN ('found', 'missing')),
    why TEXT NOT NULL CHECK (length(trim(why)) > 0 AND length(why) <= 100000),
    CHECK (packs + boards > 0),
    CHECK (job_id IS NULL OR boards = 0)
) STRICT
"""

_STAYS = "SELECT RAISE(ABORT, 'difference is never changed')"
_SAME = "SELECT 1 FROM difference WHERE id = NEW.id"


def statements() -> tuple[str, ...]:
    """Return the SQL of the eleventh step, in the order it is run."""
    return (
        _TABLE,
        "CREATE INDEX difference_by_job_id ON difference (job_id)",
        "CREATE INDEX difference_by_product_id ON difference (product_id)",
        f"CREATE TRIGGER difference_not_updated BEFORE UPDATE ON difference BEGIN {_STAYS}; END",
        f"CREATE TRIGGER difference_not_deleted BEFORE DELETE ON difference BEGIN {_STAYS}; END",
        # The guard on INSERT holds INSERT OR REPLACE off even where recursive_triggers is switched off.
        f"CREATE TRIGGER difference_not_replaced BEFORE INSERT ON difference WHEN EXISTS ({_SAME}) BEGIN {_STAYS}; END",
    )
