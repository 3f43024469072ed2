"""How many boards to have, so that enough are good when some have to be put aside."""

import math

from store.errors import Refused

WORST_RATE = 0.5
MOST_BOARDS = 100_000


def boards_to_have(*, boards: int, cull_rate: float, confidence: float) -> int:
    """Return the fewest boards among which enough are good, with the confidence asked.

    A lay takes ``boards`` good ones; each board is put aside (grade, damage) with chance ``cull_rate``, one
    independently of another. Wanted is the smallest h with P(Binomial(h, 1 − rate) ≥ boards) ≥ confidence.

    Method: board after board is opened until the last good one is found. That exactly k have been put aside
    by then has chance C(boards − 1 + k, k) · rate^k · (1 − rate)^boards (negative binomial, textbook);
    these are added up, from k = 0, until they reach the confidence. Logarithms keep large floors from
    vanishing.

    Raises:
        Refused: no boards, more than 100,000, a rate outside 0 to 0.5, or a confidence that is not between
            0 and 1.

    >>> boards_to_have(boards=79, cull_rate=0.03, confidence=0.9)
    84
    """
    if not 1 <= boards <= MOST_BOARDS:
        raise Refused(f"Boards needed must be 1 to {MOST_BOARDS:,}.")
    if not 0 <= cull_rate <= WORST_RATE:
        raise Refused("The share of boards put aside must lie between 0 and a half.")
    if not 0 < confidence < 1:
        raise Refused("The confidence must lie between 0 and 1, ends not included.")
    if cull_rate == 0:
        return boards
    aside = 0
    chance = 0.0
    all_good = boards * math.log1p(-cull_rate)
    most_aside = 20 * boards + 1_000
    while aside < most_aside:
        ways = math.lgamma(boards + aside) - math.lgamma(boards) - math.lgamma(aside + 1)
        chance += math.exp(ways + aside * math.log(cull_rate) + all_good)
        if chance >= confidence:
            return boards + aside
        aside += 1
    raise Refused("So much confidence cannot be reckoned; ask for a little less.")
