"""What closed jobs taught, as a report: the cut loss by kind of floor and by fitter, glue, and worth by job."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from math import fsum

from store.trade.jobs import Subfloor
from store.trade.products import Product
from store.trade.surveyed import Pattern
from store.trade.taught.figures import ENOUGH_FOR, expected_percent, quantile, suggested_percent, trade_percent
from store.trade.taught.nouns import PastFloor, PastGlue, Shape, SizeBand


class By(StrEnum):
    """What the floors of a line have in common."""

    ALL = "all"
    PATTERN = "pattern"
    WIDTH = "width"
    SHAPE = "shape"
    SIZE = "size"
    FITTER = "fitter"


Of = Pattern | Shape | SizeBand | int | str | None
"""What they have in common it is: a board's width in mm, a fitter's name; None where rooms of one floor differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LossLine:
    """The cut loss of some floors together, % of the floor laid.

    ``allowed_percent`` is what plans and allowances said, ``planned`` of the ``floors`` were planned board by board;
    ``enough_percent`` would have been enough for nine of ten of them, ``suggested_percent`` is that figure pulled
    toward ``trade_percent``, and ``expected_percent`` what the next one takes on average. ``refs`` are the jobs behind
    it, the latest closed first.
    """

    by: By
    of: Of
    refs: tuple[str, ...]
    floors: int
    planned: int
    laid_mm2: int
    real_percent: float
    allowed_percent: float
    trade_percent: float
    enough_percent: float
    suggested_percent: float
    expected_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueLine:
    """The glue under some floors together, g/m²; ``sheet_g_per_m2`` is the tub's, ``refs`` are the jobs behind it."""

    product: str
    refs: tuple[str, ...]
    notch: str
    base: Subfloor | None
    floors: int
    glued_mm2: int
    real_g_per_m2: float
    enough_g_per_m2: float
    sheet_g_per_m2: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthLine:
    """What the material of one job was worth at what its orders paid, in minor units.

    ``wasted_minor`` is the cut loss, what was scrapped and what nobody can account for; ``left_minor`` what was kept or
    given back. Where no order names a price it is the one on the product's card today;
    ``unpriced`` are the products without one, which count nothing.
    """

    ref: str
    title: str
    closed_at: datetime
    ordered_minor: int
    used_minor: int
    wasted_minor: int
    left_minor: int
    adds_up: bool
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What closed jobs taught; ``left_out`` floors have packs that do not add up, and stand in no figure of loss."""

    floors: int = 0
    left_out: int = 0
    losses: tuple[LossLine, ...] = ()
    glues: tuple[GlueLine, ...] = ()
    worths: tuple[WorthLine, ...] = ()


def report_on(floors: Sequence[PastFloor], glues: Sequence[PastGlue]) -> Report:
    """Return the report on these lessons; jobs the latest closed first."""
    good = [one for one in floors if one.lesson.adds_up]
    return Report(
        floors=len(good),
        left_out=len(floors) - len(good),
        losses=tuple(_losses(good)),
        glues=_glues(glues),
        worths=_worths(floors, glues),
    )


def loss_line(by: By, of: Of, floors: Sequence[PastFloor]) -> LossLine:
    """Return the cut loss of some floors together; there is at least one."""
    return _line(by, of, [_figured(one) for one in floors])


@dataclass(frozen=True, slots=True)
class _Figured:
    """A floor with its figures worked out once, however many lines it stands in."""

    past: PastFloor
    laid_mm2: int
    lost_mm2: float
    real_percent: float
    trade_percent: float


def _figured(one: PastFloor) -> _Figured:
    lesson, used = one.lesson, one.used_mm2
    laid = lesson.laid_mm2
    trade = trade_percent(lesson.pattern, lesson.shape, lesson.size)
    return _Figured(one, laid, used - laid, 100 * (used - laid) / laid, trade)


def _line(by: By, of: Of, floors: Sequence[_Figured]) -> LossLine:
    laid = sum(one.laid_mm2 for one in floors)
    trade = fsum(one.laid_mm2 * one.trade_percent for one in floors) / laid
    losses = [one.real_percent for one in floors]
    return LossLine(
        by=by,
        of=of,
        refs=_refs([one.past for one in floors]),
        floors=len(floors),
        planned=sum(one.past.lesson.planned for one in floors),
        laid_mm2=laid,
        real_percent=100 * fsum(one.lost_mm2 for one in floors) / laid,
        allowed_percent=fsum(one.laid_mm2 * one.past.lesson.allowed_percent for one in floors) / laid,
        trade_percent=trade,
        enough_percent=quantile(losses, ENOUGH_FOR),
        suggested_percent=suggested_percent(losses, trade),
        expected_percent=expected_percent([(one.laid_mm2, one.lost_mm2) for one in floors], trade),
    )


def _refs(past: Sequence[PastFloor | PastGlue]) -> tuple[str, ...]:
    latest = sorted(past, key=lambda one: (one.closed_at.timestamp(), one.ref), reverse=True)
    return tuple(dict.fromkeys(one.ref for one in latest))


_KINDS: tuple[tuple[By, Callable[[PastFloor], Iterable[Of]]], ...] = (
    (By.ALL, lambda _: ("",)),
    (By.PATTERN, lambda one: (one.lesson.pattern,)),
    (By.WIDTH, lambda one: (one.board.width_mm,)),
    (By.SHAPE, lambda one: (one.lesson.shape,)),
    (By.SIZE, lambda one: (one.lesson.size,)),
    # A floor laid by two counts for each of them; one that nobody was booked on counts for nobody.
    (By.FITTER, lambda one: one.lesson.fitters),
)


def _losses(floors: Sequence[PastFloor]) -> Iterable[LossLine]:
    """One line for each kind of floor, those with the most floors behind them first."""
    figured = [_figured(one) for one in floors]
    for by, kinds in _KINDS:
        groups: defaultdict[Of, list[_Figured]] = defaultdict(list)
        for one in figured:
            for kind in kinds(one.past):
                groups[kind].append(one)
        for of, group in sorted(groups.items(), key=lambda pair: (-len(pair[1]), str(pair[0]))):
            yield _line(by, of, group)


def _glues(glues: Sequence[PastGlue]) -> tuple[GlueLine, ...]:
    groups: defaultdict[tuple[str, str, Subfloor | None], list[PastGlue]] = defaultdict(list)
    for one in glues:
        if one.lesson.glued_mm2 > 0:
            groups[one.lesson.product, one.lesson.notch, one.lesson.base].append(one)
    ordered = sorted(groups.items(), key=lambda pair: (-len(pair[1]), pair[0][0], pair[0][1], str(pair[0][2])))
    return tuple(_glue_line(group) for _, group in ordered)


def _glue_line(group: Sequence[PastGlue]) -> GlueLine:
    first, glued = group[0], sum(one.lesson.glued_mm2 for one in group)
    rates = [1_000_000 * one.grams / one.lesson.glued_mm2 for one in group]
    return GlueLine(
        product=first.lesson.product,
        refs=_refs(group),
        notch=first.lesson.notch,
        base=first.lesson.base,
        floors=len(group),
        glued_mm2=glued,
        real_g_per_m2=1_000_000 * sum(one.grams for one in group) / glued,
        enough_g_per_m2=quantile(rates, ENOUGH_FOR),
        sheet_g_per_m2=first.glue.rate_g_per_m2,
    )


def _worths(floors: Sequence[PastFloor], glues: Sequence[PastGlue]) -> tuple[WorthLine, ...]:
    boards: defaultdict[str, list[PastFloor]] = defaultdict(list)
    tubs: defaultdict[str, list[PastGlue]] = defaultdict(list)
    for floor in floors:
        boards[floor.ref].append(floor)
    for glue in glues:
        tubs[glue.ref].append(glue)
    lines = (_worth(group, tubs[ref]) for ref, group in boards.items())
    return tuple(sorted(lines, key=lambda line: (-line.closed_at.timestamp(), line.ref)))


def _worth(floors: Sequence[PastFloor], glues: Sequence[PastGlue]) -> WorthLine:
    first = floors[0]
    priced: list[tuple[Product, int]] = [(one.board, one.price[0]) for one in floors]
    priced += [(one.glue, one.price[0]) for one in glues]
    glue_ordered = sum(_tubs(one, one.lesson.ordered) for one in glues)
    glue_used = sum(_tubs(one, one.lesson.tubs) for one in glues)
    glue_left = sum(_tubs(one, max(0, one.lesson.ordered - one.lesson.tubs)) for one in glues)
    return WorthLine(
        ref=first.ref,
        title=first.title,
        closed_at=first.closed_at,
        ordered_minor=sum(_boards(one, one.lesson.ordered) for one in floors) + glue_ordered,
        used_minor=sum(_boards(one, one.lesson.used) for one in floors) + glue_used,
        wasted_minor=sum(_wasted(one) for one in floors),
        left_minor=sum(_boards(one, one.lesson.kept) for one in floors) + glue_left,
        adds_up=all(one.lesson.adds_up for one in floors),
        unpriced=tuple(sorted({product.code for product, minor in priced if not minor})),
    )


def _boards(one: PastFloor, boards: int) -> int:
    """What so many boards of a floor cost, in minor units, rounded half up."""
    minor, packs = one.price
    return _half_up(boards * minor, one.board.boards_per_pack * packs)


def _tubs(one: PastGlue, tubs: int) -> int:
    """What so many tubs of a glue cost, in minor units, rounded half up."""
    minor, packs = one.price
    return _half_up(tubs * minor, packs)


def _wasted(one: PastFloor) -> int:
    """What was cut off, scrapped or cannot be accounted for, in minor units, rounded half up."""
    pack_mm2, per_pack = one.board.pack_mm2, one.board.boards_per_pack
    cut_off = max(0, one.lesson.used * pack_mm2 - one.lesson.laid_mm2 * per_pack)
    lost = (one.lesson.scrapped + max(0, one.lesson.gone)) * pack_mm2
    minor, packs = one.price
    return _half_up((cut_off + lost) * minor, pack_mm2 * per_pack * packs)


def _half_up(number: int, by: int) -> int:
    """A quotient of whole numbers, rounded half up; whole numbers, because thousands of floors are told at once."""
    return (2 * number + by) // (2 * by)
