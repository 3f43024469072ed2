"""What packs and loose boards cost, at the price of a whole pack or tub."""

from fractions import Fraction

from store.trade.products import BoardDraft, ProductDraft
from store.trade.rounding import round_half_up


def worth_minor(product: ProductDraft, packs: int, boards: int = 0) -> int:
    """Return what full packs (or tubs) and loose boards cost, in minor units, rounded half up.

    >>> oak = BoardDraft(code="OAK-190", name="Oak", length_mm=1900, width_mm=190, thickness_mm=14,
    ...                  boards_per_pack=6, acclimatise_hours=168, price_minor=18240)
    >>> worth_minor(oak, 2, 4)  # 2 packs of 182.40 and two thirds of one
    48640
    """
    per_pack = product.boards_per_pack if isinstance(product, BoardDraft) else 1
    return round_half_up(Fraction(packs * per_pack + boards, per_pack) * product.price_minor)
