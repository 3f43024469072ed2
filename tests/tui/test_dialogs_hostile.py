"""Pasted tables, hostile names and small windows neither break a form nor steer the terminal."""

from datetime import timedelta

import pytest
from textual import events
from textual.widgets import Button

from store.errors import Problem
from store.trade.events import UNIT, LayingDraft
from store.trade.jobs import JobDraft
from tests.tui.shop_window import (
    CLOCK,
    HOSTILE,
    NOW,
    ShopWindow,
    one_by_one,
    picture,
)
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.count_form import CountForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.laying_forms import FinishLaying
from tui.dialogs.move_form import MoveForm
from tui.dialogs.parts import Lying
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm, SnagForm, TakeBack
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine

LYING = Lying(product="OAK-190", batch="K41", place=UNIT, packs=12)


def said(app: ShopWindow) -> dict[str, str]:
    """The problem shown under each field that has one."""
    return {field.key: field.problem for field in app.screen.query(Field) if field.problem}


async def test_a_paste_of_several_lines_is_refused_in_a_sentence_and_one_line_is_taken() -> None:
    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        line = app.screen.query_one("#field-text OneLine", OneLine)
        line.post_message(events.Paste("one\ntwo\nthree"))
        await pilot.pause()
        assert line.value == ""
        assert said(app) == {"text": "▲ What you pasted has 3 lines; this takes one. Nothing was pasted."}
        line.post_message(events.Paste("x" * 10_001))
        await pilot.pause()
        assert "longer than 10,000" in said(app)["text"]
        line.post_message(events.Paste("a\x1b[31m \u202eb\n"))
        await pilot.pause()
        assert line.value == "a␛[31m \ufffdb"


@pytest.mark.parametrize("name", HOSTILE)
async def test_hostile_names_are_shown_and_come_back_as_plain_words(name: str) -> None:
    app = ShopWindow(lambda: SnagForm(rooms=[name], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        line = app.screen.query_one("#field-what OneLine", OneLine)
        line.post_message(events.Paste(name))
        await pilot.pause()
        await one_by_one(pilot, "tab", "space", "end", "enter")
        shown = picture(app)
        assert "\x1b" not in shown
        assert "\u202e" not in shown
        assert app.is_running
        await pilot.press("ctrl+s")
        await pilot.pause()
    answer = app.answer
    assert getattr(answer, "room") == name  # noqa: B009 - the answer is kept as an object
    assert "\x1b" not in getattr(answer, "what")  # noqa: B009


@pytest.mark.parametrize("name", HOSTILE)
async def test_hostile_words_in_titles_questions_buttons_and_sentences_harm_nothing(name: str) -> None:
    laying = LayingDraft(room=name, begun_at=NOW - timedelta(hours=1))
    lying = Lying(product=name, batch=name, place=UNIT, packs=3)

    def check(_draft: object) -> tuple[Problem, ...]:
        return (Problem(field="nowhere", say=name), Problem(field="area_mm2", say=name))

    for make in (
        lambda: FinishLaying(laying=laying, rest_mm2=10**7, clock=CLOCK, check=check, lying=[lying]),
        lambda: TakeBack(what=name, follows=name),
        lambda: CountForm(lying=[lying], clock=CLOCK, check=check),
        lambda: MoveForm(lying=[lying], targets=[UNIT], clock=CLOCK, check=check),
        lambda: AskYesNo(name, yes=name, no=name, detail=name),
    ):
        app = ShopWindow(make)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("ctrl+s")
            await pilot.pause()
            shown = picture(app)
            assert "\x1b" not in shown
            assert "\u202e" not in shown


async def test_the_buttons_stay_in_sight_in_every_window_down_to_sixty_by_eighteen() -> None:
    def check(_draft: JobDraft) -> tuple[Problem, ...]:
        return (Problem(field="title", say="A long sentence about it. " * 8),)

    for size in ((80, 24), (60, 18), (120, 36)):
        app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=check))
        async with app.run_test(size=size) as pilot:
            await pilot.press("ctrl+s")
            await pilot.pause()
            button = app.screen.query_one("#save", Button)
            assert app.screen.region.contains_region(button.region)
            assert "Save" in picture(app)
