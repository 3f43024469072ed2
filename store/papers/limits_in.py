"""Limits that a sheet or the firm sets, read from a folder."""

from store.papers.spot import Spot, number, one_of, opened, text, truth, word_of
from store.trade.jobs import Method, Subfloor
from store.trade.own_limits import LIMITED_KINDS, OwnLimit


def own_limit(spot: Spot) -> OwnLimit:
    """Return one limit; where it says nothing of base, heating or method it holds anywhere."""
    keys = opened(spot, "kind most subfloor heated method because")
    return OwnLimit(
        kind=keys.need("kind", lambda spot: one_of(spot, LIMITED_KINDS)),
        most=keys.need("most", number),
        subfloor=keys.may("subfloor", word_of(Subfloor), None),
        heated=keys.may("heated", truth, None),
        method=keys.may("method", word_of(Method), None),
        because=keys.may("because", text, ""),
    )
