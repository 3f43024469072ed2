"""Cutting lists found without a search through them all: falling, stick by stick, and by filling sticks again.

Pieces here are lengths one by one, each a piece plus a saw cut; the room is the stick plus a saw cut (trims_bounds).
"""

import random
from bisect import bisect_left, bisect_right, insort
from collections.abc import Sequence

from store.trade.trims_steps import Steps

Sticks = list[list[int]]  # the lengths in each stick

BITS_A_STEP = 16_384  # shifting so many bits takes about a step, besides the step for the piece itself
WIDEST = 200_000  # a longer stick has more sums than can be kept; nothing of wood is so long
PASSES = 8
TOGETHER = 4  # sticks emptied and filled again, besides one that is not full; of 1 to 8 the one that found most


def falling(pieces: Sequence[int], room: int, *, best_fit: bool) -> Sticks:
    """Longest first, each into the first stick it fits, or into the one it leaves least of.

    >>> falling([9, 6, 3, 2], 12, best_fit=False), falling([9, 7, 3, 2], 12, best_fit=True)
    ([[9, 3], [6, 2]], [[9, 3], [7, 2]])
    """
    rising = sorted(pieces, reverse=True)
    return _best_fit(rising, room) if best_fit else _first_fit(rising, room)


def _best_fit(pieces: Sequence[int], room: int) -> Sticks:
    sticks: Sticks = []
    left: list[tuple[int, int]] = []  # what is left of each stick and which it is, least first
    for length in pieces:
        place = bisect_left(left, (length, -1))
        if place == len(left):
            sticks.append([])
            rest, at = room, len(sticks) - 1
        else:
            rest, at = left.pop(place)
        sticks[at].append(length)
        insort(left, (rest - length, at))
    return sticks


def _first_fit(pieces: Sequence[int], room: int) -> Sticks:
    sticks: Sticks = []
    width = 1
    while width < len(pieces):
        width *= 2
    most = [room] * (2 * width)  # a tree: the most left of any stick below each place
    for length in pieces:
        at = 1
        while at < width:
            at *= 2
            if most[at] < length:
                at += 1
        if at - width == len(sticks):
            sticks.append([])
        sticks[at - width].append(length)
        most[at] -= length
        while at > 1:
            at //= 2
            most[at] = max(most[2 * at], most[2 * at + 1])
    return sticks


def settled(pieces: Sequence[int], room: int) -> tuple[Sticks, list[int]]:
    """Sticks that some list with the fewest sticks has, and the pieces left for the others, longest first.

    >>> settled([9, 7, 5, 4, 3, 3, 2, 2], 12)
    ([[9, 3], [7, 5]], [4, 3, 2, 2])

    Method: a piece that no other fits beside stands alone. Two that fill a stick wholly, and a piece beside which no
    two others fit with the longest that does, may stand together: in any list, what stood beside the one is no longer
    than the other and can change places with it (dominance, Martello and Toth 1990).
    """
    rising = sorted(pieces)
    sticks: Sticks = []
    for _ in range(PASSES):  # fewer short pieces: longer ones may be settled the next time
        before = len(sticks)
        place = len(rising) - 1
        while place >= 0:
            taken = _settled_with(rising, place, room)
            if taken:
                sticks.append([rising.pop(one) for one in taken])
            place = min(place - 1, len(rising) - 1)
        if len(sticks) == before:
            break
    return sticks, rising[::-1]


def _settled_with(rising: Sequence[int], place: int, room: int) -> list[int]:
    """The places of one or two pieces that may stand alone in a stick, the longer first; none if that is open."""
    left = room - rising[place]
    shortest = [one for at, one in enumerate(rising[:3]) if at != place][:2]
    others = bisect_right(rising, left)
    at = others - 1 - (others - 1 == place)  # the longest other that fits beside
    if at < 0:
        return [place]
    if rising[at] == left or len(shortest) < 2 or sum(shortest) > left:
        return sorted((place, at), reverse=True)
    return []


def fullest(pieces: Sequence[int], room: int, steps: Steps) -> list[int]:
    """The places of pieces that fill the room as far as any do; of equal fills one of pieces that stand early.

    >>> fullest([7, 5, 4, 3], 12, Steps(100)), fullest([5, 3], 12, Steps(100))
    ([0, 1], [0, 1])

    Method: a whole number whose bits are the sums that can be made, shifted and joined piece by piece.
    """
    within = (1 << (room + 1)) - 1
    sums, before = 1, list[int]()
    for length in pieces:
        before.append(sums)
        sums |= (sums << length) & within
        if sums >> room:
            break
    steps.take(len(before) * (1 + room // BITS_A_STEP))
    top = sums.bit_length() - 1
    taken: list[int] = []
    for place in range(len(before) - 1, -1, -1):
        if not before[place] >> top & 1:
            taken.append(place)
            top -= pieces[place]
    return taken[::-1]


def stick_by_stick(pieces: Sequence[int], room: int, most: int, steps: Steps) -> tuple[Sticks, list[int]]:
    """Fill at most so many sticks, each round the longest piece left, as far as it can be; and what is not cut."""
    rest = sorted(pieces, reverse=True)
    sticks: Sticks = []
    while rest and len(sticks) < most and not steps.are_out:
        longest, others = rest[0], rest[1:]
        taken = fullest(others, room - longest, steps)
        sticks.append([longest, *(others[place] for place in taken)])
        for place in reversed(taken):
            del others[place]
        rest = others
    return sticks, rest


def filled_again(pieces: Sequence[int], room: int, most: int, steps: Steps, *, seed: int = 0) -> Sticks:
    """A list of at most so many sticks, or else of more; so many must hold the summed lengths.

    Method: fill the sticks one by one. While pieces are left over, empty a few sticks, one of them not full, lay
    their pieces and those left over on one heap in an order taken by chance, and fill the sticks again, each as
    far as the heap can: what is left of sticks comes together until a piece fits. A heap that would leave more
    over than before is put back. Chance has a seed, so the list is always the same.
    """
    if room > WIDEST:
        return falling(pieces, room, best_fit=True)
    sticks, over = stick_by_stick(pieces, room, most, steps)
    sticks += [[] for _ in range(most - len(sticks))]
    left = [room - sum(stick) for stick in sticks]
    chance = random.Random(seed).random  # noqa: S311 - chance here must be repeatable, not secret
    number = len(sticks)
    while over and not steps.are_out:
        steps.take(4)
        at = int(chance() * number)
        while not left[at]:  # some stick is not full, else all pieces would be cut
            at = (at + 1) % number
        chosen = {at, *(int(chance() * number) for _ in range(min(TOGETHER, number - 1)))}
        heap = [*over, *(length for place in chosen for length in sticks[place])]
        heap.sort(key=lambda _: chance())
        filled: Sticks = []
        for _ in chosen:
            taken = fullest(heap, room, steps)
            filled.append([heap[place] for place in taken])
            for place in reversed(taken):
                del heap[place]
        if sum(heap) <= sum(over):
            over = heap
            for place, stick in zip(chosen, filled, strict=True):
                sticks[place], left[place] = stick, room - sum(stick)
    cut = [stick for stick in sticks if stick]
    return cut + falling(over, room, best_fit=True)
