"""The fourth step: what stands behind a reading, and which reading it was put right from.

The text of a step is never changed once it has been released; a later step can only add.
"""

_WORDS = "TEXT NOT NULL DEFAULT '' CHECK (length({0}) <= 100000)"

_COLUMNS = (
    "point " + _WORDS.format("point"),
    "instrument " + _WORDS.format("instrument"),
    "sample_g REAL CHECK (sample_g BETWEEN 0 AND 100000)",
    "gauge_bar REAL CHECK (gauge_bar BETWEEN 0 AND 1000)",
    "depth_mm INTEGER CHECK (depth_mm >= 0)",
    "hours INTEGER CHECK (hours >= 0)",
    "corrects INTEGER REFERENCES reading (id)",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the fourth step, in the order it is run."""
    columns = tuple(f"ALTER TABLE reading ADD COLUMN {column}" for column in _COLUMNS)
    return (*columns, "CREATE INDEX reading_by_corrects ON reading (corrects) WHERE corrects IS NOT NULL")
