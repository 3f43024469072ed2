"""What a list is made of: columns, rows with their keys, and how words are compared."""

import unicodedata
from dataclasses import dataclass

from rich.text import Text

_LETTERS = str.maketrans({"ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "đ": "d", "ı": "i", "þ": "th", "ð": "d"})


def folded(text: str) -> str:
    """Return a text without accents and capitals, for comparing.

    >>> folded("Señor Ößler")
    'senor ossler'
    """
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(one for one in apart if not unicodedata.combining(one)).translate(_LETTERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its heading, its width in cells (0: a share of the rest), if only for wide windows."""

    label: str
    width: int = 0
    only_wide: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row: the key it is known by, and a cell for each column; a ``Text`` cell brings its own style."""

    key: str
    cells: tuple[str | Text, ...]

    @property
    def words(self) -> str:
        """What the filter looks through."""
        return folded(" ".join(one if isinstance(one, str) else one.plain for one in self.cells))
