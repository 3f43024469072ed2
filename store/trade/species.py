"""How much each wood moves across the board for each per cent of moisture, and how sure the figure is."""

import difflib
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from store.errors import Refused
from store.trade.units import plain_name, short_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Coefficients:
    """Change of width per width and per 1 % of moisture; ``quarter`` is None where no figure was found."""

    flat: Fraction
    quarter: Fraction | None


def _american(radial: str | None, tangential: str) -> Coefficients:
    return Coefficients(flat=Fraction(tangential), quarter=None if radial is None else Fraction(radial))


def _european(radial: str, tangential: str) -> Coefficients:
    """From differential swelling, in % of width per 1 % of moisture."""
    return Coefficients(flat=Fraction(Decimal(tangential)) / 100, quarter=Fraction(Decimal(radial)) / 100)


# Differential swelling after DIN 68100, radial and tangential, verified in trade tables that quote it.
# A second table differs by up to 15 %, so these are not exact to the last figure.
EUROPEAN = {
    "oak": _european("0.16", "0.36"),
    "beech": _european("0.20", "0.41"),
    "ash": _european("0.21", "0.38"),
    "birch": _european("0.29", "0.41"),
    "elm": _european("0.20", "0.23"),  # printed so; the tangential figure looks like a misprint
    "walnut": _european("0.18", "0.29"),
    "teak": _european("0.16", "0.26"),  # the American table says 0.00101 and 0.00186
    "wenge": _european("0.22", "0.34"),  # an American list says 0.00201 tangential
    "afzelia": _european("0.11", "0.22"),
    "iroko": _european("0.19", "0.28"),
    "spruce": _european("0.19", "0.39"),
    "larch": _european("0.14", "0.30"),
    "douglas-fir": _european("0.15", "0.27"),  # an American list says 0.00267 tangential
    "fir": _european("0.14", "0.28"),
    "pine": _european("0.19", "0.36"),
}

# USDA Wood Handbook FPL-GTR-190, Table 13-5, C_R and C_T: verified unless the line says otherwise.
AMERICAN = {
    "red-oak": _american("0.00158", "0.00369"),
    "white-oak": _american("0.00180", "0.00365"),
    "hard-maple": _american("0.00165", "0.00353"),  # sugar and black maple
    "red-maple": _american("0.00137", "0.00289"),
    "american-beech": _american("0.00190", "0.00431"),
    "white-ash": _american("0.00169", "0.00274"),  # with green ash
    "black-walnut": _american("0.00190", "0.00274"),
    "black-cherry": _american("0.00126", "0.00248"),
    "yellow-birch": _american("0.00256", "0.00338"),  # with sweet birch
    "american-elm": _american("0.00144", "0.00338"),
    "american-chestnut": _american("0.00116", "0.00234"),
    "black-locust": _american("0.00158", "0.00252"),  # robinia
    "pecan-hickory": _american("0.00169", "0.00315"),
    "red-alder": _american("0.00151", "0.00256"),
    "white-fir": _american("0.00112", "0.00245"),  # tangential worked back from the handbook's example
    "southern-yellow-pine": _american(None, "0.00265"),  # association list, verified
    "jatoba": _american(None, "0.0030"),  # association list, verified; not in Table 13-5
    "merbau": _american(None, "0.00158"),  # association lists disagree: 0.00153 or 0.00158
    "padauk": _american(None, "0.00180"),  # association list, verified
    "jarrah": _american(None, "0.00396"),  # association list, verified
}

OTHER_NAMES = {
    "sugar-maple": "hard-maple",
    "black-maple": "hard-maple",
    "green-ash": "white-ash",
    "sweet-birch": "yellow-birch",
    "robinia": "black-locust",
    "hickory": "pecan-hickory",
    "pecan": "pecan-hickory",
    "white-oak-commercial": "white-oak",
    "red-oak-commercial": "red-oak",
}

WOODS = EUROPEAN | AMERICAN


def coefficient(*, species: str, cut: str) -> Fraction:
    """Change of width per width and per 1 % of moisture.

    >>> float(coefficient(species="white oak", cut="flat"))
    0.00365

    Args:
        species: A plain name for the European table (oak), a whole name for an American wood (white-oak).
        cut: ``flat`` or ``quarter``.

    Raises:
        Refused: The wood is not known, or only its flat-sawn figure is.

    Source: after DIN 68100; USDA Wood Handbook FPL-GTR-190, Table 13-5; association lists as marked.
    """
    typed = plain_name(species)
    name = OTHER_NAMES.get(typed, typed)
    if name not in WOODS:
        raise Refused(f"No movement figure for species {short_name(species)}: give {_nearest(typed)}.")
    wood = WOODS[name]
    if cut == "flat":
        return wood.flat
    if wood.quarter is None:
        raise Refused(f"No quarter-sawn figure is known for {name}: give the flat cut or another wood.")
    return wood.quarter


def _nearest(typed: str) -> str:
    """Names that hold the typed word, or look like it; all of them where none does."""
    names = sorted(WOODS)
    akin = [name for name in names if typed and typed in name.split("-")]
    close = akin or difflib.get_close_matches(typed[:40], names, n=3)
    return " or ".join(close) if close else f"one of {', '.join(names)}"
