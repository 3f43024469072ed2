"""Says what stairs and glue by the notch come to, for screens and print alike: a line for each thing told."""

from collections.abc import Iterator

from store.trade.glue import Glue
from store.trade.stairs import StairCheck, Stairs
from tui.words.wording import clean, counted, figure


def stairs_lines(answer: Stairs) -> Iterator[str]:
    """Yield a flight of stairs in words, 80 columns at most, each line opened by what it is about."""
    yield f"Verdict: {'✓ within the limits looked at' if answer.ok else '✗ not within the limits'}"
    steps = counted(answer.risers, "riser")
    yield f"Steps: {steps} of {figure(answer.rise_mm, 1)} mm, {counted(answer.treads, 'tread')}"
    yield f"Going: {figure(answer.going_mm, 1)} mm, so 2R + G is {figure(answer.twice_rise_and_going_mm, 1)} mm"
    for check in answer.checks:
        yield f"{'✓' if check.ok else '✗'} {check.what}: {_check(check)}"
    depth, piece = figure(answer.tread_depth_mm, 1), figure(answer.piece_mm, 1)
    yield f"Treads: {answer.treads} of {piece} × {depth} mm, {figure(answer.tread_m2)} m²"
    yield f"Risers: {answer.risers} of {piece} × {figure(answer.rise_mm, 1)} mm, {figure(answer.riser_m2)} m²"
    yield f"Nosing: {answer.nosings} of {piece} mm, the landing's too, {figure(answer.nosing_m)} m"
    if answer.boards is not None:
        boards = answer.boards
        yield f"Boards: {boards.tread_boards} for treads, {boards.riser_boards} for risers"
        yield f"Sticks of nosing: {boards.nosing_sticks}, as long as the boards"
    yield f"Limits: {answer.code_source}"
    yield "Caution: the local building code and its officer decide, not this sum"


def notch_lines(answer: Glue) -> Iterator[str]:
    """Yield what is to be known of a rate taken from a notch; nothing where the rate was given."""
    if answer.by_notch:
        spreads = f"usually spreads {figure(answer.rate_g_per_m2, 0)} g/m²"
        yield f"Notch {clean(answer.by_notch).strip().upper()}: {spreads}, a figure from memory."
        yield "Caution: the glue maker's sheet goes before it; so do your own tubs, weighed."


def _check(check: StairCheck) -> str:
    unit = check.unit if check.unit == "°" else f" {check.unit}"
    value = f"{figure(check.value, 1)}{unit}"
    if check.least is not None and check.most is not None:
        return f"{value}, {check.least} to {check.most} is allowed"
    if check.most is not None:
        return f"{value}, {check.most} is the most"
    return f"{value}, {check.least} is the least"
