"""The sums for what is fitted beside the floor: the parts of a flight of stairs."""

import argparse
from decimal import Decimal

from store.trade.stairs import STAIR_CODES, Stairs, stair_board, stairs
from tui.command.sums_on_offer import Sum, option, word
from tui.words.parts import stairs_lines


def _stairs(asked: argparse.Namespace) -> Stairs:
    return stairs(
        total_rise_mm=asked.total_rise,
        going_mm=asked.going,
        width_mm=asked.width,
        code=asked.code,
        risers=asked.risers,
        rise_mm=asked.rise,
        nosing_mm=asked.nosing,
        board=stair_board(length_mm=asked.board_length, width_mm=asked.board_width, kerf_mm=asked.kerf),
    )


def _stairs_text(answer: object) -> str:
    if not isinstance(answer, Stairs):
        raise TypeError(answer)
    return "".join(f"{line}\n" for line in stairs_lines(answer))


PARTS: dict[str, Sum] = {
    "stairs": Sum(
        about="A straight flight of stairs: its steps against a building code, and its treads, risers and nosings.",
        options=(
            option("total-rise", "mm from finished floor to finished floor"),
            option("going", "mm from nosing to nosing, level"),
            option("width", "mm of the flight"),
            word("code", "the limits it is held against", *STAIR_CODES),
            option("risers", "how many, where that is known", optional=True),
            option("rise", "mm, the rise preferred; the code's highest if left out", optional=True),
            option("nosing", "mm that a tread stands out", Decimal(25)),
            option("board-length", "mm, a board for treads and risers", optional=True),
            option("board-width", "mm, its width", optional=True),
            option("kerf", "mm lost at a cut", Decimal(3)),
        ),
        work_out=_stairs,
        rule=stairs,
        text=_stairs_text,
        keys_told=(
            "risers, rise_mm, going_mm, treads, twice_rise_and_going_mm, pitch_deg, ok, code_source, "
            "checks (what, value, unit, least, most, ok), tread_depth_mm, piece_mm, tread_m2, riser_m2, nosings, "
            "nosing_m, boards (tread_boards, riser_boards, nosing_sticks; null without a board)"
        ),
    ),
}
