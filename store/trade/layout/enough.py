"""How many boards to bring so that enough of them are good."""

from decimal import Decimal, localcontext

from store.errors import Refused

MOST_CULLS_PERCENT = 50
MOST_CONFIDENCE_PERCENT = 99.99
MOST_NEEDED = 100_000


def boards_enough(needed: int, *, culls_percent: float = 3.0, confidence_percent: float = 90.0) -> int:
    """Return the fewest boards of which ``needed`` are good, as surely as asked.

    Some boards of every pack are put aside: a bad knot, a broken tongue, a colour that stands out. Nobody knows
    beforehand which, so a lay that needs 79 boards is not safe with 79. Each board is taken to be good or not by
    itself.

    >>> boards_enough(79, culls_percent=3, confidence_percent=90)
    84
    >>> boards_enough(79, culls_percent=0)
    79

    Method: find the fewest boards h with P(Binomial(h, 1 − p) ≥ needed) ≥ confidence. That is to have no more than
    h − needed culls before the last good board is found (negative binomial distribution, textbook), so the chances
    of 0, 1, 2 … culls are added up until they reach the confidence. Counted with 50 decimal figures, so that no
    rounding error brings a board.

    Args:
        needed: Good boards the lay takes.
        culls_percent: Boards put aside, % of those brought, 0 to 50. Makers' guides allow for up to 5 %.
        confidence_percent: How sure it is to be, more than 0 and up to 99.99 %.

    Raises:
        Refused: A number that cannot be.

    Source: the rule is textbook statistics; the usual 3 % and 90 % are common practice, no source.
    """
    if not 0 <= needed <= MOST_NEEDED:
        raise Refused(f"The boards needed are from 0 to {MOST_NEEDED:,}, not {needed:,}.")
    if not 0 <= culls_percent <= MOST_CULLS_PERCENT:
        raise Refused(f"The culls are from 0 to {MOST_CULLS_PERCENT} % of the boards.")
    if not 0 < confidence_percent <= MOST_CONFIDENCE_PERCENT:
        raise Refused(f"The confidence is more than 0 and up to {MOST_CONFIDENCE_PERCENT} %.")
    with localcontext(prec=50):
        culled, sure = Decimal(repr(culls_percent)) / 100, Decimal(repr(confidence_percent)) / 100
        chance = (1 - culled) ** needed
        so_far, culls = chance, 0
        while so_far < sure:
            chance *= culled * (needed + culls) / (culls + 1)
            culls += 1
            so_far += chance
    return needed + culls
