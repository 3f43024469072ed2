"""How few sticks a cutting list could possibly take: three floors under the answer, each with its argument.

Throughout, a *length* is a piece plus one saw cut, and the *room* is the stick plus one saw cut: pieces fit
when their sum and the cuts between them fit, which is the same as lengths fitting into the room. Lengths
are distinct and fall; ``counts`` says how many there are of each.
"""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

from store.trade.trims_steps import Steps

Pattern = tuple[int, ...]
Taken = tuple[tuple[int, int], ...]  # (which length, how many)
_Begun = tuple[int, int, int, int, Taken]  # worth at most, next kind, room left, worth so far, pieces so far

SCALE = 1 << 40  # prices of pieces as whole numbers, so that the bound is proved and not rounded
ROUNDS_PER_LENGTH = 40
CHANGED_A_STEP = 16  # numbers of the linear program changed in about a step
FILL_STEPS = 40_000
GOOD_ENOUGH_STEPS = 100
ROUNDING = 1  # the order by price per length is taken from floats, which may be wrong by less
CLEARLY_DEAR = SCALE + (SCALE >> 14)
DEAR = SCALE + (SCALE >> 30)  # a fill worth no more than this would change nothing


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

    def __init__(
        self, lengths: Sequence[int], counts: Sequence[int], room: int, steps: Steps, known: Sequence[Pattern] = ()
    ) -> None:
        self.known = [fill for fill in known if all(n <= m for n, m in zip(fill, counts, strict=True))]
        self._held = [[(i, n) for i, n in enumerate(fill) if n] for fill in self.known]
        self.lengths = tuple(lengths)
        self.counts = tuple(counts)
        self.room = room
        size = len(self.lengths)
        self.fills: list[Pattern] = []
        self.uses: list[float] = []
        self.least = 0
        self.steps = steps
        self.is_best = False  # no fill would change the prices any more
        self.is_too_long = self.is_too_much(size, steps)
        self._inverse = [] if self.is_too_long else [[0.0] * size for _ in range(size)]
        if self.is_too_long:
            return
        steps.take(size * size // CHANGED_A_STEP)
        for i, (length, count) in enumerate(zip(self.lengths, self.counts, strict=True)):
            fits = max(1, min(count, room // length))
            self.fills.append(tuple(fits if i == j else 0 for j in range(size)))
            self.uses.append(count / fits)
            self._inverse[i][i] = 1 / fits
        self._prices = [self._inverse[i][i] for i in range(size)]

    @staticmethod
    def is_too_much(lengths: int, steps: Steps) -> bool:
        """Would the steps not do for so many lengths? The table is changed as often as there are lengths, or more."""
        return 2 * lengths**3 // CHANGED_A_STEP > steps.left

    def improve(self, enough: int) -> None:
        """Raise ``least`` until it reaches ``enough``, nothing better is found, or the steps run out."""
        size = len(self.lengths)
        for _ in range(0 if self.is_too_long else ROUNDS_PER_LENGTH * size):
            if self.steps.are_out:
                return
            self.steps.take(size + len(self.known))
            raw = [int(price * SCALE) for price in self._prices]
            if self._let_in_known(raw):
                continue
            prices = [max(0, price) for price in raw]
            fill, worth, proved = dearest_fill(self.lengths, self.counts, prices, self.room, self.steps, over=DEAR)
            if proved:
                whole = sum(price * count for price, count in zip(prices, self.counts, strict=True))
                self.least = max(self.least, -(-whole // worth))
            self.is_best = proved and fill is None
            if self.least >= enough or fill is None or not self._let_in(fill):
                return
            self.known.append(fill)
            self._held.append([(i, n) for i, n in enumerate(fill) if n])

    def _let_in_known(self, prices: Sequence[int]) -> bool:
        worths = [sum(prices[i] * n for i, n in held) for held in self._held]
        worth = max(worths, default=0)
        return worth > CLEARLY_DEAR and self._let_in(self.known[worths.index(worth)])

    def _let_in(self, fill: Pattern) -> bool:
        size = len(self.lengths)
        held = [(j, n) for j, n in enumerate(fill) if n]
        column = [sum(row[j] * n for j, n in held) for row in self._inverse]
        ratios = [(use / c, i) for i, (use, c) in enumerate(zip(self.uses, column, strict=True)) if c > 1e-9]
        if not ratios:
            return False
        step, leaves = min(ratios)
        pivot = [value / column[leaves] for value in self._inverse[leaves]]
        # the prices are the sums of the table's columns; what rounding adds up in them can cost rounds, never the proof
        more = 1 - sum(column)
        self._prices = [price + more * p for price, p in zip(self._prices, pivot, strict=True)]
        self.steps.take(size * (size - column.count(0)) // CHANGED_A_STEP)
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
    lengths: Sequence[int], counts: Sequence[int], prices: Sequence[int], room: int, steps: Steps, *, over: int
) -> tuple[Pattern | None, int, bool]:
    """The fill of one stick that is worth most, what no fill is worth more than, and whether that is proved.

    >>> dearest_fill([60, 50], [1, 2], [55, 50], 100, Steps(100), over=0)
    ((0, 2), 100, True)

    Method: pieces by price per length; take as many of each as fit, then fewer, and turn back as soon as
    the rest, filled wholly at the next price per length, cannot beat ``over`` or the best so far. A fill
    that is good enough ends a long look early; then its worth proves nothing.
    """
    steps.take(len(prices))
    order = sorted((i for i, price in enumerate(prices) if price), key=lambda i: (-prices[i] / lengths[i], i))
    kinds = [(i, lengths[i], prices[i], counts[i]) for i in order]
    best, looked = over, 0
    best_taken: Taken = ()
    todo: list[_Begun] = [(over + 1, 0, room, 0, ())]
    while todo:
        most, place, left, worth, taken = todo.pop()
        if most <= best:
            continue
        looked += 1
        if worth > best:
            best, best_taken = worth, taken
        if looked > FILL_STEPS or steps.are_out or (looked > GOOD_ENOUGH_STEPS and best_taken):
            todo.append((most, place, left, worth, taken))
            break
        deeper, looked_at = _deeper(kinds, (most, place, left, worth, taken), best)
        steps.take(2 + looked_at // 4 + len(deeper))
        todo.extend(reversed(deeper))
    held = dict(best_taken)
    fill = tuple(held.get(i, 0) for i in range(len(lengths))) if held else None
    return fill, best, not todo


def _deeper(kinds: Sequence[tuple[int, int, int, int]], begun: _Begun, best: int) -> tuple[list[_Begun], int]:
    """Every fill with one more kind of piece that could still be worth more than the best; and kinds looked at."""
    _, place, left, worth, taken = begun
    deeper: list[_Begun] = []
    at = place
    for at in range(place, len(kinds)):
        i, length, price, count = kinds[at]
        if worth + left * price // length + ROUNDING <= best:
            break
        for n in range(1, min(count, left // length) + 1):
            rest, value = left - n * length, worth + n * price
            after = 0
            if at + 1 < len(kinds):
                after = rest * kinds[at + 1][2] // kinds[at + 1][1] + ROUNDING
            deeper.append((value + after, at + 1, rest, value, (*taken, (i, n))))
    return deeper, at - place
