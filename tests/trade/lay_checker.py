"""An independent judge of a lay: reads only the answer and the room, and knows the rules by heart."""

import math
from collections import Counter, defaultdict
from itertools import pairwise

from shapely import Polygon, box, unary_union
from shapely.affinity import rotate


def floor_polygon(outline, cut_outs, gap_mm, direction_deg):
    room = (
        Polygon(outline, cut_outs)
        if not cut_outs
        else Polygon(outline).difference(unary_union([Polygon(ring) for ring in cut_outs]))
    )
    floor = room.buffer(-gap_mm, join_style="mitre", mitre_limit=5) if gap_mm else room
    return rotate(floor, -direction_deg, origin=outline[0])


def runs_of_row(floor, low, high):
    """Stretches of the row that a board would lie across without a break, as (left, right) in floats."""
    low_x, _, high_x, _ = floor.bounds
    part = floor.intersection(box(low_x - 1, low, high_x + 1, high))
    shapes = [shape for shape in getattr(part, "geoms", [part]) if shape.area > 1e-3]
    spans = sorted((shape.bounds[0], shape.bounds[2]) for shape in shapes)
    runs = []
    for left, right in spans:
        if runs and math.floor(left + 1e-6) <= math.ceil(runs[-1][1] - 1e-6):
            runs[-1] = (runs[-1][0], max(right, runs[-1][1]))
        else:
            runs.append((left, right))
    return runs


def faults_in_lay(lay, room, board, rules):
    """All that is wrong with a lay, as sentences; nothing if it is right."""
    floor = floor_polygon(room.outline, room.cut_outs, room.gap_mm, lay.direction_deg)
    return [
        *_faults_in_figures(lay, room, board, floor),
        *_faults_in_rows(lay, board, floor),
        *_slivers_at_the_ends(lay, board, rules, floor),
        *_faults_in_cover(lay, floor),
        *_faults_at_joints(lay, board, rules, floor),
        *_faults_on_boards(lay, board, rules),
    ]


def _faults_in_figures(lay, room, board, floor):
    net = Polygon(room.outline).area - sum(Polygon(ring).area for ring in room.cut_outs)
    opened = sum(lay.length_of(number + 1) for number in range(lay.boards)) * board.width_mm
    pack_mm2 = sum(length * count for length, count in board.in_pack) * board.width_mm
    checks = {
        "rows": lay.rows == len(lay.row_edges_mm),
        "boards": sorted({piece.board for piece in lay.pieces}) == list(range(1, lay.boards + 1)),
        "packs": lay.packs == _packs(lay, board),
        "net area": abs(lay.net_area_m2 - net / 1e6) < 1e-6,
        "bought": math.isclose(lay.bought_area_m2, lay.packs * pack_mm2 / 1e6),
        "loss": math.isclose(
            lay.cut_loss_percent, 100 * (opened - floor.area) / floor.area, rel_tol=1e-6, abs_tol=1e-6
        ),
        "bound": floor.area / (board.length_mm * board.width_mm) - 1e-6 <= lay.least_boards <= lay.boards,
        "proof": lay.proved_best == _is_proved(lay, board),
    }
    return [f"{name} is wrong" for name, right in checks.items() if not right]


def _packs(lay, board):
    if not board.lengths:
        return math.ceil(lay.boards / board.boards_per_pack)
    counted = Counter(lay.length_of(number + 1) for number in range(lay.boards))
    return max(math.ceil(counted[length] / count) for length, count in board.lengths)


def _is_proved(lay, board):
    if not board.lengths:
        return lay.boards == lay.least_boards
    return lay.packs == math.ceil(lay.least_boards / board.boards_per_pack)


def _faults_in_rows(lay, board, floor):
    faults = []
    edges = sorted(lay.row_edges_mm)
    if list(lay.row_edges_mm) not in (edges, edges[::-1]):
        faults.append("rows are not in laying order")
    for (low, high), above in zip(edges, [*edges[1:], None], strict=True):
        if not 0 < high - low <= board.width_mm:
            faults.append(f"row {low}-{high} is wider than a board")
        if above is not None and above[0] != high:
            faults.append(f"rows part at {high}")
    if edges[0][0] > floor.bounds[1] + 1e-3 or edges[-1][1] < floor.bounds[3] - 1e-3:
        faults.append("rows do not reach the walls")
    return faults


def _slivers_at_the_ends(lay, board, rules, floor):
    """First and last rows that a wall runs along keep the least width; half a board is always possible."""
    edges = sorted(lay.row_edges_mm)
    low_x, low_y, high_x, high_y = floor.bounds
    least = min(rules.least_mm, board.width_mm / 2, high_y - low_y)
    ends = ((low_y, edges[0][1] - low_y), (high_y, high_y - edges[-1][0]))
    return [
        f"the row at {y} is only {width} wide"
        for y, width in ends
        if floor.boundary.intersection(box(low_x, y - 1e-6, high_x, y + 1e-6)).length > 1 and width < least - 1
    ]


def _faults_in_cover(lay, floor):
    faults = []
    by_row = defaultdict(list)
    for piece in lay.pieces:
        by_row[piece.row].append(piece)
        if piece.to_mm <= piece.from_mm:
            faults.append(f"{piece} covers nothing")
    boxes = [
        box(piece.from_mm, lay.row_edges_mm[piece.row][0], piece.to_mm, lay.row_edges_mm[piece.row][1])
        for piece in lay.pieces
    ]
    bare = floor.difference(unary_union(boxes)).area
    if bare > 1:
        faults.append(f"{bare} mm² of floor stay bare")
    for of_row in by_row.values():
        of_row.sort(key=lambda piece: piece.from_mm)
        for one, other in pairwise(of_row):
            if other.from_mm < one.to_mm:
                faults.append(f"{one} lies under {other}")
    return faults


def _faults_at_joints(lay, board, rules, floor):
    faults = []
    joints = defaultdict(list)
    for row, (low, high) in enumerate(lay.row_edges_mm):
        pieces = sorted((p for p in lay.pieces if p.row == row), key=lambda piece: piece.from_mm)
        for left, right in runs_of_row(floor, low, high):
            run = [p for p in pieces if p.from_mm < right - 0.01 and p.to_mm > left + 0.01]
            if not run or run[0].from_mm < left - 1.01 or run[-1].to_mm > right + 1.01:
                faults.append(f"row {row} is not laid from wall to wall between {left} and {right}")
            for one, other in pairwise(run):
                joints[row].append(one.to_mm)
                if one.to_mm != other.from_mm:
                    faults.append(f"row {row} is open at {one.to_mm}")
                if one.board_to_mm != lay.length_of(one.board) or other.board_from_mm != 0:
                    faults.append(f"row {row}: a cut end lies in the joint at {one.to_mm}")
            if len(run) > 1:
                faults += [f"{p} is too short" for p in run if p.to_mm - p.from_mm < rules.shortest_mm]
        for here in joints[row]:
            for there in joints[row - 1]:
                if abs(here - there) < rules.stagger_mm:
                    faults.append(f"joints {there} and {here} of rows {row - 1} and {row} are too near")
    return faults


def _faults_on_boards(lay, board, rules):
    faults = []
    by_board = defaultdict(list)
    for piece in lay.pieces:
        by_board[piece.board].append(piece)
        if piece.board_to_mm - piece.board_from_mm != piece.to_mm - piece.from_mm:
            faults.append(f"{piece} has two lengths")
        if piece.board_from_mm < 0 or piece.board_to_mm > lay.length_of(piece.board):
            faults.append(f"{piece} reaches past its board")
    for pieces in by_board.values():
        pieces.sort(key=lambda piece: piece.board_from_mm)
        for one, other in pairwise(pieces):
            if other.board_from_mm < one.board_to_mm + rules.kerf_mm:
                faults.append(f"{one} and {other} leave no kerf")
    return faults
