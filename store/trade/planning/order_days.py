"""By which day glue and materials must be ordered: boards have a day of their own, because they must lie first."""

from datetime import date, timedelta

from store.trade.diary import day_of
from store.trade.firm import FirmDraft
from store.trade.planning.hours import worked_day_at_or_before
from store.trade.planning.job_network import JobTimes
from store.trade.planning.job_steps import Allowances
from store.trade.products import Product


def order_day(firm: FirmDraft, times: JobTimes, product: Product) -> date | None:
    """Return the last safe day to order a product of a job; None where no promise says when its floor must be laid.

    What does not acclimatise must have come by the working day before the first floor has to be begun; ordered so many
    calendar days before, by its own lead time, else its supplier's, else 14 days (common practice, no source).
    """
    lies_first = next((one.order_by for one in times.boards if one.product == product.code and one.order_by), None)
    if lies_first is not None:
        return lies_first
    if times.lay_by is None:
        return None
    suppliers = {one.name: one.lead_days for one in firm.suppliers}
    own = product.lead_days if product.lead_days is not None else suppliers.get(product.supplier)
    days = Allowances().usual_lead_days if own is None else own
    here_by = worked_day_at_or_before(firm, day_of(firm, times.lay_by) - timedelta(days=1))
    return worked_day_at_or_before(firm, here_by - timedelta(days=days))
