"""An order at the screen: free stock first, what its supplier confirms, and the credit for what went back."""

from datetime import date
from pathlib import Path

from store.desk.cards import CreditDue
from store.trade.confirmations import Confirmation, ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft, CreditFor
from store.trade.damage import DamageClaim
from store.trade.events import PlaceKind
from store.trade.order_states import OrderState
from tests.tui.firm_window import WIDE, demo_desk, folder, press, seen, told, turn_to, window_on
from tests.tui.shop_window import CLOCK, HOSTILE, answer_all, picture, type_over
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.choose import Choose
from tui.dialogs.confirm_form import ConfirmForm
from tui.dialogs.credit_form import CreditForm
from tui.dialogs.order_form import OrderForm
from tui.widgets.safe import Line
from tui.words.orders import say_claim, say_credit_due

GALLERY = "GQ-0143"


async def to_the_open_order(pilot) -> None:  # type: ignore[no-untyped-def]
    """Put the cursor on the order of five packs that has not come."""
    await turn_to(pilot, "orders")
    pane = folder(pilot).pane
    order = next(one for one in folder(pilot).desk.jobs.card(GALLERY).facts.orders if one.confirmed)
    pane.rows.choose(f"order:{order.id}")
    await pilot.pause()


async def test_a_part_that_is_held_back_and_a_price_are_typed_as_they_stand_on_the_paper(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, GALLERY) as pilot:
            await to_the_open_order(pilot)
            await press(pilot, "e")
            assert isinstance(pilot.app.screen, ConfirmForm)
            assert "Ordered Thu 5 Nov from Skerry Timber Yard: 5 packs of OAK-190." in seen(pilot)
            # Number, moment, product, packs, day, price; then a second line for what comes later.
            await answer_all(pilot, "SK-4417/2", None, None, "3", "30/11", "181,50")
            words = told(pilot)
            assert "Confirmed: 3 packs of OAK-190 for Mon 30 Nov" in words
            assert "▲ Never sent: 2 packs of OAK-190" in words
            assert "▲" in seen(pilot)
        order = desk.jobs.card(GALLERY).facts.orders[-1]
        assert [(one.packs, one.due_on, one.price_minor) for one in order.confirmed[-1].lines] == [
            (3, date(2026, 11, 30), 18_150)
        ]
        (standing,) = (one for one in desk.orders.standings(desk.jobs.card(GALLERY).facts) if one.order.id == order.id)
        assert (standing.state, standing.short) == (OrderState.CONFIRMED, (("OAK-190", 2),))


async def test_a_supplier_who_sends_nothing_leaves_an_order_of_which_none_comes(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, GALLERY, size=WIDE) as pilot:
            await to_the_open_order(pilot)
            await press(pilot, "e")
            await answer_all(pilot, "SK-4417/3", None, None, "0", "", "")
            words = told(pilot)
            assert "Confirmed: no OAK-190. ▲ Never sent: 5 packs of OAK-190" in words
            assert "goes by that day" not in words
            await to_the_open_order(pilot)
            assert "▲ none comes" in seen(pilot)
            await press(pilot, "enter")
            assert "▲ Never sent: 5 packs of OAK-190" in seen(pilot)
            assert "▲ Nothing of it comes." in seen(pilot)
            assert "All of it has come" not in seen(pilot)
        (order,) = (one for one in desk.jobs.card(GALLERY).facts.orders if one.confirmed)
        (standing,) = (one for one in desk.orders.standings(desk.jobs.card(GALLERY).facts) if one.order.id == order.id)
        assert standing.state is OrderState.NONE_COMES


async def test_more_than_was_ordered_is_told_beside_its_line_and_what_was_typed_stays(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, GALLERY) as pilot:
            await to_the_open_order(pilot)
            before = desk.papers.export((GALLERY,))
            await press(pilot, "e")
            await pilot.press("tab", "tab", "tab")
            await type_over(pilot, "9")
            await press(pilot, "ctrl+s")
            assert isinstance(pilot.app.screen, ConfirmForm)
            assert "The order asked for 5 of OAK-190" in seen(pilot)
            assert "9" in seen(pilot)
        assert desk.papers.export((GALLERY,)) == before


async def test_free_packs_are_kept_for_the_job_and_only_the_rest_is_ordered(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "o")
            assert isinstance(pilot.app.screen, AskYesNo)
            await press(pilot, "enter")  # stay at the allowed cut loss
            assert "2 packs of OAK-190, batch K39 stand free in the unit" in seen(pilot)
            await press(pilot, "tab")
            await press(pilot, "enter")
            assert isinstance(pilot.app.screen, OrderForm)
            await press(pilot, "ctrl+s")
            assert "Kept in the unit for GQ-0149: 2 packs of OAK-190, batch K39." in told(pilot)
        card = desk.jobs.card("GQ-0149")
        (tally,) = card.standing.packs
        assert (tally.needed, tally.in_unit, tally.ordered) == (16, 2, 14)
        assert [one.packs for one in desk.packs.stock() if one.place is PlaceKind.SHELF] == []


async def test_escape_leaves_the_questions_before_an_order_and_nothing_is_filed(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        before = desk.papers.export(("GQ-0149",))
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "o")
            assert "Esc leaves it" in seen(pilot)
            await press(pilot, "escape")
            assert folder(pilot) is pilot.app.screen
            await press(pilot, "o")
            await press(pilot, "enter")
            assert "stand free in the unit" in seen(pilot)
            await press(pilot, "escape")
            assert folder(pilot) is pilot.app.screen
        assert desk.papers.export(("GQ-0149",)) == before


async def test_a_credit_is_followed_from_the_stock_until_it_has_come(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk) as pilot:
            await press(pilot, "3")
            assert "Credits to come: EUR 612.23 from 2 jobs; o follows them" in seen(pilot)
            await press(pilot, "o")
            assert isinstance(pilot.app.screen, Choose)
            await press(pilot, "enter")
            assert isinstance(pilot.app.screen, CreditForm)
            await answer_all(pilot, None, "400", "N-12")
            await press(pilot, "ctrl+s")
            assert "On file: EUR 400.00 for OAK-190, note N-12. Nothing more is to come." in told(pilot)
            # The pack that came damaged is left; its supplier sends a sound one.
            due = pilot.app.screen.query_one(".stock--due", Line)
            assert due.words == "Credits to come: EUR 181.43 from 1 job; o follows them"
            await press(pilot, "o")
            assert "Skerry Timber Yard · EUR 181.43 · GQ-0143 · 1 × OAK-190 damaged" in seen(pilot)
            await press(pilot, "enter")
            assert isinstance(pilot.app.screen, CreditForm)
            await answer_all(pilot, None, "2", "0")
            await press(pilot, "ctrl+s")
            assert "1 came damaged; at most 1 can still be sent in their place." in seen(pilot)
            await type_over(pilot, "1")
            await press(pilot, "ctrl+s")
            assert "On file: 1 pack sent for damaged OAK-190. Nothing more is to come." in told(pilot)
            assert not due.display
            await press(pilot, "o")
            assert "No credit is to come" in told(pilot)
        assert desk.orders.credits_due() == ()


async def test_a_damaged_pack_is_claimed_from_its_delivery_and_told_as_settled(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0143", size=WIDE) as pilot:
            await turn_to(pilot, "orders")
            await press(pilot, "enter")
            assert "OAK-190: claim for 1 damaged pack: EUR 181.43; ▲ not come yet." in seen(pilot)
            assert "Photograph them before they go; e says what came for them." in seen(pilot)
            await press(pilot, "escape")
            await press(pilot, "e")
            await answer_all(pilot, None, "0", "150", "N-7")
            await press(pilot, "ctrl+s")
            assert "On file: EUR 150.00 for damaged OAK-190, note N-7. Nothing more is to come." in told(pilot)
            await press(pilot, "enter")
            assert "OAK-190: claim for 1 damaged pack: EUR 181.43; ✓ settled by" in seen(pilot)
            await press(pilot, "escape")
            await press(pilot, "e")
            assert "What is owed for those packs is settled; x takes a credit back (Close-out)." in told(pilot)
            await turn_to(pilot, "close-out")
            assert "EUR 150.00 for damaged OAK-190, note N-7" in seen(pilot)


def test_what_came_damaged_without_a_price_is_told_as_awaited() -> None:
    due = CreditDue(
        job_ref="L-0007",
        job_title="Oak floor",
        supplier="",
        owed_for=CreditFor.DAMAGE,
        product="OAK-190",
        packs=2,
        since=date(2026, 11, 24),
        due_minor=0,
    )
    said = say_credit_due(due, CLOCK, "EUR")
    assert said == "no supplier · no price on file · L-0007 · 2 × OAK-190 damaged, Tue 24 Nov"
    claim = DamageClaim(product="OAK-190", packs=2, came_on=date(2026, 11, 24), claim_minor=0)
    assert say_claim(claim, "EUR") == "claim for 2 damaged packs: EUR 0.00; ▲ not come yet, no price on file"


async def test_a_delivery_that_came_whole_has_nothing_to_claim(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0142", size=WIDE) as pilot:
            await turn_to(pilot, "orders")
            await press(pilot, "slash")
            await pilot.press(*"came", "enter")
            await press(pilot, "e")
            assert "Such a line is not changed" in told(pilot)


async def test_spares_of_closed_jobs_are_shown_when_asked_for(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, size=WIDE) as pilot:
            await press(pilot, "3")
            assert "Oak floor in the tea" not in seen(pilot)
            await press(pilot, "s")
            assert "Spares with the customers of closed jobs are shown" in told(pilot)
            assert "Oak floor in the tea" in seen(pilot)
            await press(pilot, "s")
            assert "Oak floor in the tea" not in seen(pilot)


async def test_what_a_job_costs_stands_in_its_orders(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, GALLERY) as pilot:
            await turn_to(pilot, "orders")
            assert "Material: planned EUR" in seen(pilot)


async def test_a_list_to_choose_from_says_what_its_keys_do(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk) as pilot:
            await press(pilot, "3")
            await press(pilot, "o")
            await press(pilot, "question_mark")
            assert "Help: choosing from a list" in seen(pilot)
            await press(pilot, "escape")
            assert isinstance(pilot.app.screen, Choose)


async def test_a_number_from_outside_is_shown_exactly_and_steers_nothing(tmp_path: Path) -> None:
    number = "".join(HOSTILE)
    with demo_desk(tmp_path) as desk:
        order = next(one for one in desk.jobs.card(GALLERY).facts.orders if one.confirmed)
        line = ConfirmedLine(product="OAK-190", packs=5, due_on=date(2026, 11, 30))
        desk.orders.confirm(GALLERY, order, ConfirmationDraft(at=desk.now(), lines=(line,), number=number))
        credit = CreditDraft(at=desk.now(), product="OAK-190", amount_minor=100, number=number, settles=False)
        desk.orders.credit("GQ-0138", credit)
        async with window_on(desk, GALLERY) as pilot:
            await turn_to(pilot, "orders")
            pane = folder(pilot).pane
            filed = desk.jobs.card(GALLERY).facts.orders[-1].confirmed[-1]
            assert isinstance(filed, Confirmation)
            pane.rows.choose(f"confirmation:{filed.id}")
            await pilot.pause()
            await press(pilot, "enter")
            shown = picture(pilot.app)
            assert "What the supplier confirmed" in shown
            assert "\x1b" not in shown
            assert "[bold[@click=app.quit]x[/]" in " ".join(shown.split())
        async with window_on(desk, "GQ-0138", WIDE) as pilot:
            await turn_to(pilot, "close-out")
            assert "\x1b" not in picture(pilot.app)
            assert "◐ credit" in seen(pilot)
