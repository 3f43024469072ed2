"""Rounds amounts of money, once and at the end of a sum."""

from fractions import Fraction


def round_half_up(amount: Fraction) -> int:
    """Return a whole amount, halves upward."""
    return int((amount + Fraction(1, 2)) // 1)
