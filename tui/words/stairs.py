"""Says what a flight of stairs of a job comes to: its steps, the rule it breaks and where that stands, what to mind."""

from collections.abc import Iterator, Sequence

from store.errors import Refused
from store.trade.clad_rises import clad_rises
from store.trade.flight_sum import FlightSum, flight_sum
from store.trade.flights import Flight, FlightDraft, Turn
from store.trade.stairs import STAIR_CODES, StairCheck
from tui.words.wording import clean, counted, figure, say_area, say_mm

CODES = {
    "ad-k-private": "Approved Document K, private stair",
    "ad-k-utility": "Approved Document K, utility stair",
    "ad-k-general": "Approved Document K, general access",
    "din-18065": "DIN 18065, homes for one or two",
    "irc": "International Residential Code",
}
TURNS = {Turn.STRAIGHT: "straight", Turn.QUARTER: "with a quarter turn", Turn.HALF: "with a half turn"}
STAIRS_CAUTION = (
    "People fall on half-made stairs: close them off, or keep every step firm, covered and lit while you work. "
    "Cutting and sanding make dust: extract it and wear a mask."
)
_LENGTH = "length"
_OVERLAP = "overlap of open treads"
_DECIDES = "The local building code and its officer decide, not this sum."


def say_steps(found: FlightSum) -> str:
    """Return the steps in a phrase: “13 risers of 200 mm, 12 treads of 225 mm going”."""
    steps = found.steps
    risers = f"{counted(steps.risers, 'riser')} of {figure(steps.rise_mm, 1)} mm"
    winders = f", {found.winder_treads} of them winders" if found.winder_treads else ""
    return f"{risers}, {counted(steps.treads, 'tread')} of {figure(steps.going_mm, 1)} mm going{winders}"


def say_fault(check: StairCheck, source: str) -> str:
    """Return a rule that is broken, with where it stands."""
    unit = check.unit if check.unit == "°" else f" {check.unit}"
    value = f"{figure(check.value, 1)}{unit}"
    if check.what == _LENGTH:
        return f"The straight treads take {value}, and {say_mm(check.most or 0)} are there."
    if check.what == _OVERLAP:
        return f"Open treads overlap {value}; at least {check.least} mm (Approved Document K, Diagram 1.1)."
    within = f"{check.least} to {check.most}" if check.least is not None and check.most is not None else ""
    within = within or (f"at most {check.most}" if check.least is None else f"at least {check.least}")
    return f"{check.what[:1].upper()}{check.what[1:]} {value}; {within}{unit} ({source})."


def flight_lines(
    flight: FlightDraft, found: FlightSum, clad_mm: int | None = None
) -> Iterator[tuple[str, bool | None]]:
    """Yield the lines about a flight, each with whether it is good; None where it only tells.

    ``clad_mm`` is how thick the board is that it is clad with, None where it is clad with none.
    """
    source = found.steps.code_source
    yield f"{say_steps(found)}; 2R + G is {figure(found.steps.twice_rise_and_going_mm, 1)} mm.", None
    faults = [check for check in found.checks if not check.ok]
    for check in faults:
        yield f"✗ {say_fault(check, source)}", False
    if not faults:
        yield f"✓ Within the limits looked at: {source}.", True
    up = f"{say_mm(flight.rise_mm)} from floor to floor, {say_mm(flight.width_mm)} wide, {TURNS[flight.turn]}"
    yield f"{up}, nosing {say_mm(flight.nosing_mm)}, {'open' if flight.open_risers else 'closed'} risers.", None
    clad = f"Clad with {clean(flight.board)}" if flight.board else "Ready treads, no board to clad it"
    yield f"{clad}; n says what it takes.", None
    if found.winder_treads:
        yield (
            f"{counted(found.winder_treads, 'winder')} on {say_area(found.winders_mm2)}: their going on the walking "
            "line, and 50 mm at the narrow end (Approved Document K), are not looked at here; take a template of each.",
            None,
        )
    if clad_mm is not None:
        yield say_clad_rises(found, clad_mm), None
    if flight.open_risers:
        yield "Open risers: a ball of 100 mm must not pass between two treads (Approved Document K, from memory).", None
    yield _DECIDES, None


def say_clad_rises(found: FlightSum, clad_mm: int) -> str:
    """Return what cladding does to the first and the last step, where people stumble."""
    first, last = clad_rises(rise_mm=found.steps.rise_mm, clad_mm=clad_mm)
    return (
        f"▲ Clad {clad_mm} mm thick: if the floors do not come up by as much, the first rise is {figure(first, 1)} mm "
        f"and the last {figure(last, 1)} mm. Rises may differ by 5 mm (DIN 18065) or 9.5 mm (IRC, from memory)."
    )


def stairs_lines_of(flights: Sequence[Flight]) -> Iterator[str]:
    """Yield the stairs of a job for print: a line for each flight, and one for each rule it breaks."""
    for flight in flights:
        try:
            found = flight_sum(flight.measured)
        except Refused as no:
            yield f"{clean(flight.name)}: ▲ {no}"
            continue
        clad = f"clad with {clean(flight.board)}" if flight.board else "ready treads"
        yield f"{clean(flight.name)}: {say_steps(found)}; {clad}"
        yield from (f"  ✗ {say_fault(one, found.steps.code_source)}" for one in found.checks if not one.ok)
    if flights:
        yield f"  ▲ Caution: {STAIRS_CAUTION}"


def code_options() -> list[tuple[str, str]]:
    """Return the building codes to choose from."""
    return [(code, CODES[code]) for code in STAIR_CODES]
