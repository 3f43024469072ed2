"""The few parts a drawing in SVG is made of: numbers, safe text, paths; nothing in them refers outside the file."""

import unicodedata
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

Spot = tuple[float, float]
_NEVER_SEEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
MOST_CHARACTERS = 200


def seen(text: str) -> str:
    """Return a text of one line in which nothing steers or hides, and which XML may hold; a long one is cut short.

    >>> seen("Gull" + chr(0x1B) + "[31m" + chr(0x202E)) == "Gull" + chr(0xFFFD) + "[31m" + chr(0xFFFD)
    True
    """
    short = text if len(text) <= MOST_CHARACTERS else f"{text[: MOST_CHARACTERS - 1]}…"
    return "".join("\ufffd" if unicodedata.category(one) in _NEVER_SEEN else one for one in short)


def size(value: float) -> str:
    """Return a length in mm to the thousandth, without needless noughts: 12, 0.5, -3.25.

    >>> size(12.0), size(-0.0001), size(3.25)
    ('12', '0', '3.25')
    """
    words = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words


def element(name: str, content: str = "", /, **attributes: str | float) -> str:
    """Return an element; ``_`` in an attribute's name stands for ``-``. The content is taken as it is.

    >>> element("rect", x=1.5, fill_opacity="1")
    '<rect x="1.5" fill-opacity="1"/>'
    """
    said = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(value if isinstance(value, str) else size(value))}"
        for key, value in attributes.items()
    )
    return f"<{name}{said}>{content}</{name}>" if content else f"<{name}{said}/>"


def words(text: str, at: Spot, high: float, /, **attributes: str | float) -> str:
    """Return a line of text whose letters are ``high`` mm, escaped; it starts at a spot unless anchored otherwise."""
    return element("text", escape(seen(text)), x=at[0], y=at[1], font_size=high, **attributes)


def path_of(rings: Iterable[Iterable[Spot]]) -> str:
    """Return the outline of closed rings for a path's ``d``."""
    return "".join("M" + "L".join(f"{size(x)} {size(y)}" for x, y in ring) + "Z" for ring in rings)
