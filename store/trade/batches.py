"""Batches as people write them: which look like one typed twice, and where two of one board lie together."""

import re
import unicodedata
from collections.abc import Iterable, Mapping

from store.trade.events import PlaceKind
from store.trade.facts import JobFacts
from store.trade.products import Board
from store.trade.stacks import stacks_on_site

_DASHES = frozenset({"−", "_", "­"})
_LEADING_NOUGHTS = re.compile(r"(?<!\d)0+(?=\w)")


def alike(one: str, other: str) -> bool:
    """Whether two batches could be one, typed two ways.

    Capital and small letters, blanks and dashes make no difference, nor do noughts before a number. It is reason to
    ask and never to decide: makers do write K1-12 and K11-2 on different packs (common practice, no source).

    >>> alike("K41", "k 41"), alike("K41", "K-41"), alike("K41", "0K041"), alike("K41", "K42")
    (True, True, True, False)
    """
    return _bare(one) == _bare(other)


def look_alike(typed: str, on_file: Iterable[str]) -> str:
    """Return the first batch on file that a typed one looks like, where that very one is not on file; else empty."""
    known = tuple(on_file)
    if not _bare(typed) or typed in known:
        return ""
    return next((one for one in known if alike(one, typed)), "")


def meeting(lying: Iterable[str], coming: Iterable[str]) -> tuple[str, ...]:
    """Return all batches of one board that would lie in one room, where what comes is not the batch that lies there.

    Empty where nothing new meets another batch; a batch that nobody wrote down is not known to differ.

    >>> meeting(["K41"], ["K42"]), meeting(["K41", "K42"], ["K41"]), meeting([], ["K41", ""])
    (('K41', 'K42'), (), ())
    """
    there, new = (tuple(dict.fromkeys(filter(None, some))) for some in (lying, coming))
    together = tuple(dict.fromkeys((*there, *new)))
    return together if len(together) > max(1, len(there)) else ()


def batches_by_room(facts: JobFacts) -> Mapping[tuple[str, str], tuple[str, ...]]:
    """Return the batches of each board in each room, by room and code, in the order they came; opened packs too."""
    found: dict[tuple[str, str], dict[str, None]] = {}
    for code, product in facts.products.items():
        if isinstance(product, Board):
            for stack in stacks_on_site(facts, code):
                found.setdefault((stack.room, code), {})[stack.batch] = None
    return {where: tuple(batches) for where, batches in found.items()}


def mixed_rooms(facts: JobFacts) -> Mapping[tuple[str, str], tuple[str, ...]]:
    """Return the rooms, with the board, in which two or more batches of it lie, and those batches."""
    rooms = {where: tuple(filter(None, batches)) for where, batches in batches_by_room(facts).items()}
    return {where: batches for where, batches in rooms.items() if len(batches) > 1}


def batches_with_job(facts: JobFacts, code: str) -> tuple[str, ...]:
    """Return the batches of a product that came to a job or were kept for it, whatever has become of them."""
    came = [line.batch for one in facts.deliveries for line in one.lines if line.product == code]
    kept = [one.batch for one in facts.moves if one.product == code and one.source.kind is PlaceKind.SHELF]
    return tuple(dict.fromkeys(filter(None, (*came, *kept))))


def _bare(batch: str) -> str:
    """A batch without what tells apart two ways of typing it, and nothing else."""
    # Twice, because folding can bring back a form that is not the compatible one.
    folded = unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", batch).casefold()).casefold()
    kept = "".join(sign for sign in folded if not _parts(sign))
    return _LEADING_NOUGHTS.sub("", kept)


def _parts(sign: str) -> bool:
    return sign.isspace() or sign in _DASHES or unicodedata.category(sign) == "Pd"
