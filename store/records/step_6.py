"""The step of the diary: what people can do, when they are away, and who is booked where on which days.

The text of a step is never changed once it has been released; a later step can only add.
"""

_DAYS = "TEXT NOT NULL CHECK ({0} IS date({0}, '+0 days'))"

_COLUMNS = (
    ("person", "herringbone INTEGER NOT NULL DEFAULT 0 CHECK (herringbone IN (0, 1))"),
    ("person", "stairs INTEGER NOT NULL DEFAULT 0 CHECK (stairs IN (0, 1))"),
    ("person", "isocyanates_until TEXT CHECK (isocyanates_until IS date(isocyanates_until, '+0 days'))"),
    ("person", "days_off TEXT NOT NULL DEFAULT '[]' CHECK (days_off GLOB '[[]*]')"),
    ("person", "rev INTEGER NOT NULL DEFAULT 1 CHECK (rev >= 1)"),
)

# People stand here by name, as in the history: who has left the firm stays in the diary of the days they worked.
_TABLE = f"""
CREATE TABLE booking (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    room_id INTEGER REFERENCES room (id),
    person TEXT NOT NULL CHECK (length(person) BETWEEN 1 AND 100000),
    first {_DAYS.format("first")},
    last {_DAYS.format("last")},
    part TEXT NOT NULL CHECK (part IN ('day', 'morning', 'afternoon')),
    mark TEXT NOT NULL CHECK (length(mark) BETWEEN 1 AND 100),
    changes INTEGER NOT NULL CHECK (changes >= 0),
    cancelled INTEGER NOT NULL CHECK (cancelled IN (0, 1)),
    UNIQUE (mark),
    CHECK (first <= last),
    CHECK (part = 'day' OR first = last)
) STRICT
"""

_INDEXES = (
    "CREATE INDEX booking_by_job_id ON booking (job_id)",
    "CREATE INDEX booking_by_room_id ON booking (room_id)",
    "CREATE INDEX booking_by_last ON booking (last)",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of this step, in the order it is run."""
    return (*(f"ALTER TABLE {table} ADD COLUMN {column}" for table, column in _COLUMNS), _TABLE, *_INDEXES)
