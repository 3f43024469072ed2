"""The firm's suppliers, read from a folder."""

from store.papers.spot import Spot, number, opened, text, whole
from store.trade.suppliers import Supplier, problems_with_supplier


def supplier(spot: Spot) -> Supplier:
    """Return one supplier with its terms."""
    keys = opened(
        spot,
        "name contact lead_days least_return_packs return_days return_fee_percent return_freight_minor",
    )
    usual = Supplier(name=keys.need("name", text))
    found = Supplier(
        name=usual.name,
        contact=keys.may("contact", text, ""),
        lead_days=keys.may("lead_days", whole, None),
        least_return_packs=keys.may("least_return_packs", whole, usual.least_return_packs),
        return_days=keys.may("return_days", whole, None),
        return_fee_percent=keys.may("return_fee_percent", number, usual.return_fee_percent),
        return_freight_minor=keys.may("return_freight_minor", whole, usual.return_freight_minor),
    )
    keys.vet(tuple(problems_with_supplier(found)))
    return found
