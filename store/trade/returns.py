"""What comes back for packs that went back to their supplier, by that supplier's terms."""

from dataclasses import dataclass
from datetime import date, timedelta

from store.trade.diary import day_of
from store.trade.events import Destination
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.products import Board
from store.trade.suppliers import Supplier, return_credit_minor, supplier_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnCredit:
    """The credit to expect for one product of a job.

    ``packs`` are the whole packs counted back to the supplier, ``loose_boards`` what nobody takes back. ``last_day`` is
    the last day on which the terms take them, None where they name none; ``sent_on`` the day of the latest count.
    ``terms`` is None where the product names no supplier with terms on file: then the whole price is expected.
    """

    product: str
    packs: int
    loose_boards: int
    sent_on: date
    last_day: date | None
    terms: Supplier | None
    credit_minor: int

    @property
    def is_late(self) -> bool:
        """Whether they went back after the last day."""
        return self.last_day is not None and self.sent_on > self.last_day

    @property
    def too_few(self) -> bool:
        """Whether the terms take more packs at once."""
        return self.terms is not None and 0 < self.packs < self.terms.least_return_packs


def credit_for(firm: FirmDraft, facts: JobFacts, code: str) -> ReturnCredit | None:
    """Return the credit to expect for a board of a job; None where none of it went back to the supplier.

    Only whole packs are taken back, and only in time: published return policies agree on that.
    """
    board = facts.products.get(code)
    counts = [one for one in facts.counts if one.product == code and one.to is Destination.RETURN]
    if not counts or not isinstance(board, Board):
        return None
    packs, loose = sum(one.packs for one in counts), sum(one.boards for one in counts)
    sent_on = max(day_of(firm, one.at) for one in counts)
    terms = supplier_of(firm.suppliers, board.supplier)
    came = [day_of(firm, one.at) for one in facts.deliveries if any(line.product == code for line in one.lines)]
    last_day = None
    if terms is not None and terms.return_days is not None and came:
        last_day = max(came) + timedelta(days=terms.return_days)
    asked = terms or Supplier(name="")
    late = last_day is not None and sent_on > last_day
    credit = 0 if late else return_credit_minor(packs=packs, price_minor=board.price_minor, terms=asked)
    return ReturnCredit(
        product=code,
        packs=packs,
        loose_boards=loose,
        sent_on=sent_on,
        last_day=last_day,
        terms=terms,
        credit_minor=credit,
    )
