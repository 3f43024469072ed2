"""The thirteenth step: prices of an order, what its supplier confirmed, and credits for what went back.

The text of a step is never changed once it has been released; a later step can only add.
"""

_MOMENT = "GLOB '????-??-??T??:??:??.??????Z'"
_DAY = "IS date({name}, '+0 days')"
_PRICE = "BETWEEN 0 AND 100000000"

_TABLES = {
    "confirmation": f"""
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    purchase_id INTEGER NOT NULL REFERENCES purchase (id),
    at TEXT NOT NULL CHECK (at {_MOMENT}),
    number TEXT NOT NULL CHECK (length(number) <= 100000)""",
    "confirmed_line": f"""
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    confirmation_id INTEGER NOT NULL REFERENCES confirmation (id),
    product_id INTEGER NOT NULL REFERENCES product (id),
    packs INTEGER NOT NULL CHECK (packs >= 0),
    due_on TEXT CHECK (due_on {_DAY.format(name="due_on")}),
    price_minor INTEGER CHECK (price_minor {_PRICE})""",
    "credit": f"""
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    at TEXT NOT NULL CHECK (at {_MOMENT}),
    product_id INTEGER NOT NULL REFERENCES product (id),
    amount_minor INTEGER NOT NULL CHECK (amount_minor BETWEEN 0 AND 1000000000),
    number TEXT NOT NULL CHECK (length(number) <= 100000),
    settles INTEGER NOT NULL CHECK (settles IN (0, 1))""",
}
_COLUMNS = (
    ("purchase", f"freight_minor INTEGER NOT NULL DEFAULT 0 CHECK (freight_minor {_PRICE})"),
    ("purchase_line", f"price_minor INTEGER CHECK (price_minor {_PRICE})"),
)
_INDEXES = (
    ("confirmation", "job_id"),
    ("confirmation", "purchase_id"),
    ("confirmed_line", "confirmation_id"),
    ("confirmed_line", "product_id"),
    ("credit", "job_id"),
    ("credit", "product_id"),
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the thirteenth step, in the order it is run."""
    return (
        *(f"CREATE TABLE {table} ({columns}\n) STRICT" for table, columns in _TABLES.items()),
        *(f"ALTER TABLE {table} ADD COLUMN {column}" for table, column in _COLUMNS),
        *(f"CREATE INDEX {table}_by_{column} ON {table} ({column})" for table, column in _INDEXES),
        *(trigger for table in _TABLES for trigger in _never_changed(table)),
    )


def _never_changed(table: str) -> tuple[str, ...]:
    stays = f"BEGIN SELECT RAISE(ABORT, '{table} is never changed'); END"
    same = f"SELECT 1 FROM {table} WHERE id = NEW.id"  # noqa: S608 - names from this file
    return (
        f"CREATE TRIGGER {table}_not_updated BEFORE UPDATE ON {table} {stays}",
        f"CREATE TRIGGER {table}_not_deleted BEFORE DELETE ON {table} {stays}",
        f"CREATE TRIGGER {table}_not_replaced BEFORE INSERT ON {table} WHEN EXISTS ({same}) {stays}",
    )
