"""The fourteenth step: materials as products, flights of stairs, and lines set by hand for both.

The text of a step is never changed once it has been released; a later step can only add.
"""

_MOMENT = "GLOB '????-??-??T??:??:??.??????Z'"
_LIST = "GLOB '[[]*]'"
_MATERIALS = (
    "'primer', 'compound', 'film', 'underlay', 'skirting', 'screws', 'profiles', 'wedges', 'felt_pads', 'care_set',"
    " 'treads', 'risers', 'nosing'"
)
_OF_ONE_PRODUCT = "'boards', 'glue', 'cladding'"

_COLUMNS = (
    f"thing TEXT CHECK (thing IN ({_MATERIALS})) CHECK ((kind = 'material') = (thing IS NOT NULL))",
    "size REAL CHECK (size > 0 AND size <= 1000000) CHECK (kind <> 'material' OR size IS NOT NULL)",
    "rate REAL CHECK (rate BETWEEN 0 AND 1000000)",
    "safety TEXT CHECK (length(safety) <= 100000) CHECK (kind <> 'material' OR safety IS NOT NULL)",
)

_FLIGHT = f"""
CREATE TABLE flight (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    rev INTEGER NOT NULL CHECK (rev >= 1),
    job_id INTEGER NOT NULL REFERENCES job (id),
    name TEXT NOT NULL CHECK (length(name) <= 100000),
    rise_mm INTEGER NOT NULL CHECK (rise_mm > 0),
    width_mm INTEGER NOT NULL CHECK (width_mm > 0),
    code TEXT NOT NULL CHECK (length(code) <= 100),
    going_mm INTEGER CHECK (going_mm > 0),
    run_mm INTEGER CHECK (run_mm > 0),
    risers INTEGER CHECK (risers > 0),
    nosing_mm INTEGER NOT NULL CHECK (nosing_mm >= 0),
    open_risers INTEGER NOT NULL CHECK (open_risers IN (0, 1)),
    turn TEXT NOT NULL CHECK (turn IN ('straight', 'quarter_turn', 'half_turn')),
    winders TEXT NOT NULL CHECK (winders {_LIST}),
    winder_treads INTEGER NOT NULL CHECK (winder_treads >= 0),
    board_id INTEGER REFERENCES product (id),
    UNIQUE (job_id, name),
    CHECK (going_mm IS NOT NULL OR run_mm IS NOT NULL)
) STRICT
"""

# A rule of a table cannot be loosened in place; every column keeps its name and every value its kind, so that what
# was sealed over a line stays true of it.
_OWN_LINE = f"""
CREATE TABLE own_line_of_any_thing (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    thing TEXT NOT NULL CHECK (thing IN ({_OF_ONE_PRODUCT}, {_MATERIALS})),
    product_id INTEGER REFERENCES product (id),
    at TEXT NOT NULL CHECK (at {_MOMENT}),
    wanted INTEGER NOT NULL CHECK (wanted IN (0, 1)),
    units INTEGER CHECK (units BETWEEN 0 AND 100000),
    size REAL CHECK (size BETWEEN 0 AND 1000000),
    width_mm INTEGER CHECK (width_mm BETWEEN 1 AND 100000),
    rate REAL CHECK (rate BETWEEN 0 AND 1000000),
    notch TEXT NOT NULL CHECK (length(notch) <= 100),
    why TEXT NOT NULL CHECK (length(why) <= 100000),
    CHECK (product_id IS NOT NULL OR thing NOT IN ({_OF_ONE_PRODUCT}))
) STRICT
"""
_NAMES = "id, job_id, thing, product_id, at, wanted, units, size, width_mm, rate, notch, why"
_SAME = "SELECT 1 FROM own_line WHERE id = NEW.id"
_STAYS = "BEGIN SELECT RAISE(ABORT, 'own_line is never changed'); END"


def statements() -> tuple[str, ...]:
    """Return the SQL of the fourteenth step, in the order it is run."""
    return (
        *(f"ALTER TABLE product ADD COLUMN {column}" for column in _COLUMNS),
        "CREATE INDEX product_by_kind ON product (kind, code)",
        _FLIGHT,
        "CREATE INDEX flight_by_board_id ON flight (board_id)",
        _OWN_LINE,
        f"INSERT INTO own_line_of_any_thing ({_NAMES}) SELECT {_NAMES} FROM own_line ORDER BY id",  # noqa: S608 - ours
        "DROP TABLE own_line",
        "ALTER TABLE own_line_of_any_thing RENAME TO own_line",
        "CREATE INDEX own_line_by_job_id ON own_line (job_id)",
        "CREATE INDEX own_line_by_product_id ON own_line (product_id)",
        f"CREATE TRIGGER own_line_not_updated BEFORE UPDATE ON own_line {_STAYS}",
        f"CREATE TRIGGER own_line_not_deleted BEFORE DELETE ON own_line {_STAYS}",
        f"CREATE TRIGGER own_line_not_replaced BEFORE INSERT ON own_line WHEN EXISTS ({_SAME}) {_STAYS}",
    )
