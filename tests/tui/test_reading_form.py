"""The form for a reading warns of figures that do not agree, and begins with what stands when one is put right."""

from pathlib import Path

from store.trade.evidence import Evidence
from store.trade.readings import Carbide, ReadingDraft
from tests.tui.firm_window import demo_desk, press, seen, turn_to, window_on
from tests.tui.shop_window import CLOCK, NOW, ShopWindow
from tests.tui.test_dialogs_refuse import said
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.reading_form import ReadingForm
from tui.widgets.safe import Line
from tui.words.evidence import say_evidence

ROOMS = ["Reading room", "Hall"]


async def test_a_percent_that_is_off_its_gauge_is_warned_of_while_it_is_typed_and_still_taken() -> None:
    app = ShopWindow(
        lambda: ReadingForm(
            rooms=ROOMS, clock=CLOCK, limit_for=lambda room, kind: "", check=nothing_to_say, first=("", "carbide")
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        doubt = app.screen.query_one("#doubt", Line)
        await pilot.press("tab", "tab", "tab", *"1.8", *["tab"] * 5, *"50", "tab", *"0.9")
        await pilot.pause()
        assert doubt.words == ""
        await pilot.press("backspace", "7")
        await pilot.pause()
        assert doubt.words == "▲ 0.7 bar from 50 g is about 1.4 %, not 1.8 %; look at both again."
        await pilot.press("ctrl+s")
    assert isinstance(app.answer, ReadingDraft)


async def test_a_reading_put_right_begins_with_what_stands_on_file_and_wants_a_reason() -> None:
    standing = ReadingDraft(
        room="Hall",
        at=NOW,
        measure=Carbide(percent=2.125),
        taken_by="Somebody who left",
        note="cold",
        evidence=Evidence(point="point 3", sample_g=50.0, gauge_bar=1.1, depth_mm=30),
    )
    app = ShopWindow(
        lambda: ReadingForm(
            rooms=ROOMS,
            clock=CLOCK,
            limit_for=lambda room, kind: "",
            check=nothing_to_say,
            first=("Hall", "carbide"),
            people=["Ana"],
            standing=standing,
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        form = app.screen
        assert isinstance(form, ReadingForm)
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert said(app) == {"why": "▲ Say in a few words why."}
        await pilot.press(*"misread")
        assert form.why == "misread"
        await pilot.press("ctrl+s")
    assert app.answer == standing


def test_evidence_is_told_in_sentences_and_only_what_was_written_down() -> None:
    evidence = Evidence(point="point 3", instrument="bottle 2", sample_g=50.0, gauge_bar=0.9, depth_mm=30)
    assert list(say_evidence(evidence, NOW.date())) == [
        "Read at: point 3.",
        "Instrument: bottle 2.",
        "Sample 50 g, gauge 0.9 bar, from 30 mm deep.",
    ]
    assert list(say_evidence(Evidence(hours=1), NOW.date())) == ["1 hour in place."]
    assert list(say_evidence(Evidence(), NOW.date())) == []


async def test_the_whole_line_of_a_carbide_test_says_what_is_behind_it_and_where_it_is_doubted(tmp_path: Path) -> None:
    evidence = Evidence(point="point 3", sample_g=50.0, gauge_bar=0.9)
    with demo_desk(tmp_path) as desk:
        room = desk.jobs.card("GQ-0149").facts.rooms[0].name
        carbide = ReadingDraft(room=room, at=desk.now(), measure=Carbide(percent=2.6), evidence=evidence)
        desk.readings.take("GQ-0149", carbide)
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "readings")
            await press(pilot, "enter")
            assert "0.9 bar from 50 g is about 1.8 %, not 2.6 %; look at both again." in seen(pilot)
            assert "Read at: point 3." in seen(pilot)
