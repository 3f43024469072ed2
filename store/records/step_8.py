"""The eighth step: single figures behind a mean, a probe's check, a sample's part of the screed, grids of levels.

The text of a step is never changed once it has been released; a later step can only add.
"""

_LIST = "GLOB '[[]*]'"

_COLUMNS = (
    "zone TEXT CHECK (zone IN ('whole', 'lower'))",
    "checked_on TEXT CHECK (checked_on IS date(checked_on, '+0 days'))",
    f"figures TEXT NOT NULL DEFAULT '[]' CHECK (figures {_LIST})",
    "spacing_mm INTEGER CHECK (spacing_mm >= 0)",
    f"heights_mm TEXT CHECK (heights_mm {_LIST})",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the eighth step, in the order it is run."""
    return tuple(f"ALTER TABLE reading ADD COLUMN {column}" for column in _COLUMNS)
