"""The words for what closed jobs taught: lines, sentences, and bars drawn in text."""

from store.trade.taught.figures import own_weight
from store.trade.taught.hints import Hint
from store.trade.taught.nouns import Shape, SizeBand
from store.trade.taught.report import By, GlueLine, LossLine, Report, WorthLine
from tui.words.facts import say_list
from tui.words.vocabulary import PATTERNS, SUBFLOORS
from tui.words.wording import clean, counted, say_area, say_money

BYS: dict[By, str] = {
    By.ALL: "All",
    By.PATTERN: "Pattern",
    By.WIDTH: "Board width",
    By.SHAPE: "Room shape",
    By.SIZE: "Room size",
    By.FITTER: "Fitter",
}
SHAPES: dict[Shape, str] = {
    Shape.RECTANGLE: "rectangle",
    Shape.CORNERS: "with corners or recesses",
    Shape.CUT_UP: "cut up",
}
SIZES: dict[SizeBand, str] = {
    SizeBand.SMALL: "under 12 m²",
    SizeBand.MIDDLE: "12 to 30 m²",
    SizeBand.LARGE: "over 30 m²",
}
NOTHING_YET = (
    "No job is closed yet, so nothing is taught.\n\n"
    "A job teaches once it is closed: every floor laid and cured, its leftovers counted (k in its folder, the section "
    "Close-out) and the handover signed (g). Then its real cut loss stands here beside what its lay plan or allowance "
    "said, and its glue by notch and base.\n\n"
    "Write down the packs opened (l, as laying begins) and the tubs used (l, as it ends): the figures are as good as "
    "those. Book who lays a floor (7, the diary), and fitters can be told apart."
)
FULL, MARK = "█", "│"


def say_of(line: LossLine) -> str:
    """Return what the floors of a line share: “herringbone”, “190 mm”, “Maren Holt”."""
    if line.by is By.ALL:
        return "every floor"
    if line.of is None:
        return "rooms that differ"
    if isinstance(line.of, Shape):
        return SHAPES[line.of]
    if isinstance(line.of, SizeBand):
        return SIZES[line.of]
    if isinstance(line.of, int):
        return f"{line.of} mm"
    return next((words for pattern, words in PATTERNS.items() if pattern is line.of), clean(str(line.of)))


def say_loss(percent: float) -> str:
    """Return a cut loss to the tenth, so that figures below each other line up: “11.5 %”, “7.0 %”."""
    return f"{percent:.1f} %".replace("-", "−")


def say_rate(g_per_m2: float) -> str:
    """Return glue to the gram: “1,392 g/m²”."""
    return f"{g_per_m2:,.0f} g/m²"


def bar(value: float, top: float, width: int, mark: float | None = None) -> str:
    """Return a bar of text for a figure from 0 to ``top``, with a stroke where another figure would end.

    >>> bar(6, 12, 10), bar(6, 12, 10, mark=9), bar(9, 12, 8, mark=3)
    ('█████', '█████   │', '██│███')
    """
    cells = 0 if top <= 0 else max(0, min(width, round(value / top * width)))
    drawn = FULL * cells
    if mark is None or top <= 0:
        return drawn
    at = max(0, min(width - 1, round(mark / top * width)))
    drawn = f"{drawn:<{at + 1}}"
    return f"{drawn[:at]}{MARK}{drawn[at + 1 :]}"


def say_report(report: Report) -> str:
    """Return how much there is to learn from, and what was left out."""
    words = f"{counted(report.floors, 'floor')} of closed jobs"
    if report.left_out:
        words += f"; {counted(report.left_out, 'floor')} left out, because the packs do not add up"
    return f"{words}."


def say_floors(line: LossLine) -> tuple[str, ...]:
    """Return a line of cut loss in sentences: what was said and taken, what would do, and what that rests on."""
    said = "The plans said" if line.planned == line.floors else "Allowed was"
    if 0 < line.planned < line.floors:
        said = "Plans and allowances said"
    weight = round(100 * own_weight(line.floors))
    return (
        f"{BYS[line.by]}, {say_of(line)}: {counted(line.floors, 'floor')}, {say_area(line.laid_mm2)}.",
        f"{said} {say_loss(line.allowed_percent)}, {_they(line.floors)} took {say_loss(line.real_percent)}. "
        f"{_enough(line)}",
        f"For the next: {say_loss(line.suggested_percent)}, {weight} % of it your own, the rest common practice "
        f"({say_loss(line.trade_percent)} on average).",
    )


def _they(floors: int) -> str:
    return "it" if floors == 1 else "they"


def _enough(line: LossLine) -> str:
    if line.floors == 1:
        return "One floor says little."
    return f"For 9 of 10 of them {say_loss(line.enough_percent)} would have been enough."


def say_glue(line: GlueLine) -> str:
    """Return what the glue of a line was spread with and on: “MS-15, notch B11, on OSB”."""
    notch = f"notch {clean(line.notch)}" if line.notch else "notch not said"
    base = SUBFLOORS[line.base] if line.base else "bases that differ"
    return f"{clean(line.product)}, {notch}, on {base}"


def say_glue_whole(line: GlueLine) -> tuple[str, ...]:
    """Return a line of glue in sentences."""
    more = f" For 9 of 10 of them {say_rate(line.enough_g_per_m2)} would have been enough."
    return (
        f"{say_glue(line)}: {counted(line.floors, 'floor')}, {say_area(line.glued_mm2)}.",
        f"The sheet says {say_rate(line.sheet_g_per_m2)}, {_they(line.floors)} took {say_rate(line.real_g_per_m2)}."
        f"{more if line.floors > 1 else ' One floor says little.'}",
        "Tubs are counted whole, so a rest in the last one counts as used.",
    )


def say_worth(line: WorthLine, currency: str) -> tuple[str, ...]:
    """Return what a job's material was worth, in sentences."""
    unpriced = f" {say_list(clean(code) for code in line.unpriced)} has no price on file." if line.unpriced else ""
    rest = line.ordered_minor - line.used_minor - line.left_minor
    where = [
        f"used {say_money(line.used_minor, currency)}",
        f"kept or given back {say_money(line.left_minor, currency)}" if line.left_minor else "",
        f"thrown away or missing {say_money(rest, currency)}" if rest > 0 else "",
    ]
    odd = " ▲ Its packs do not add up." if not line.adds_up else ""
    return (
        f"{clean(line.ref)} {clean(line.title)}.{odd}",
        f"Ordered {say_money(line.ordered_minor, currency)}: {say_list(filter(None, where))}. "
        f"Cut off or lost in all {say_money(line.wasted_minor, currency)}.",
        f"At what its orders paid, else at the prices on file today.{unpriced}",
    )


def say_hint(hint: Hint) -> str:
    """Return what the latest floors like a room say, in one or two sentences."""
    line = hint.line
    kind = PATTERNS[hint.pattern]
    if hint.width_mm is not None:
        kind += f" of {hint.width_mm} mm"
    if hint.shape is not None:
        kind += f", rooms {_ROOMS[hint.shape]}"
    many = f"last {line.floors} floors" if line.floors > 1 else "only closed floor"
    planned = "the plan said" if line.planned == line.floors else "allowed"
    words = f"Your {many} in {kind} took {say_loss(line.real_percent)} ({planned} {say_loss(line.allowed_percent)})"
    if line.floors > 1:
        words += f"; for 9 of 10 of them {say_loss(line.enough_percent)} would have been enough"
    return f"{words}. With common practice weighed in: {say_loss(line.suggested_percent)}."


_ROOMS = {
    Shape.RECTANGLE: "with four corners",
    Shape.CORNERS: "with corners or recesses",
    Shape.CUT_UP: "that are cut up",
}
