"""The sums for what is fitted beside the floor: the parts of a flight of stairs, and a room's skirting."""

import argparse
import dataclasses
from decimal import Decimal
from pathlib import Path

from store.papers.on_disk import read_whole
from store.papers.room_in import read_room
from store.trade.skirting import Skirting, skirting
from store.trade.stairs import STAIR_CODES, Stairs, stair_board, stairs
from tui.command.sums_on_offer import Sum, option, word
from tui.words.parts import skirting_lines, stairs_lines


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


def _skirting(asked: argparse.Namespace) -> Skirting:
    room, finds = read_room(read_whole(Path(asked.room)))
    return skirting(
        outline=room.outline,
        cut_outs=room.cut_outs,
        doorways=finds.doorways,
        stick_mm=asked.stick,
        kerf_mm=asked.kerf,
        thickness_mm=asked.thickness,
    )


def _skirting_text(answer: object) -> str:
    if not isinstance(answer, Skirting):
        raise TypeError(answer)
    return "".join(f"{line}\n" for line in skirting_lines(answer))


def _skirting_keys(answer: object) -> dict[str, object]:
    if not isinstance(answer, Skirting):
        raise TypeError(answer)
    return {
        "metres": answer.along_mm / 1000,
        "left_out_metres": answer.left_out_mm / 1000,
        **dataclasses.asdict(answer.cutting),
        "pieces": [dataclasses.asdict(piece) for piece in answer.pieces],
    }


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
    "skirting": Sum(
        about="The skirting of a room of a file: every piece, its corners, and the fewest sticks.",
        options=(
            word("room", "a file that holds a room as in a job folder"),
            option("stick", "mm, a stick as sold"),
            option("kerf", "mm lost at a cut", Decimal(3)),
            option("thickness", "mm of the skirting", Decimal(16)),
        ),
        work_out=_skirting,
        rule=skirting,
        keys=_skirting_keys,
        text=_skirting_text,
        at_once=False,
        keys_told=(
            "metres, left_out_metres, sticks, at_least, proved, cuts, left_mm, pieces (ring, wall, letter, from_mm, "
            "along_mm, cut_mm, begins, ends; each end has how, corner_deg, saw_deg)"
        ),
    ),
}
