"""Suppliers are looked after in the Products view; what is still to be ordered is listed there, and ordered."""

from dataclasses import replace
from pathlib import Path

import pytest

from store.errors import DraftRefused, Refused
from store.trade.events import CountDraft, Destination
from store.trade.suppliers import Supplier
from tests.tui.firm_window import demo_desk, press, seen, told, turn_to, window_on
from tui.words.suppliers import say_terms

YARD, WHARF = "Skerry Timber Yard", "Fulmar Hardwoods"


def test_terms_are_said_in_one_line() -> None:
    plain = Supplier(name="-")
    assert say_terms(plain, "EUR") == "whole packs"
    strict = replace(plain, least_return_packs=4, return_days=15, return_fee_percent=25.0, return_freight_minor=6000)
    assert say_terms(strict, "EUR") == "4 packs or more within 15 days, 25 % and EUR 60.00 kept"


def test_products_follow_a_new_name_and_lose_one_that_is_gone(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        yard = next(one for one in desk.firm.card().suppliers if one.name == YARD)
        desk.firm.put_supplier(replace(yard, name="Skerry Timber"), instead_of=YARD)
        bought = {one.code: one.supplier for one in desk.products.all()}
        assert (bought["OAK-190"], bought["WAL-120"]) == ("Skerry Timber", WHARF)
        desk.firm.remove_supplier("Skerry Timber")
        assert {one.code: one.supplier for one in desk.products.all()}["OAK-190"] == ""
        with pytest.raises(Refused, match="not on file any longer"):
            desk.firm.remove_supplier("Skerry Timber")
        with pytest.raises(DraftRefused):
            desk.firm.put_supplier(Supplier(name=WHARF))
        assert [one.what for one in desk.papers.look_over() if not one.good] == ["rights"]  # pytest's own folder


def test_what_is_to_be_ordered_is_told_by_supplier_the_most_urgent_first(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        lines = desk.shopping.to_order()
        assert [(one.supplier, one.product, one.job_ref) for one in lines] == [
            ("Fulmar Hardwoods", "NOSE-24", "GQ-0150"),
            (YARD, "ASH-180", "GQ-0150"),
            (YARD, "OAK-190", "GQ-0149"),
            (YARD, "LEV-25", "GQ-0149"),
            ("", "MS-15", "GQ-0149"),
        ]
        assert all(one.by is not None for one in lines)
        oak = lines[2]
        assert oak.by is not None
        assert oak.worth_minor == oak.packs * 18240


async def test_a_supplier_is_added_and_changed_with_s(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk) as pilot:
            await press(pilot, "4")
            await press(pilot, "s")
            assert "Fulmar Hardwoods · 14 days · 4 packs or more within 15" in seen(pilot)
            await pilot.press("down", "down")
            await press(pilot, "enter")
            await pilot.press("ctrl+s")
            await pilot.pause()
            assert "Write the name." in seen(pilot)
            await pilot.press(*"[b]Auk[/b]", "tab", "tab", *"10", "ctrl+s")
            await pilot.pause()
            assert "The card of [b]Auk[/b] is on file" in told(pilot)
            added = desk.firm.card().suppliers[-1]
            assert (added.name, added.lead_days, added.least_return_packs) == ("[b]Auk[/b]", 10, 1)


async def test_a_line_to_order_opens_an_order_for_its_job_with_what_is_bought_there(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk) as pilot:
            await press(pilot, "4")
            await press(pilot, "o")
            assert "5 lines to order" in seen(pilot)
            assert "6 sticks of NOSE-24" in seen(pilot)
            await pilot.press("down", "down")
            await press(pilot, "enter")
            await pilot.pause()
            assert "By your own floors: 17 packs of OAK-190 instead of 16" in seen(pilot)
            await press(pilot, "enter")  # stay at 16
            assert "2 packs of OAK-190, batch K39 stand free in the unit" in seen(pilot)
            await press(pilot, "enter")  # all new
            await pilot.press("ctrl+s")
            await pilot.pause()
            (order,) = desk.jobs.card("GQ-0149").facts.orders
            assert (order.supplier, [one.product for one in order.lines]) == (YARD, ["OAK-190", "LEV-25"])
            left = [one.product for one in desk.shopping.to_order() if one.job_ref == "GQ-0149"]
            assert left == ["MS-15"]


async def test_the_close_out_says_what_credit_to_expect_and_when_there_is_none(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        facts = desk.jobs.card("GQ-0148").facts
        batch = facts.deliveries[0].lines[0].batch
        draft = CountDraft(at=desk.now(), product="WAL-120", batch=batch, packs=1, boards=0, to=Destination.RETURN)
        desk.closing.count("GQ-0148", (draft,))
        async with window_on(desk, "GQ-0148", size=(120, 36)) as pilot:
            await turn_to(pilot, "close-out")
            words = seen(pilot)
            assert "credit to expect from Fulmar Hardwoods: EUR 0.00 for 2 packs" in words
