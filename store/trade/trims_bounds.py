"""How few sticks a cutting list could possibly take: three floors under the answer, each with its argument.

Throughout, a *length* is a piece plus one saw cut, and the *room* is the stick plus one saw cut: pieces fit
when their sum and the cuts between them fit, which is the same as lengths fitting into the room. Lengths
are distinct and fall; ``counts`` says how many there are of each.
"""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

Pattern = tuple[int, ...]

SCALE = 1 << 40  # prices of pieces as whole numbers, so that the bound is proved and not rounded
ROUNDS_PER_LENGTH = 12
FILL_STEPS = 20_000


def by_length(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """No fewer sticks than the summed lengths fill (L1)."""
    total = sum(length * count for length, count in zip(lengths, counts, strict=True))
    return -(-total // room)


def by_long_pieces(lengths: Sequence[int], counts: Sequence[int], room: int) -> int:
    """No fewer sticks than the long pieces force (L2, Martello and Toth 1990).

    For a limit a up to half the room: pieces over room - a stand alone; pieces over half the room stand
    in sticks of their own, with what is left beside them; pieces from a to half must use that left-over
    or new sticks. Pieces under a are left out, which can only lower the bound.

    >>> by_long_pieces([1200, 900], [2, 1], 2000), by_length([1200, 900], [2, 1], 2000)
    (3, 2)
    """
    rising = [-length for length in lengths]
    number = [0, *accumulate(counts)]
    total = [0, *accumulate(length * count for length, count in zip(lengths, counts, strict=True))]
    half = bisect_left(rising, -(room // 2))  # lengths before it are over half the room
    best = number[half]
    for end in range(half + 1, len(lengths) + 1):
        limit = lengths[end - 1]
        alone = bisect_left(rising, limit - room)
        beside = (number[half] - number[alone]) * room - (total[half] - total[alone])
        over = total[end] - total[half] - beside
        best = max(best, number[half] + max(0, -(-over // room)))
    return best


class PricedSticks:
    """The linear bound of Gilmore and Gomory (1961), and the mixture of fills behind it.

    If every piece had a price and no fill of one stick were worth more than 1, then the list needs at
    least as many sticks as its pieces are worth together. The best prices come from a linear program
    whose columns are fills: price the pieces, look for the fill worth most, let it in, price again.

    Prices are taken as whole numbers and the dearest fill is found exactly, so each round proves a bound
    (Farley 1990) whatever the floating-point numbers of the linear program did.
    """

    def __init__(self, lengths: Sequence[int], counts: Sequence[int], room: int) -> None:
        self.lengths = tuple(lengths)
        self.counts = tuple(counts)
        self.room = room
        size = len(self.lengths)
        self.fills: list[Pattern] = []
        self.uses: list[float] = []
        self.least = 0
        self._inverse = [[0.0] * size for _ in range(size)]
        for i, (length, count) in enumerate(zip(self.lengths, self.counts, strict=True)):
            fits = max(1, min(count, room // length))
            self.fills.append(tuple(fits if i == j else 0 for j in range(size)))
            self.uses.append(count / fits)
            self._inverse[i][i] = 1 / fits

    def improve(self, enough: int) -> None:
        """Raise ``least`` until it reaches ``enough``, nothing better is found, or the work runs out."""
        for _ in range(ROUNDS_PER_LENGTH * len(self.lengths) + 20):
            prices = [max(0, int(sum(column) * SCALE)) for column in zip(*self._inverse, strict=True)]
            found = dearest_fill(self.lengths, self.counts, prices, self.room)
            if found is None:
                return
            worth, fill = found
            whole = sum(price * count for price, count in zip(prices, self.counts, strict=True))
            self.least = max(self.least, -(-whole // worth))
            if self.least >= enough or worth <= SCALE + (SCALE >> 30):
                return
            if not self._let_in(fill):
                return

    def _let_in(self, fill: Pattern) -> bool:
        held = [(j, n) for j, n in enumerate(fill) if n]
        column = [sum(row[j] * n for j, n in held) for row in self._inverse]
        ratios = [(use / c, i) for i, (use, c) in enumerate(zip(self.uses, column, strict=True)) if c > 1e-9]
        if not ratios:
            return False
        step, leaves = min(ratios)
        pivot = [value / column[leaves] for value in self._inverse[leaves]]
        for i, factor in enumerate(column):
            if i != leaves and factor:
                row = self._inverse[i]
                self._inverse[i] = [value - factor * p for value, p in zip(row, pivot, strict=True)]
                self.uses[i] = max(0.0, self.uses[i] - factor * step)
        self._inverse[leaves] = pivot
        self.uses[leaves] = step
        self.fills[leaves] = fill
        return True


def dearest_fill(
    lengths: Sequence[int], counts: Sequence[int], prices: Sequence[int], room: int
) -> tuple[int, Pattern] | None:
    """The fill of one stick that is worth most, exactly; None when the work runs out first.

    >>> dearest_fill([60, 50], [1, 2], [55, 50], 100)
    (100, (0, 2))

    Method: pieces by price per length; take as many of each as fit, then fewer, and turn back as soon as
    the rest, filled wholly at the next price per length, cannot beat the best so far.
    """
    order = sorted(
        (i for i, price in enumerate(prices) if price and counts[i]),
        key=lambda i: (-prices[i] / lengths[i], i),
    )
    best, best_fill, steps = 0, [0] * len(lengths), 0
    # each entry: place in the order, room left, worth so far, pieces taken so far
    todo: list[tuple[int, int, int, tuple[tuple[int, int], ...]]] = [(0, room, 0, ())]
    while todo:
        place, left, worth, taken = todo.pop()
        steps += 1
        if steps > FILL_STEPS:
            return None
        if worth > best:
            best, best_fill = worth, [0] * len(lengths)
            for i, n in taken:
                best_fill[i] = n
        if place == len(order):
            continue
        i = order[place]
        if worth + left * prices[i] // lengths[i] <= best:
            continue
        for n in range(min(counts[i], left // lengths[i]) + 1):
            more = (*taken, (i, n)) if n else taken
            todo.append((place + 1, left - n * lengths[i], worth + n * prices[i], more))
    return (best, tuple(best_fill)) if best else None
