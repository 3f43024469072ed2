"""Numbers as they are typed: taken exactly, held to a range, and refused in one sentence."""

import math
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from store.errors import Refused

Number: TypeAlias = int | float | Decimal | Fraction

UNMEASURED = 10**9  # no length, area or weight on a building site comes near it
MOST_FIGURES = 15
FINEST_EXPONENT = -400  # below every float, and small enough to stay quick as a fraction


def shown(value: Number) -> str:
    """The value as it is named in a refusal, never longer than a few words."""
    if isinstance(value, int) and abs(value) >= 10**MOST_FIGURES:
        return f"a number of more than {MOST_FIGURES} figures"
    text = str(value)
    return text if len(text) <= 24 else f"{text[:21]}..."


def exact(value: Number, *, what: str) -> Fraction:
    """The number exactly as its shortest decimal writing says, so that 0.1 is one tenth.

    Args:
        value: A whole number, a float, a decimal or a fraction.
        what: What it measures, to open the refusal with.

    Raises:
        Refused: It is not finite, or it has more figures than anything is measured to.
    """
    if isinstance(value, Decimal):
        if value.is_finite() and value and not FINEST_EXPONENT <= value.adjusted() <= -FINEST_EXPONENT:
            raise Refused(f"{what} {shown(value)} is not a size anything is measured to: give a plain number.")
        finite = value.is_finite()
    else:
        finite = isinstance(value, int | Fraction) or math.isfinite(value)
    if not finite:
        raise Refused(f"{what} must be a finite number, and {shown(value)} is none.")
    return Fraction(str(value)) if isinstance(value, float) else Fraction(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """What a measure may be: from ``least`` to ``most``, both included unless ``above_least``."""

    what: str
    unit: str
    least: Fraction | int = 0
    most: Fraction | int = UNMEASURED
    above_least: bool = False

    def take(self, value: Number) -> Fraction:
        """The value exactly.

        Raises:
            Refused: It is not finite or lies outside the bounds.
        """
        taken = exact(value, what=self.what)
        if taken < self.least or taken > self.most or (self.above_least and taken == self.least):
            start = f"more than {self.least} and at most" if self.above_least else f"{self.least} to"
            raise Refused(
                f"{self.what} {shown(value)} {self.unit} is outside what this sum covers: "
                f"give {start} {self.most} {self.unit}."
            )
        return taken

    def take_whole(self, value: Number) -> int:
        """The value as a whole number.

        Raises:
            Refused: It is not finite, lies outside the bounds or is not whole.
        """
        taken = self.take(value)
        if taken.denominator != 1:
            raise Refused(f"{self.what} {shown(value)} {self.unit} is not whole: give whole {self.unit}.")
        return int(taken)


def one_of(value: str, allowed: Collection[str], *, what: str) -> str:
    """The name in its plain spelling: lower case, words joined by a hyphen.

    Raises:
        Refused: It is none of those allowed.
    """
    name = plain_name(value)
    if name not in allowed:
        raise Refused(f"{what} {short_name(value)} is not known: give {' or '.join(allowed)}.")
    return name


def plain_name(value: str) -> str:
    """A typed name in lower case, its words joined by single hyphens."""
    return "-".join(value.lower().replace("_", " ").replace("-", " ").split())


def short_name(value: str) -> str:
    """A typed name in quotes, cut to what a sentence can carry."""
    return f"'{value}'" if len(value) <= 40 else f"'{value[:37]}...'"


def round_half_away(value: Fraction) -> int:
    """The nearest whole number, halves away from nought.

    >>> round_half_away(Fraction(5, 2)), round_half_away(Fraction(-5, 2))
    (3, -3)
    """
    size = math.floor(abs(value) + Fraction(1, 2))
    return size if value >= 0 else -size


def plain_mm(value: Fraction) -> float:
    """Millimetres as a whole number where they are whole, else as a float."""
    return int(value) if value.denominator == 1 else float(value)
