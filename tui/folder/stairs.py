"""A flight of stairs in the survey of a job: its line, and all there is to say about its steps."""

from collections.abc import Iterator

from store.errors import Refused
from store.trade.flight_sum import FlightSum, flight_sum
from store.trade.flights import Flight
from tui.folder.page import Entry
from tui.widgets.safe import cell
from tui.widgets.signed_lines import Said, Tone
from tui.words.stairs import STAIRS_CAUTION, flight_lines
from tui.words.wording import clean, counted


def stairs_entry(flight: Flight, clad_mm: int | None) -> Entry:
    """Return the line of a flight; ``clad_mm`` is how thick its board is."""
    try:
        found = flight_sum(flight.measured)
    except Refused as no:
        # Another program has filed it: no form takes a flight that cannot be reckoned.
        return _entry(flight, ("▲ no sum", ""), (Said(words=f"▲ {no}", tone=Tone.WARN),))
    broken = sum(not one.ok for one in found.checks)
    state = f"✗ {counted(broken, 'limit')}" if broken else "✓ fits"
    return _entry(flight, (state, counted(found.steps.risers, "riser")), tuple(_said(flight, found, clad_mm)))


def _entry(flight: Flight, said: tuple[str, str], whole: tuple[Said, ...]) -> Entry:
    state, many = said
    return Entry(
        key=f"flight:{flight.id}",
        cells=(flight.name, state, cell(many, right=True), flight.board or "ready treads", "stairs"),
        fact=flight,
        title=clean(flight.name),
        whole=whole,
    )


def _said(flight: Flight, found: FlightSum, clad_mm: int | None) -> Iterator[Said]:
    for words, good in flight_lines(flight, found, clad_mm):
        if good is None:
            yield Said(words=words)
        else:
            yield Said(words=words, tone=Tone.OK if good else Tone.BAD)
    yield Said(words=f"▲ {STAIRS_CAUTION}", tone=Tone.WARN)
