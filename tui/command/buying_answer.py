"""What a job needs bought, in JSON; every key is stable once released."""

from store.trade.buying.cost import cost_of, price_of
from store.trade.buying.nouns import Buying, BuyingLine
from store.trade.facts import JobFacts
from store.trade.firm import Firm
from store.trade.things import Thing
from tui.command.answers import Json, instant
from tui.words.buying import HOLDS, cautions_of, say_gap
from tui.words.buying_how import say_how
from tui.words.units import UNITS


def buying_answer(buying: Buying, facts: JobFacts, firm: Firm) -> Json:
    """Return the keys ``to_buy``, ``to_buy_cost`` and ``not_worked_out`` of the answer of ``layday job``."""
    cost = cost_of(buying, facts)
    return {
        "to_buy": [_line(line, facts, firm) for line in buying.lines],
        "to_buy_cost": {"minor": cost.minor, "lines_without_price": cost.unpriced},
        "not_worked_out": [
            {"thing": gap.thing.value, "room": gap.room, "why": gap.missing.value, "say": say_gap(gap)}
            for gap in buying.gaps
        ],
    }


def _line(line: BuyingLine, facts: JobFacts, firm: Firm) -> Json:
    own, product = line.own, line.sheet or facts.products.get(line.product)
    return {
        "thing": line.thing.value,
        "product": line.product,
        "supplier": product.supplier if product else "",
        "price_minor": price_of(line, facts),
        "to_buy": line.to_buy,
        "unit": UNITS[line.thing],
        "unit_holds": line.size / 1_000_000 if line.thing in {Thing.BOARDS, Thing.CLADDING} else line.size,
        "holds_unit": (HOLDS[line.thing] or "").strip() or "pieces",
        "worked_out": line.units,
        "left_out": line.is_left_out,
        "common_practice": line.usual,
        "say": say_how(line),
        "cautions": list(cautions_of(line)),
        "by_hand": None
        if own is None
        else {
            "at": instant(own.at, firm),
            "wanted": own.wanted,
            "units": own.units,
            "size": own.size,
            "width_mm": own.width_mm,
            "rate": own.rate,
            "notch": own.notch,
            "why": own.why,
        },
    }
