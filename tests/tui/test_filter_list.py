"""A list is filtered as one types, keeps its cursor, and teaches when it is empty."""

from rich.text import Text
from textual.app import App, ComposeResult
from textual.screen import Screen

from tests.tui.shop_window import HOSTILE, picture
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row, folded

COLUMNS = (Column(label="Ref", width=8), Column(label="Job"), Column(label="Town", width=14, only_wide=True))
ROWS = [
    Row(key="1", cells=("L-1", "Café Hélène", "Quay")),
    Row(key="2", cells=("L-2", "Library", "Harbour")),
    Row(key="3", cells=(Text("L-3"), "Øster School", "Quay")),
]


class Lists(App[None]):
    def __init__(self, rows: list[Row]) -> None:
        super().__init__()
        self.rows_to_show = rows
        self.chosen: list[str | None] = []
        self.opened: list[str] = []

    def compose(self) -> ComposeResult:
        yield FilterList(COLUMNS, noun="jobs", empty="No jobs yet. Press n to take one on.")

    def on_mount(self) -> None:
        self.query_one(FilterList).fill(self.rows_to_show)
        self.query_one(FilterList).focus_list()

    def on_filter_list_chosen(self, event: FilterList.Chosen) -> None:
        self.chosen.append(event.key)

    def on_filter_list_opened(self, event: FilterList.Opened) -> None:
        self.opened.append(event.key)


def test_accents_and_capitals_do_not_matter() -> None:
    assert folded("Hélène ØSTER Straße") == "helene oster strasse"


async def test_typing_after_a_slash_narrows_the_rows_and_says_how_many() -> None:
    app = Lists(ROWS)
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.press("slash", *"HELENE")
        await pilot.pause()
        assert "1 of 3 jobs" in picture(app)
        assert app.query_one(FilterList).chosen == "1"
        await pilot.press("escape")
        await pilot.pause()
        assert "Library" in picture(app)
        assert "3 jobs" in picture(app)


async def test_what_is_not_found_is_said_and_enter_goes_to_the_list() -> None:
    app = Lists(ROWS)
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.press("slash", *"zzz")
        await pilot.pause()
        assert "Nothing like “zzz” in 3 jobs; Esc shows all" in picture(app)
        assert app.query_one(FilterList).chosen is None
        await pilot.press("escape", "slash", *"oster", "enter", "enter")
        await pilot.pause()
        assert app.opened == ["3"]


async def test_the_cursor_stays_on_its_row_when_the_list_is_filled_anew() -> None:
    app = Lists(ROWS)
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.press("down")
        await pilot.pause()
        assert app.query_one(FilterList).chosen == "2"
        app.query_one(FilterList).fill([Row(key="0", cells=("L-0", "New", "")), *ROWS])
        await pilot.pause()
        assert app.query_one(FilterList).chosen == "2"
        assert app.query_one(FilterList).table.cursor_row == 2
        assert app.chosen == ["1", "2"]


async def test_escape_is_left_to_the_screen_while_nothing_is_filtered() -> None:
    app = Lists(ROWS)
    async with app.run_test(size=(80, 12)):
        rows = app.query_one(FilterList)
        assert rows.check_action("clear_filter", ()) is False
        rows.action_filter()
        assert rows.check_action("clear_filter", ()) is True


async def test_an_empty_list_says_what_it_is_for_and_which_key_adds_the_first() -> None:
    app = Lists([])
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.pause()
        assert "No jobs yet. Press n to take one on." in picture(app)


async def test_a_wide_window_shows_more_columns() -> None:
    app = Lists(ROWS)
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.pause()
        assert "Harbour" not in picture(app)
        await pilot.resize_terminal(120, 12)
        await pilot.press("down", "up")  # the new columns are laid out when the list is idle again
        await pilot.pause()
        assert "Harbour" in picture(app)
        assert app.query_one(FilterList).chosen == "1"


async def test_hostile_names_are_shown_as_they_are() -> None:
    app = Lists([Row(key=str(at), cells=("L", name, name)) for at, name in enumerate(HOSTILE)])
    async with app.run_test(size=(120, 14)) as pilot:
        await pilot.press("down", "down", "down")
        await pilot.pause()
        shown = picture(app)
        assert "[@click=app.quit]x[/]" in shown
        assert "\x1b" not in shown
        assert "\u202e" not in shown


async def test_twenty_thousand_rows_are_capped_and_it_is_said() -> None:
    app = Lists([Row(key=str(at), cells=("L", f"Job {at}", "")) for at in range(20_000)])
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.pause()
        assert "20,000 jobs, the first 1,000 shown; narrow them with /" in picture(app)
        await pilot.press("slash", *"19999")
        await pilot.pause()
        assert "1 of 20,000 jobs" in picture(app)


async def test_a_key_pressed_over_an_empty_list_is_never_swallowed_by_the_hidden_line() -> None:
    app = Lists([])
    async with app.run_test(size=(80, 12)) as pilot:
        await pilot.pause()
        app.push_screen(Screen())
        await pilot.pause()
        app.pop_screen()
        await pilot.pause()
        await pilot.press("n", "e")
        assert app.focused is None
        assert app.query_one(FilterList).filter_text == ""
