"""What the shop says when it says no reaches the screen word for word."""

from textual.app import App
from textual.widgets._toast import Toast

from store.errors import DraftRefused, Problem, Refused
from tui.telling import list_of, sentence_of, tell, tell_no


def test_each_problem_of_a_draft_is_said_once_on_its_own_line() -> None:
    problems = (
        Problem(field="a", say="One."),
        Problem(field="b", say="Two."),
        Problem(field="c", say="One."),
    )
    assert sentence_of(DraftRefused(problems)) == "One.\nTwo."
    assert list_of(problems) == "One.\nTwo."
    assert sentence_of(Refused("Not today.")) == "Not today."


async def test_a_toast_shows_markup_as_it_is_written_and_no_control_codes() -> None:
    app: App[None] = App()
    async with app.run_test(notifications=True) as pilot:
        tell(app, "Saved [/] of [bold]A\x1b[31m")
        tell_no(app, Refused("No [/] room."))
        await pilot.pause()
        shown = [str(toast.render()) for toast in app.screen.query(Toast)]
        assert any("Saved [/] of [bold]A␛[31m" in one for one in shown)
        assert any("No [/] room." in one for one in shown)
