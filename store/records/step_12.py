"""The twelfth step: lines of a job's take-off that were set by hand.

The text of a step is never changed once it has been released; a later step can only add.
"""

_MOMENT = "GLOB '????-??-??T??:??:??.??????Z'"
_THINGS = (
    "'boards', 'glue', 'primer', 'compound', 'film', 'underlay', 'skirting', 'screws', 'profiles', 'wedges',"
    " 'felt_pads', 'care_set'"
)

_TABLE = f"""
CREATE TABLE own_line (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    thing TEXT NOT NULL CHECK (thing IN ({_THINGS})),
    product_id INTEGER REFERENCES product (id),
    at TEXT NOT NULL CHECK (at {_MOMENT}),
    wanted INTEGER NOT NULL CHECK (wanted IN (0, 1)),
    units INTEGER CHECK (units BETWEEN 0 AND 100000),
    size REAL CHECK (size BETWEEN 0 AND 1000000),
    width_mm INTEGER CHECK (width_mm BETWEEN 1 AND 100000),
    rate REAL CHECK (rate BETWEEN 0 AND 1000000),
    notch TEXT NOT NULL CHECK (length(notch) <= 100),
    why TEXT NOT NULL CHECK (length(why) <= 100000),
    CHECK ((product_id IS NOT NULL) = (thing IN ('boards', 'glue')))
) STRICT
"""
_SAME = "SELECT 1 FROM own_line WHERE id = NEW.id"
_STAYS = "BEGIN SELECT RAISE(ABORT, 'own_line is never changed'); END"


def statements() -> tuple[str, ...]:
    """Return the SQL of the twelfth step, in the order it is run."""
    return (
        _TABLE,
        "CREATE INDEX own_line_by_job_id ON own_line (job_id)",
        "CREATE INDEX own_line_by_product_id ON own_line (product_id)",
        f"CREATE TRIGGER own_line_not_updated BEFORE UPDATE ON own_line {_STAYS}",
        f"CREATE TRIGGER own_line_not_deleted BEFORE DELETE ON own_line {_STAYS}",
        f"CREATE TRIGGER own_line_not_replaced BEFORE INSERT ON own_line WHEN EXISTS ({_SAME}) {_STAYS}",
    )
