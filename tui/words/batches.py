"""The words for batches: one that looks like another, and two of one board in one room."""

from collections.abc import Iterable, Mapping

from store.trade.batches import mixed_rooms
from store.trade.facts import JobFacts
from tui.words.facts import say_list
from tui.words.vocabulary import the_room
from tui.words.wording import clean


def say_likeness(typed: str, known: str) -> str:
    """Return what is asked about a batch that looks like one on file."""
    return f"{clean(typed)} looks like {clean(known)}, which is on file already. Is it the same?"


def say_meeting(product: str, batches: Iterable[str], room: str) -> str:
    """Return that batches of one board come together in a room, and what to do about it."""
    together = tuple(batches)
    return (
        f"{len(together)} batches of {clean(product)} in {the_room(room)}: {say_list(clean(one) for one in together)}."
        " Their colour can differ: keep one to a room, or mix the packs."
    )


def mixed_by_room(facts: JobFacts) -> Mapping[str, str]:
    """Return, by room, a sentence for each in which two batches of a board lie."""
    said: dict[str, str] = {}
    for (room, code), batches in mixed_rooms(facts).items():
        said[room] = f"{said[room]} " if room in said else ""
        said[room] += say_meeting(code, batches, room)
    return said
