"""The sums for pattern floors: blocks of a herringbone or a chevron, and what a diagonal lay loses more."""

import argparse
from dataclasses import dataclass
from decimal import Decimal

from store.trade.layout.blocks import BlockCount, chevron, diagonal_extra_percent, herringbone
from store.trade.units import exact
from tui.command.laying_sum import whole_mm
from tui.command.sums_on_offer import Sum, option

MM2_IN_M2 = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class DiagonalLoss:
    """What a straight floor loses more when it is laid at 45°, in percent of the floor."""

    extra_loss_percent: float


def _herringbone(asked: argparse.Namespace) -> BlockCount:
    return herringbone(
        area_mm2=round(exact(asked.area, what="The area") * MM2_IN_M2),
        perimeter_mm=float(exact(asked.perimeter, what="The perimeter") * 1000),
        length_mm=whole_mm(asked.length, "length of a block"),
        width_mm=whole_mm(asked.width, "width of a block"),
        unused_share=float(exact(asked.unused, what="The share not used again") / 100),
    )


def _chevron(asked: argparse.Namespace) -> BlockCount:
    return chevron(
        across_mm=whole_mm(asked.across, "width of the room"),
        along_mm=whole_mm(asked.along, "length of the room"),
        length_mm=whole_mm(asked.length, "length of a block"),
        width_mm=whole_mm(asked.width, "width of a block"),
        end_deg=float(exact(asked.end, what="The angle of the ends")),
    )


def _diagonal(asked: argparse.Namespace) -> DiagonalLoss:
    extra = diagonal_extra_percent(
        area_mm2=round(exact(asked.area, what="The area") * MM2_IN_M2),
        perimeter_mm=float(exact(asked.perimeter, what="The perimeter") * 1000),
        width_mm=whole_mm(asked.width, "width of a board"),
    )
    return DiagonalLoss(extra_loss_percent=extra)


PATTERNS: dict[str, Sum] = {
    "herringbone": Sum(
        about="Blocks of a herringbone floor, left-hand and right-hand, with what the border loses.",
        options=(
            option("area", "m² of floor, a border taken off first"),
            option("perimeter", "m, along its walls"),
            option("length", "mm, a block"),
            option("width", "mm, a block"),
            option("unused", "% of the border's offcuts not used again", Decimal(50)),
        ),
        work_out=_herringbone,
        rule=herringbone,
    ),
    "chevron": Sum(
        about="Blocks of a chevron floor in a room with four right angles, left-hand and right-hand.",
        options=(
            option("across", "mm, across the columns"),
            option("along", "mm, along the columns"),
            option("length", "mm, a block"),
            option("width", "mm, a block"),
            option("end", "° at which the ends are cut", Decimal(45)),
        ),
        work_out=_chevron,
        rule=chevron,
    ),
    "diagonal": Sum(
        about="What straight boards lose more when the floor is laid at 45°.",
        options=(
            option("area", "m² of floor"),
            option("perimeter", "m, along its walls"),
            option("width", "mm, a board"),
        ),
        work_out=_diagonal,
        rule=diagonal_extra_percent,
    ),
}
