"""What a notched trowel spreads: the usual grams of glue on a square metre, by the notch and the base."""

from store.errors import Refused
from store.trade.units import Number, one_of

USUAL_G_PER_M2: dict[str, tuple[int, int]] = {
    "a2": (300, 350),
    "b1": (350, 450),
    "b2": (400, 500),
    "b3": (800, 1000),
    "b5": (900, 1100),
    "b6": (1000, 1200),
    "b11": (1000, 1250),
    "b13": (1100, 1300),
    "b15": (1200, 1500),
    "b17": (1300, 1500),
}
"""From and to in g/m². The notches are those of TKB note 6 (2007, 2019); the grams are from memory."""

BASES = ("smooth", "rough")


def usual_rate(*, notch: str, base: str = "rough") -> int:
    """Return what a notch usually spreads, g/m².

    >>> usual_rate(notch="B3"), usual_rate(notch="B3", base="smooth")
    (1000, 800)

    A smooth base takes the least of the range, a rough one the most (common practice, no source). Notches of one name
    have been found to spread nearly half as much again as one another, so the glue maker's sheet goes before this.

    Raises:
        Refused: The notch or the base is not in the table.

    Source: names of notches by TKB note 6 (2007, 2019); the grams from memory.
    """
    least, most = USUAL_G_PER_M2[one_of(notch, USUAL_G_PER_M2, what="Notch")]
    return least if one_of(base, BASES, what="Base") == "smooth" else most


def rate_or_usual(*, rate_g_per_m2: Number | None, notch: str | None, base: str = "rough") -> Number:
    """Return the rate given, else the usual rate of the notch.

    Raises:
        Refused: Both are given, or neither.
    """
    if rate_g_per_m2 is not None and notch:
        raise Refused(
            "Give the rate of the glue maker's sheet or the notch, not both: the sheet goes before the notch."
        )
    if rate_g_per_m2 is not None:
        return rate_g_per_m2
    if not notch:
        raise Refused("Glue needs the rate of the maker's sheet, or a notch such as B3.")
    return usual_rate(notch=notch, base=base)
