"""Says what a sum of the trade comes to, and where its rule is from."""

import inspect
import textwrap
from collections.abc import Callable, Iterator
from datetime import date

from store.trade.climate import DewPoint
from store.trade.film import Film
from store.trade.flatness import Flatness, Smoothing
from store.trade.gaps import WallGap
from store.trade.glue import Glue
from store.trade.layout.as_they_come import AsTheyCome
from store.trade.layout.blocks import BlockCount
from store.trade.layout.rows import Rows
from store.trade.moisture import EquilibriumMoisture, MoistureGap, Movement
from store.trade.primer import Primer
from store.trade.screed import Drying, FirstHeating, MoistureTests
from store.trade.screws import Screws
from store.trade.skirting import Skirting
from store.trade.stairs import Stairs
from store.trade.trims import Trims
from tui.command.laying_sum import LaidRoom
from tui.command.pattern_sums import DiagonalLoss
from tui.words.lays import lay_text
from tui.words.parts import cut_lines, notch_lines, skirting_lines, stairs_lines, sticks_line
from tui.words.wording import counted, figure, say_day


def say_sum(answer: object, today: date, columns: int = 80) -> str:
    """Return a sum's answer in words, several lines if need be."""
    if isinstance(answer, LaidRoom):
        return lay_text(answer.room, answer.lay, answer.rules, title=answer.called, columns=columns, finds=answer.finds)
    return "\n".join(_lines(answer, today))


def _lines(answer: object, today: date) -> Iterator[str]:  # noqa: C901, PLR0912, PLR0915 - one short sentence for each sum
    match answer:
        case Rows():
            first, last = figure(answer.first_mm, 1), figure(answer.last_mm, 1)
            yield f"{counted(answer.rows, 'row')}: the first {first} mm wide, the last {last} mm."
            yield f"Begun with a full board, the last would be {figure(answer.last_if_full_mm, 1)} mm."
        case EquilibriumMoisture():
            yield f"In this air wood settles at {figure(answer.emc_percent, 1)} % moisture."
        case DewPoint():
            yield f"The dew point is {figure(answer.dew_point_c, 1)} °C."
            if answer.margin_c is not None:
                enough = "✓ warm enough" if answer.ok else "✗ too cold to glue"
                yield f"{enough}: the surface is {figure(answer.margin_c, 1)} °C above it, 3 are needed."
        case Movement():
            grows = "grows" if answer.change_mm > 0 else "shrinks" if answer.change_mm < 0 else "stays as it is"
            yield f"Across its width the board {grows}" + (
                f" by {figure(abs(answer.change_mm))} mm." if answer.change_mm else "."
            )
        case Drying():
            yield f"Forecast dry after {counted(answer.days, 'day')}, on {say_day(answer.dry_on, today)}."
            yield "A forecast never releases a floor; only a reading does."
        case FirstHeating():
            yield f"Begin on {say_day(answer.start_on, today)}, full heat on {say_day(answer.full_on, today)},"
            yield f"over on {say_day(answer.end_on, today)}."
        case Flatness():
            verdict = "✓ flat enough" if answer.ok else "✗ not flat enough"
            yield f"{verdict}: the rule allows {figure(answer.limit_mm, 1)} mm."
        case Smoothing():
            yield f"{figure(answer.kg, 1)} kg, that is {counted(answer.bags, 'bag')}."
        case Glue():
            yield f"{figure(answer.kg, 1)} kg, that is {counted(answer.tubs, 'tub')}."
            yield from notch_lines(answer)
            if answer.rows_at_once is not None:
                yield f"Spread {counted(answer.rows_at_once, 'row')} at once, no more."
        case Film():
            strips = f"{counted(answer.strips, 'strip')} of {figure(answer.strip_mm / 1000)} m"
            yield f"{strips}: {counted(answer.rolls, 'roll')}."
            if answer.joined:
                yield "A strip is longer than a roll: tape the rolls' ends over one another too."
        case Primer():
            yield f"{figure(answer.kg, 1)} kg, that is {counted(answer.canisters, 'canister')}."
            yield "Caution: read the sheet first: what it may lie on, gloves, glasses, fresh air."
        case Screws():
            yield f"{counted(answer.screws, 'screw')}; by piece: {', '.join(str(count) for count in answer.each)}."
            yield "Caution: look for pipes and cables behind the wall before the first hole."
        case MoistureTests():
            yield f"{counted(answer.tests, 'test')}."
            if answer.depth_mm is not None:
                yield f"The probe sits {answer.depth_mm} mm deep."
        case MoistureGap():
            verdict = "✓ close enough" if answer.ok else "✗ too far apart"
            yield f"{verdict}: {figure(answer.difference, 1)} apart, {figure(answer.limit, 1)} is allowed."
        case Stairs():
            yield from stairs_lines(answer)
        case Trims():
            yield sticks_line(answer)
            yield from cut_lines(answer)
        case Skirting():
            yield from skirting_lines(answer)
        case BlockCount():
            yield f"{counted(answer.blocks, 'block')}: {answer.left_hand} left-hand and {answer.right_hand} right-hand."
            yield f"The loss is {figure(answer.loss_percent, 1)} % of the floor."
        case WallGap():
            yield from _wall_gap(answer)
        case AsTheyCome():
            yield from _as_they_come(answer)
        case DiagonalLoss():
            yield f"At 45° up to {figure(answer.extra_loss_percent, 1)} % of the floor is lost beyond the straight lay."
        case _:
            raise TypeError(answer)


def _wall_gap(answer: WallGap) -> Iterator[str]:
    if answer.asked_mm is None:
        yield "No rule names a figure for a floor that is held down; the board maker's sheet does."
    else:
        enough = "✓ enough" if answer.enough else "✗ too little"
        yield f"{enough}: {answer.asked_mm} mm at each wall are asked for."
        if answer.fields > 1:
            yield f"So wide a floor is parted by joints into {answer.fields} fields."
    if answer.free_movement_mm is not None:
        yield f"Lying loose, solid boards would move {figure(answer.free_movement_mm, 0)} mm over the width;"
        yield "boards in crossed layers about 70 % less."


def _as_they_come(answer: AsTheyCome) -> Iterator[str]:
    sure = figure(answer.confidence_percent, 0)
    yield f"{counted(answer.packs, 'pack')} are enough for {sure} of 100 such floors."
    yield f"They lose {figure(answer.mean_loss_percent, 1)} % on average, {sure} of 100 no more than"
    yield f"{figure(answer.high_loss_percent, 1)} %. Real packs differ; only opening them tells."


def source_of(rule: Callable[..., object]) -> str:
    """Return the sentence in a rule's docstring that names its source; empty where there is none.

    >>> from store.trade.layout.rows import rows
    >>> source_of(rows)
    'common practice, no source. A floor narrower than a board is one row of that width.'
    """
    doc = inspect.getdoc(rule) or ""
    _, found, rest = doc.partition("\nSource: ")
    return " ".join(textwrap.dedent(rest.split("\n\n")[0]).split()) if found else ""
