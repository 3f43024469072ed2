"""Says what stairs, skirting and glue by the notch come to, for screens and print alike, a line for each thing."""

from collections.abc import Iterator

from store.trade.glue import Glue
from store.trade.skirting import End, PieceEnd, Skirting, SkirtingPiece
from store.trade.stairs import StairCheck, Stairs
from store.trade.trims import Trims
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


def skirting_lines(answer: Skirting) -> Iterator[str]:
    """Yield the skirting of a room in words: what it comes to, what to cut, then every piece where it goes."""
    along, left_out = figure(answer.along_mm / 1000), figure(answer.left_out_mm / 1000)
    yield f"Skirting: {along} m in {counted(len(answer.pieces), 'piece')}"
    yield f"Left out: {left_out} m of doorways, and where a cut-out stands against a wall"
    yield f"Sticks: {sticks_line(answer.cutting)}"
    yield from cut_lines(answer.cutting)
    for piece in answer.pieces:
        yield piece_line(piece)
    if any(End.MITRED in (piece.begins.how, piece.ends.how) for piece in answer.pieces):
        yield "Mitres: the saw's angle from square, on the corner's own angle"
    if any(End.BUTTED in (piece.begins.how, piece.ends.how) for piece in answer.pieces):
        yield "Inner corners: butted; cut the second piece back by a thickness when fitting"


def piece_line(piece: SkirtingPiece) -> str:
    """Return a piece, its place, its length and its ends, in one line."""
    how = f"{end_words(piece.begins)} and {end_words(piece.ends)}"
    return f"{piece_place(piece)}: {piece.cut_mm} mm from {figure(piece.from_mm, 0)}; {how}"


def piece_place(piece: SkirtingPiece) -> str:
    """Return the wall a piece goes on, by its letter."""
    return f"Wall {piece.letter}" if piece.ring == 0 else f"Cut-out {piece.ring}, wall {piece.letter}"


def end_words(end: PieceEnd) -> str:
    """Return how a piece ends; at a mitre with the saw's angle from square and the corner's own."""
    if end.saw_deg is not None and end.corner_deg is not None:
        return f"mitre {figure(end.saw_deg, 1)}° on {figure(end.corner_deg, 1)}°"
    return str(end.how.value)


def sticks_line(cutting: Trims) -> str:
    """Return how many sticks, and whether fewer could do.

    >>> from store.trade.trims import trims
    >>> sticks_line(trims(stick_mm=2400, kerf_mm=3, pieces_mm=[1200] * 4))
    '4 sticks; no list needs fewer.'
    """
    return f"{counted(cutting.sticks, 'stick')}; {say_fewest(proved=cutting.proved, at_least=cutting.at_least)}."


def say_fewest(*, proved: bool, at_least: int) -> str:
    """Return whether a list with fewer sticks could be.

    >>> say_fewest(proved=False, at_least=24)
    'the fewest found, not proved: 24 might do, fewer cannot'
    """
    return "no list needs fewer" if proved else f"the fewest found, not proved: {at_least} might do, fewer cannot"


def cut_lines(cutting: Trims) -> Iterator[str]:
    """Yield what is cut from each stick, in mm."""
    for place, (cuts, left) in enumerate(zip(cutting.cuts, cutting.left_mm, strict=True), start=1):
        yield f"Stick {place}: {' + '.join(str(cut) for cut in cuts)}, {left} left"


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
