"""The sums for what goes under and beside a floor: film, primer, stairs, a room's skirting, and its screws."""

import argparse
import dataclasses
from decimal import Decimal
from pathlib import Path

from store.papers.on_disk import read_whole
from store.papers.room_in import read_room
from store.trade.film import film
from store.trade.primer import USUAL_CANISTER_KG, USUAL_G_PER_M2, primer
from store.trade.screws import screws
from store.trade.skirting import Skirting, skirting
from store.trade.stairs import STAIR_CODES, Stairs, stair_board, stairs
from tui.command.sums_on_offer import Option, Sum, option, pieces, word
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
    "film": Sum(
        about="Film or underlay from the roll: strips and whole rolls, with overlap and turn-up.",
        options=(
            option("along", "mm, the floor along the strips"),
            option("across", "mm, the floor across the strips"),
            option("roll-width", "mm"),
            option("roll-length", "m"),
            option("overlap", "mm from strip to strip; 0 where edges are butted", Decimal(200)),
            option("turn-up", "mm at each wall", Decimal(0)),
        ),
        work_out=lambda a: film(
            along_mm=a.along,
            across_mm=a.across,
            roll_width_mm=a.roll_width,
            roll_length_m=a.roll_length,
            overlap_mm=a.overlap,
            turn_up_mm=a.turn_up,
        ),
        rule=film,
        keys_told="strips, strip_mm, rolls, joined",
    ),
    "primer": Sum(
        about="Primer for a base, in whole canisters.",
        options=(
            option("area", "m²"),
            option("rate", "g for each m² and coat, from the primer's sheet", Decimal(USUAL_G_PER_M2)),
            option("coats", "how many", Decimal(1)),
            option("canister", "kg in a canister", Decimal(USUAL_CANISTER_KG)),
        ),
        work_out=lambda a: primer(area_m2=a.area, rate_g_per_m2=a.rate, coats=a.coats, canister_kg=a.canister),
        rule=primer,
        keys_told="kg, canisters",
    ),
    "screws": Sum(
        about="Screws for pieces of skirting or profile.",
        options=(
            Option(name="pieces", about="mm, with commas between: 3200,1150,900", read=pieces),
            option("spacing", "mm, the most from screw to screw", Decimal(400)),
            option("end", "mm from a piece's end to its first screw", Decimal(50)),
        ),
        work_out=lambda a: screws(pieces_mm=a.pieces, spacing_mm=a.spacing, end_mm=a.end),
        rule=screws,
        keys_told="screws, each",
    ),
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
