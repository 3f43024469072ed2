"""What is brought for one floor: the boards of its lay, more in case some are not good, and spare packs."""

from dataclasses import dataclass

from store.trade.layout.enough import boards_to_have
from store.trade.layout.lay import Lay


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """Boards and packs for one floor; ``packs`` is all of it, the spare packs included."""

    lay_boards: int
    cull_boards: int
    spare_packs: int
    packs: int


def brought_for(lay: Lay, *, culls_percent: float, confidence_percent: float, spare_packs: int) -> Brought:
    """Return what is brought for a lay, so that with this confidence enough boards are good.

    Args:
        lay: the lay.
        culls_percent: how many of a hundred boards are expected to be put aside.
        confidence_percent: how sure it must be that enough are good, in percent.
        spare_packs: whole packs that stay with the customer.

    Raises:
        Refused: as ``boards_to_have``.
    """
    have = boards_to_have(boards=lay.pack_boards, cull_rate=culls_percent / 100, confidence=confidence_percent / 100)
    return Brought(
        lay_boards=lay.pack_boards,
        cull_boards=have - lay.pack_boards,
        spare_packs=spare_packs,
        packs=-(-have // lay.board.boards_per_pack) + spare_packs,
    )
