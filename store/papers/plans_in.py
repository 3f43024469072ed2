"""A lay plan read from a job's folder, and held against the room it says it is for."""

import re
from collections.abc import Collection

from store.papers.named import Named
from store.papers.spot import Keys, Spot, instant, listed, number, opened, text, whole, whole_from
from store.trade.jobs import RoomDraft
from store.trade.layout.lay import BoardSize, Lay, LayRules, Piece, packs_of
from store.trade.plan_checks import problems_with_floor, problems_with_terms
from store.trade.plans import PlanDraft

FARTHEST_MM = 10_000_000
MOST_AREA_MM2 = 10**13
_SHAPE = re.compile("[0-9a-f]{16}")

_some_mm = whole_from(1, FARTHEST_MM)
_none_or_some_mm = whole_from(0, FARTHEST_MM)
_some = whole_from(1)


def plan(spot: Spot, named: Named, rooms: Collection[RoomDraft]) -> PlanDraft:
    """Return a lay plan.

    Args:
        spot: the plan's object in the file.
        named: what may be referred to.
        rooms: the rooms of its job.
    """
    keys = opened(
        spot,
        "room at board stagger_mm shortest_mm kerf_mm least_mm seed culls_percent confidence_percent spare_packs"
        " shape lay",
    )
    draft = PlanDraft(
        room=keys.need("room", named.room),
        at=keys.need("at", instant),
        board=keys.need("board", named.board),
        rules=LayRules(
            stagger_mm=keys.need("stagger_mm", _none_or_some_mm),
            shortest_mm=keys.need("shortest_mm", _none_or_some_mm),
            kerf_mm=keys.need("kerf_mm", _none_or_some_mm),
            least_mm=keys.need("least_mm", _none_or_some_mm),
        ),
        seed=keys.need("seed", whole),
        culls_percent=keys.need("culls_percent", number),
        confidence_percent=keys.need("confidence_percent", number),
        spare_packs=keys.need("spare_packs", whole_from(0)),
        shape=keys.need("shape", _shape),
        lay=keys.need("lay", _lay),
    )
    keys.vet(problems_with_terms(draft))
    for room in rooms:
        if room.name == draft.room:
            keys.vet(problems_with_floor(draft, room))
    return draft


def _shape(spot: Spot) -> str:
    given = text(spot)
    if not _SHAPE.fullmatch(given):
        spot.must_be("16 hexadecimal figures")
    return given


def _lay(spot: Spot) -> Lay:
    keys = opened(
        spot,
        "length_mm width_mm boards_per_pack boards least_boards direction_deg net_area_mm2 floor_area_mm2"
        " row_edges_mm pieces lengths board_lengths_mm",
    )
    size = BoardSize(
        length_mm=keys.need("length_mm", _some_mm),
        width_mm=keys.need("width_mm", _some_mm),
        boards_per_pack=keys.need("boards_per_pack", _some),
        lengths=keys.each("lengths", _edges),
    )
    return _lay_with(keys, size, keys.need("boards", _some))


def _lay_with(keys: Keys, size: BoardSize, boards: int) -> Lay:
    lengths = keys.each("board_lengths_mm", _some_mm)
    if any(length <= 0 or count <= 0 for length, count in size.lengths):
        keys.spot("lengths").refuse("every length in a pack is more than 0, with 1 board or more.")
    return Lay(
        boards=boards,
        board_lengths_mm=lengths,
        packs=packs_of(size, boards, lengths),
        board=size,
        least_boards=keys.need("least_boards", _some),
        direction_deg=keys.need("direction_deg", number),
        net_area_mm2=keys.need("net_area_mm2", whole_from(1, MOST_AREA_MM2)),
        floor_area_mm2=keys.need("floor_area_mm2", number),
        row_edges_mm=keys.need("row_edges_mm", lambda spot: listed(spot, _edges)),
        pieces=keys.need("pieces", lambda spot: listed(spot, _piece)),
    )


def _edges(spot: Spot) -> tuple[int, int]:
    low, high = _numbers(spot, 2)
    return low, high


def _piece(spot: Spot) -> Piece:
    row, left, right, board, board_left, board_right = _numbers(spot, 6)
    return Piece(row=row, from_mm=left, to_mm=right, board=board, board_from_mm=board_left, board_to_mm=board_right)


def _numbers(spot: Spot, count: int) -> tuple[int, ...]:
    given = listed(spot, whole_from(-FARTHEST_MM, FARTHEST_MM))
    if len(given) != count:
        spot.refuse(f"must be {count} whole numbers, not {len(given)}.")
    return given
