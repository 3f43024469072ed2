"""The orders of a job, its credits and what its material costs, in JSON; every key is stable once released."""

from store.desk.cards import JobCard
from store.trade.firm import Firm
from store.trade.material_cost import MaterialCost
from store.trade.order_states import OrderStanding
from tui.command.answers import Json


def order_answer(card: JobCard, standings: tuple[OrderStanding, ...], cost: MaterialCost, firm: Firm) -> Json:
    """Return the keys ``orders``, ``credits``, ``claims`` and ``cost`` of ``layday job``; money in minor units."""
    return {
        "orders": [_order(one) for one in standings],
        "credits": [
            {
                "product": one.product,
                "packs": one.packs,
                "expected_minor": one.credit_minor,
                "come_minor": one.come_minor,
                "due_minor": one.due_minor,
                "settled": one.settled,
                "last_day": one.last_day.isoformat() if one.last_day else None,
            }
            for one in card.credits
        ],
        "claims": [
            {
                "product": one.product,
                "damaged_packs": one.packs,
                "expected_minor": one.claim_minor,
                "come_minor": one.come_minor,
                "replaced_packs": one.replaced_packs,
                "due_minor": one.due_minor,
                "settled": one.settled,
            }
            for one in card.claims
        ],
        "cost": {
            "currency": firm.currency,
            "planned_minor": cost.planned_minor,
            "ordered_minor": cost.ordered_minor,
            "real_minor": cost.real_minor,
            "freight_minor": cost.freight_minor,
            "no_price": list(cost.unpriced),
            "lines_without_product": cost.without_product,
            "products": [
                {
                    "product": one.product,
                    "planned_packs": one.planned_packs,
                    "planned_minor": one.planned_minor,
                    "ordered_packs": one.ordered_packs,
                    "ordered_minor": one.ordered_minor,
                    "real_minor": one.real_minor,
                }
                for one in cost.lines
            ],
        },
    }


def _order(standing: OrderStanding) -> Json:
    order = standing.order
    return {
        "on": order.on.isoformat(),
        "due_on": order.due_on.isoformat() if order.due_on else None,
        "supplier": order.supplier,
        "state": standing.state.value,
        "confirmed": standing.confirmed,
        "owed": [
            {"product": code, "packs": one.packs, "due_on": one.due_on.isoformat() if one.due_on else None}
            for code, one in standing.owed
        ],
        "never_sent": [{"product": code, "packs": packs} for code, packs in standing.short],
    }
