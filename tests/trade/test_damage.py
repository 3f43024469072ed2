"""Packs that came damaged: claimed at their price, made good by credit or by packs sent instead, and what they cost."""

from dataclasses import asdict, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.buying.job_take_off import job_take_off
from store.trade.credits import Credit, CreditDraft, CreditFor
from store.trade.damage import DamageClaim, claims_for
from store.trade.events import OrderLine
from store.trade.facts import JobFacts
from store.trade.material_cost import material_cost
from store.trade.returns import credits_for, problems_with_credit
from store.trade.shopping import got_for
from tests.trade.conftest import FIRM, MS, OAK, a_count, a_delivery, a_job, an_order, when

PRICED = replace(OAK, price_minor=10_000)
CAME = (an_order(12), a_delivery(packs=12, damaged=3))
NOTE = CreditDraft(at=when("2026-12-05 09:00"), product=OAK.code, amount_minor=0, owed_for=CreditFor.DAMAGE)


def credit(amount: int = 0, *, sent: int = 0, settles: bool = True) -> Credit:
    return Credit(id=1, **asdict(replace(NOTE, amount_minor=amount, replaced_packs=sent, settles=settles)))


def job(*events: object) -> JobFacts:
    return a_job(*events, products=(PRICED, MS))


def claim_of(*events: object) -> DamageClaim:
    (claim,) = claims_for(FIRM, job(*events))
    return claim


def real_minor(*events: object) -> int | None:
    facts = job(*events)
    cost = material_cost(facts, job_take_off(facts, FIRM), credits_for(FIRM, facts), claims_for(FIRM, facts))
    return next(one.real_minor for one in cost.lines if one.product == OAK.code)


def test_damaged_packs_are_claimed_at_what_they_cost_and_nothing_is_kept_back() -> None:
    claim = claim_of(*CAME)
    assert (claim.packs, claim.claim_minor, claim.due_minor) == (3, 30_000, 30_000)
    assert (claim.came_on.isoformat(), claim.settled) == ("2026-11-17", False)
    dearer = replace(an_order(), lines=(OrderLine(product=OAK.code, packs=12, price_minor=12_500),))
    assert claim_of(dearer, a_delivery(packs=12, damaged=3)).claim_minor == 37_500


def test_a_delivery_without_damage_makes_no_claim() -> None:
    assert claims_for(FIRM, job(an_order(), a_delivery(packs=12))) == ()


def test_a_claim_is_due_until_as_much_has_come_or_it_is_settled() -> None:
    assert claim_of(*CAME, credit(10_000, settles=False)).due_minor == 20_000
    assert claim_of(*CAME, credit(10_000)).due_minor == 0
    assert claim_of(*CAME, credit(settles=True)).due_minor == 0
    both = claim_of(*CAME, credit(10_000, settles=False), credit(20_000, settles=False))
    assert (both.come_minor, both.due_minor, both.settled) == (30_000, 0, False)


def test_packs_sent_instead_make_good_as_much_as_they_are_worth() -> None:
    part = claim_of(*CAME, credit(sent=2, settles=False))
    assert (part.replaced_packs, part.replaced_minor, part.due_minor) == (2, 20_000, 10_000)
    assert claim_of(*CAME, credit(sent=3, settles=False)).due_minor == 0


def test_a_credit_for_what_went_back_says_nothing_of_the_damage_nor_the_other_way_round() -> None:
    back = a_count("2026-12-01 09:00", 2, to="return")
    for_damage, for_return = credit(30_000), replace(credit(5_000), owed_for=CreditFor.RETURN)
    assert claim_of(*CAME, back, for_return).due_minor == 30_000
    (returned,) = credits_for(FIRM, job(*CAME, back, for_damage))
    assert (returned.come_minor, returned.due_minor, returned.settled) == (0, 20_000, False)


def test_damage_costs_nothing_until_its_claim_is_settled_and_then_what_was_not_made_good() -> None:
    sound = real_minor(*CAME)
    assert sound == 9 * 10_000
    assert real_minor(*CAME, credit(10_000, settles=False)) == sound
    assert real_minor(*CAME, credit(30_000)) == sound
    assert real_minor(*CAME, credit(10_000)) == sound + 20_000
    assert real_minor(*CAME, credit()) == sound + 30_000  # the supplier refused


FREE = replace(
    an_order(3, on="2026-11-20"), id=2, lines=(OrderLine(product=OAK.code, packs=3, price_minor=0),), due_on=None
)
AT_THE_SHEETS_PRICE = replace(FREE, lines=(OrderLine(product=OAK.code, packs=3),))


@pytest.mark.parametrize("order", [(), (FREE,), (AT_THE_SHEETS_PRICE,)], ids=["no order", "at 0", "no price said"])
def test_packs_sent_instead_cost_nothing_however_they_were_ordered(order: tuple[object, ...]) -> None:
    again = replace(a_delivery("2026-11-24 09:00", packs=3), id=2)
    assert real_minor(*CAME, *order, again, credit(sent=3)) == 12 * 10_000


def test_packs_sent_free_make_neither_a_return_nor_a_later_claim_cheaper() -> None:
    came = (an_order(10), replace(FREE, lines=(OrderLine(product=OAK.code, packs=2, price_minor=0),)))
    here = (*came, a_delivery(packs=12, damaged=2), credit(sent=2))
    (back,) = credits_for(FIRM, job(*here, a_count("2026-12-01 09:00", 3, to="return")))
    assert back.credit_minor == 3 * 10_000
    # Four came damaged and two were sent free: one more may be sent and the last credited whole.
    more = job(*came, a_delivery(packs=12, damaged=4), credit(sent=2, settles=False))
    draft = replace(NOTE, replaced_packs=1, amount_minor=10_000)
    assert not problems_with_credit(draft, more, when("2026-12-20 09:00"))


def test_no_more_is_credited_than_the_packs_not_yet_replaced_are_worth_and_without_a_price_anything_can_be() -> None:
    now, draft = when("2026-12-20 09:00"), replace(NOTE, amount_minor=20_001)
    two_sent = credit(sent=2, settles=False)
    assert not problems_with_credit(draft, job(*CAME), now)
    (problem,) = problems_with_credit(draft, job(*CAME, two_sent), now)
    assert problem.field == "amount_minor"
    unpriced = a_job(*CAME, products=(replace(OAK, price_minor=0), MS))
    assert not problems_with_credit(replace(draft, replaced_packs=1), unpriced, now)


def test_an_average_price_is_rounded_once_and_at_the_end() -> None:
    """Two packs at 100.00 and one at 100.01, all sent back: what was paid for them comes back."""
    odd = replace(an_order(1), lines=(OrderLine(product=OAK.code, packs=1, price_minor=10_001),))
    (back,) = credits_for(FIRM, job(an_order(2), odd, a_delivery(packs=3), a_count("2026-12-01 09:00", 3, to="return")))
    assert back.credit_minor == 30_001


def test_damage_of_packs_without_a_price_is_awaited_all_the_same() -> None:
    def claim(*events: object) -> DamageClaim:
        (found,) = claims_for(FIRM, a_job(*CAME, *events, products=(replace(OAK, price_minor=0), MS)))
        return found

    assert (claim().claim_minor, claim().is_open) == (0, True)
    assert not claim(credit(5_000)).is_open
    assert not claim(credit()).is_open
    assert claim(credit(sent=2, settles=False)).is_open
    assert not claim(credit(sent=3, settles=False)).is_open


def test_packs_sent_instead_without_an_order_are_not_ordered_again() -> None:
    came = (an_order(12), a_delivery(packs=12, damaged=2), replace(a_delivery("2026-11-24 09:00", packs=2), id=2))
    assert got_for(job(*came[:2]), OAK.code) == 10
    assert got_for(job(*came), OAK.code) == 12


def test_packs_given_for_nothing_that_replace_none_make_the_others_cheaper() -> None:
    came = (an_order(9), replace(FREE, id=2), a_delivery(packs=12))
    assert real_minor(*came) == 9 * 10_000


@given(
    damaged=st.integers(1, 12),
    parts=st.lists(st.tuples(st.integers(0, 50_000), st.integers(0, 4)), max_size=4),
    settles=st.booleans(),
)
def test_what_is_made_good_and_what_is_lost_are_what_was_claimed(
    damaged: int, parts: list[tuple[int, int]], settles: bool
) -> None:
    """No claim asks for more than it is; an open one costs nothing; a settled one costs what did not come."""
    notes = [credit(amount, sent=sent, settles=settles) for amount, sent in parts]
    events = (an_order(12), a_delivery(packs=12, damaged=damaged), *notes)
    claim = claim_of(*events)
    assert 0 <= claim.due_minor <= claim.claim_minor == damaged * 10_000
    assert 0 <= claim.replaced_packs <= damaged
    lost = claim.claim_minor - claim.come_minor - claim.replaced_minor
    real = real_minor(*events)
    assert real == (12 - damaged) * 10_000 + (lost if notes and settles else min(0, lost))


@pytest.mark.parametrize(
    ("draft", "field", "say"),
    [
        (replace(NOTE, product=MS.code), "product", "came damaged to this job"),
        (replace(NOTE, at=when("2026-11-16 09:00")), "at", "before the damaged packs did"),
        (replace(NOTE, at=when("2026-12-25 09:00")), "at", "not come yet"),
        (replace(NOTE, replaced_packs=4), "replaced_packs", "3 came damaged; at most 3"),
        (replace(NOTE, replaced_packs=-1), "replaced_packs", "From 0 to 100,000"),
        (replace(NOTE, replaced_packs=2, amount_minor=10_001), "amount_minor", "0 where nothing was credited"),
        (replace(NOTE, amount_minor=-1), "amount_minor", "from 0"),
        (replace(NOTE, amount_minor=30_001), "amount_minor", "more than the packs cost"),
        (replace(NOTE, settles=False), "amount_minor", "says only that no more is to come"),
    ],
)
def test_what_cannot_have_come_for_damage_is_refused_in_a_sentence(draft: CreditDraft, field: str, say: str) -> None:
    problems = problems_with_credit(draft, job(*CAME), when("2026-12-20 09:00"))
    assert [one.field for one in problems] == [field]
    assert say in problems[0].say


def test_packs_sent_instead_are_for_damage_and_not_for_what_went_back() -> None:
    back = a_count("2026-12-01 09:00", 2, to="return")
    draft = replace(NOTE, owed_for=CreditFor.RETURN, amount_minor=100, replaced_packs=1)
    (problem,) = problems_with_credit(draft, job(*CAME, back), when("2026-12-20 09:00"))
    assert (problem.field, problem.say) == ("replaced_packs", "Packs that went back are credited, not replaced.")


def test_two_packs_sent_and_the_third_credited_is_right() -> None:
    assert not problems_with_credit(
        replace(NOTE, replaced_packs=2, amount_minor=10_000), job(*CAME), when("2026-12-20 09:00")
    )
    later = replace(NOTE, replaced_packs=2)
    (problem,) = problems_with_credit(later, job(*CAME, credit(sent=2, settles=False)), when("2026-12-20 09:00"))
    assert problem.say == "3 came damaged; at most 1 can still be sent in their place."
