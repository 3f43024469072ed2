"""Says how a floor is laid: the figures, the cut list row by row for a fitter on his knees, and all of it for print."""

import math
import textwrap
from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from rich.cells import cell_len

from store.papers.brickwork import brickwork
from store.trade.layout.cuts import Cut, Kept, Offcut, RowOfCuts, rows_of_cuts
from store.trade.layout.doorway import RowsAt, rows_at
from store.trade.layout.figures import LayFigures, WallStrip, figures_of
from store.trade.layout.holes import Hole, holes_in
from store.trade.layout.lay import Lay, LayRules, Room
from store.trade.layout.looks import Looks, looks_of
from store.trade.surveyed import NOTHING_FOUND, Doorway, Finds
from store.trade.walls import wall_letter, walls_of
from tui.words.wording import clean, counted, figure

COLUMNS = 80
SET_OUT_DRY = "Set rows 1 and 2 out dry first, and check the line and the joints before a board is fixed."
_KEPT = {Kept.NEAR: "near end kept", Kept.FAR: "far end kept", Kept.NEITHER: "both ends cut"}


def say_row_name(row: RowOfCuts) -> str:
    """Return a row's number and width: “Row 1 (full width 190)”, “Row 23 (ripped to 100)”."""
    return f"Row {row.row + 1} ({say_row_width(row)})"


def say_row_width(row: RowOfCuts) -> str:
    """Return how wide a row is: “full width 190”, “ripped to 100”."""
    return f"ripped to {row.width_mm}" if row.ripped else f"full width {row.width_mm}"


def say_row(row: RowOfCuts, rules: LayRules) -> str:
    """Return what is laid in a row, from left to right, as one sentence; a ripped row says what is done first."""
    runs = [" · ".join(_said_together(run, rules)) for run in row.runs]
    said = "; then, past the break: ".join(runs) if runs else "nothing to lay"
    first = " Cut to length first, then rip." if row.ripped else ""
    return f"{say_row_name(row)}: {said}.{first}"


def _said_together(run: tuple[Cut, ...], rules: LayRules) -> Iterator[str]:
    """Yield the pieces of a run in words; four whole boards of a length and more are said at once."""
    for whole_mm, cuts in groupby(run, key=lambda cut: cut.length_mm if cut.kept is Kept.WHOLE else None):
        together = list(cuts)
        if whole_mm is None:
            yield from (say_cut(cut, rules) for cut in together)
        elif len(together) > 3:
            yield f"{len(together)} × whole {whole_mm}"
        else:
            yield from (f"whole {whole_mm}" for _ in together)


def say_cut(cut: Cut, rules: LayRules) -> str:
    """Return one piece in words, as it is cut and what becomes of the rest.

    “cut 1580 from board 3 (3a), near end kept, offcut 317 → row 4”.
    """
    if cut.kept is Kept.WHOLE:
        return f"whole {cut.length_mm} (board {cut.mark})"
    board = cut.piece.board
    if cut.out_of_mm is None:
        said = f"cut {cut.length_mm} from board {board} ({cut.mark})"
    elif cut.out_of_mm == cut.length_mm:
        said = f"the offcut {cut.length_mm} of board {board} ({cut.mark})"
    else:
        said = f"cut {cut.length_mm} from the offcut {cut.out_of_mm} of board {board} ({cut.mark})"
    return ", ".join([said, _KEPT[cut.kept], *(_say_offcut(offcut, rules) for offcut in cut.leaves)])


def _say_offcut(offcut: Offcut, rules: LayRules) -> str:
    if offcut.rows:
        rows = " and ".join(str(row + 1) for row in offcut.rows)
        return f"offcut {offcut.length_mm} → row{'s' if len(offcut.rows) > 1 else ''} {rows}"
    return f"{offcut.length_mm} {'left over' if offcut.length_mm >= rules.shortest_mm else 'waste'}"


def say_boards(lay: Lay) -> str:
    """Return the boards of a lay with their lengths: “31 boards of 1900”, “14 boards of 1900 and 2 of 1000”."""
    if not lay.board_lengths_mm:
        return f"{counted(lay.boards, 'board')} of {lay.board.length_mm}"
    used = Counter(lay.board_lengths_mm)
    first, *rest = [(used[length], length) for length, _ in lay.board.lengths if used[length]]
    said = [f"{counted(first[0], 'board')} of {first[1]}", *(f"{count} of {length}" for count, length in rest)]
    return " and ".join([", ".join(said[:-1]), said[-1]]) if rest else said[0]


def say_best(figures: LayFigures, lay: Lay) -> str:
    """Return how good a lay is: “proved best”, or how many boards it is at most from perfect.

    Perfect is a number of boards that no lay can beat; of packs, where they hold boards of several lengths.
    """
    if lay.board.lengths:
        least_packs = -(-lay.least_boards // lay.board.boards_per_pack)
        if lay.proved_best:
            return "proved best: no lay takes fewer packs"
        return f"at most {counted(lay.packs - least_packs, 'pack')} from perfect ({least_packs})"
    if lay.proved_best:
        return "proved best: no lay takes fewer boards"
    return f"at most {counted(figures.boards_from_perfect, 'board')} from perfect ({lay.least_boards})"


def say_wall(strip: WallStrip, room: Room) -> str:
    """Return a wall by name: “wall D (1500 mm)”, “a wall of cut-out 1”."""
    ring = room.outline if strip.cut_out is None else room.cut_outs[strip.cut_out]
    length = figure(math.dist(*walls_of(ring)[strip.wall]), 0)
    if strip.cut_out is None:
        return f"wall {wall_letter(strip.wall)} ({length} mm)"
    return f"the {length} mm side of what is left out"


def say_narrowest(figures: LayFigures, room: Room, rules: LayRules) -> str:
    """Return the narrowest strip at any wall, and whether it is too narrow; empty where no wall runs along the rows."""
    if not figures.at_walls:
        return ""
    strip = figures.at_walls[0]
    said = f"{figure(strip.width_mm, 0)} mm in row {strip.row + 1}, at {say_wall(strip, room)}"
    if not is_too_narrow(figures, rules):
        return said
    if strip.between:
        return f"{said}: less than {rules.least_mm} mm, between two walls"
    start = "another start would keep it" if figures.some_start_keeps else "no start keeps it at every wall"
    return f"{said}: less than {rules.least_mm} mm; {start}"


def is_too_narrow(figures: LayFigures, rules: LayRules) -> bool:
    """Whether a strip at some wall is narrower than the rules want."""
    return bool(figures.at_walls) and figures.at_walls[0].width_mm < rules.least_mm


def say_doorway(door: Doorway, met: RowsAt | None, rules: LayRules) -> str:
    """Return how rows meet a doorway: “wall C to Hall: rows 4 to 8 run through, 37 and 190 mm beside the jambs”."""
    to = f" to {clean(door.to)}" if door.to else ""
    place = f"wall {wall_letter(door.wall)}{to}"
    if met is None:
        return f"{place}: no row reaches it"
    ways = sorted(((met.first_row, met.at_jambs_mm[0]), (met.last_row, met.at_jambs_mm[1])))
    (first, _), (last, _) = ways
    rows = f"row {first + 1}" if first == last else f"rows {first + 1} to {last + 1}"
    sign = "▲ " if is_sliver(met, rules) else ""
    if met.along:
        lies = "lies" if first == last else "lie"
        return f"{sign}{place}: {rows} {lies} along it, {figure(met.at_jambs_mm[0], 0)} mm wide"
    beside = " and ".join(figure(width, 0) for _, width in ways)
    return f"{sign}{place}: {rows} run through, {beside} mm beside the jambs"


def is_sliver(met: RowsAt, rules: LayRules) -> bool:
    """Whether what lies beside a jamb, or along a doorway, is narrower than the rules want of a row at a wall."""
    return min(met.at_jambs_mm) < rules.least_mm


def say_first_wall(figures: LayFigures, room: Room) -> str:
    """Return the wall that the first row lies along: “along wall A (5400 mm)”; empty where there is none."""
    found = [one for one in figures.at_walls if one.row == 0 and one.cut_out is None]
    return f"along {say_wall(found[0], room)}" if found else ""


def say_looks(looks: Looks) -> str:
    """Return what shows of the joints: “2 joints in line with those two rows before, no stairs; 14 lengths to cut”."""
    line = (
        f"{counted(looks.in_line, 'joint')} in line with one two rows before" if looks.in_line else "no joints in line"
    )
    stairs = f"{counted(looks.stairs, 'joint')} in stairs" if looks.stairs else "no stairs"
    return f"{line}, {stairs}; {counted(looks.cut_lengths, 'length')} to cut"


def say_left_over(figures: LayFigures, rules: LayRules) -> str:
    """Return the offcuts that no row takes, those too short for any use together: “835, 368 and 5 shorter ones”."""
    useful = [length for length in figures.left_over_mm if length >= rules.shortest_mm]
    short = len(figures.left_over_mm) - len(useful)
    said = [str(length) for length in useful[:8]]
    if len(useful) > 8:
        said.append(f"{len(useful) - 8} more")
    if short:
        said.append(f"{short} under {rules.shortest_mm}")
    return " and ".join([*([", ".join(said[:-1])] if len(said) > 1 else []), *said[-1:]]) if said else "none"


def summary_lines(room: Room, lay: Lay, rules: LayRules) -> Iterator[str]:
    """Yield what a lay comes to, a line for each figure."""
    figures = figures_of(room, lay, rules)
    boards = say_boards(lay) if lay.board_lengths_mm else counted(lay.boards, "board")
    yield f"{boards} in {counted(lay.packs, 'pack')}; {say_best(figures, lay)}."
    yield f"Cut loss {figure(lay.cut_loss_percent, 1)} % of {figure(lay.floor_area_mm2 / 1e6)} m² covered."
    first = say_first_wall(figures, room)
    yield (
        f"{counted(lay.rows, 'row')}: the first {figures.first_mm} mm wide{', ' + first if first else ''}; "
        f"the last {figures.last_mm}. Begun with a full board, the last would be {figure(figures.last_if_full_mm, 1)}."
    )
    narrowest = say_narrowest(figures, room, rules)
    if narrowest:
        yield f"{'▲ ' if is_too_narrow(figures, rules) else ''}Narrowest at a wall: {narrowest}."
    yield f"Left over, mm: {say_left_over(figures, rules)}."
    looks = say_looks(looks_of(lay))
    yield f"{looks[:1].upper()}{looks[1:]}."
    turn = f"turned by {figure(lay.direction_deg, 1)}°" if lay.direction_deg else "along the first axis of the plan"
    yield f"Rows run {turn}, and across this drawing; “near” is a board's left end."


def cut_list_lines(lay: Lay, rules: LayRules, columns: int = COLUMNS) -> Iterator[str]:
    """Yield the cut list in laying order, within so many columns, a blank line before the third row."""
    yield from _hung(SET_OUT_DRY, "", columns)
    for row in rows_of_cuts(lay, rules.kerf_mm):
        if row.row == 2:
            yield ""
        yield from _hung(say_row(row, rules), "  ", columns)


def drawing_lines(lay: Lay, rules: LayRules, columns: int = COLUMNS) -> Iterator[str]:
    """Yield the drawing within so many columns: row numbers at the left, what is ripped at the right."""
    rows = rows_of_cuts(lay, rules.kerf_mm)
    lead = len(str(len(rows)))
    tail = 1 + len(f"{lay.board.width_mm}") if any(row.ripped for row in rows) else 0
    drawn = brickwork(rows, lay.row_edges_mm, max(columns - lead - 1 - tail, 8), 2)
    for line in drawn.lines:
        name = "" if line.row is None else str(line.row + 1)
        ripped = f"{rows[line.row].width_mm}" if line.row is not None and rows[line.row].ripped else ""
        body = f"{name:>{lead}} {line.text}"
        yield f"{body:<{columns - tail}} {ripped}".rstrip() if ripped else body.rstrip()
    yield f"One column is {figure(drawn.mm_per_column, 0)} mm; rows are drawn alike. Dots: a piece that is cut."


def say_hole(hole: Hole) -> str:
    """Return where a hole comes in its piece: “cut round radiator pipe (22) in piece 7b: its middle 312 from …”."""
    return (
        f"cut round {clean(hole.thing.name)} ({hole.thing.size_mm}) in piece {hole.mark}: its middle "
        f"{hole.from_left_mm} from the left end, {hole.from_edge_mm} from the edge toward row 1"
    )


def lay_text(
    room: Room,
    lay: Lay,
    rules: LayRules,
    *,
    title: str = "",
    columns: int = COLUMNS,
    finds: Finds = NOTHING_FOUND,
) -> str:
    """Return a lay for print: a summary, the drawing and the cut list, within so many columns.

    ``finds`` are the doorways and the fixed things of the room.
    """
    lines = [*_hung(clean(title), "", columns), ""] if title else []
    for line in summary_lines(room, lay, rules):
        lines += _hung(line, "  ", columns)
    for door in finds.doorways:
        said = say_doorway(door, rows_at(room, lay, door), rules)
        lines += _hung(f"{'▲ ' if said[0] == '▲' else ''}Doorway in {said.removeprefix('▲ ')}.", "  ", columns)
    lines += ["", *drawing_lines(lay, rules, columns), "", "Cut list", *cut_list_lines(lay, rules, columns)]
    for hole in holes_in(room, lay, finds.fixed_things, rules.kerf_mm):
        lines += _hung(f"Row {hole.row + 1}: {say_hole(hole)}.", "  ", columns)
    return "\n".join(lines) + "\n"


def _hung(text: str, indent: str, columns: int) -> list[str]:
    held = text.replace(" →", "\u00a0→").replace("→ ", "→\u00a0").replace("row ", "row\u00a0")
    lines = textwrap.wrap(held, columns, subsequent_indent=indent, break_long_words=True, break_on_hyphens=False)
    return [line.replace("\u00a0", " ") for line in lines if cell_len(line) or line == ""] or [""]
