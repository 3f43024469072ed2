"""Both themes are measured on what is really drawn: text 4.5 to 1 or better, borders and bars 3 to 1."""

import itertools

import pytest
from rich.color import Color
from rich.style import Style
from textual.app import App, ComposeResult
from textual.pilot import Pilot
from textual.theme import Theme
from textual.widgets import Footer

from store.trade.verdict import Stage
from tests.tui.shop_window import ASH, CLOCK, GLUE, OAK, ShopWindow, one_by_one
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.room_form import RoomForm
from tui.theme import DARK, LIGHT, THEMES, WITHOUT_COLOUR, theme_for
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line
from tui.widgets.stage_bar import StageBar

_DRAWN = set("─│┌┐└┘├┤╭╮╰╯▼▲█░▁▂▃▄▅▆▇▔▕▏▊▎▌▐╸╺━✓○●◐")
_SHADED = set("░")


def luminance(colour: Color) -> float:
    parts = []
    for part in colour.get_truecolor():
        c = part / 255
        parts.append(c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4)
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: Color, other: Color) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself_gives_the_published_ratios() -> None:
    # WCAG 2.x definition: black on white 21; #767676 on white 4.54, the darkest grey tables call just enough.
    white = Color.parse("#ffffff")
    assert contrast(Color.parse("#000000"), white) == pytest.approx(21.0)
    assert contrast(Color.parse("#767676"), white) == pytest.approx(4.542, abs=0.001)


def weak_spots(app: App[None]) -> list[str]:
    found = []
    for strip in app.screen._compositor.render_strips():
        for segment in strip:
            style = segment.style or Style()
            if not segment.text.strip() or style.color is None or style.bgcolor is None:
                continue
            front, back = (style.bgcolor, style.color) if style.reverse else (style.color, style.bgcolor)
            least = 3.0 if set(segment.text.strip()) <= _DRAWN else 4.5
            if set(segment.text.strip()) <= _SHADED:
                continue
            ratio = contrast(front, back)
            if ratio < least:
                found.append(f"{segment.text.strip()!r} {front.name} on {back.name}: {ratio:.2f} < {least}")
    return found


class Shelf(App[None]):
    def __init__(self, theme: str) -> None:
        super().__init__()
        self._wanted = theme

    CSS_PATH = ShopWindow.CSS_PATH

    def compose(self) -> ComposeResult:
        yield StageBar(Stage.INSTALL)
        for tone in ("ok", "wait", "warn", "bad", "muted", "accent", "caution"):
            yield Line(f"said in {tone}", classes=tone)
        yield FilterList([Column(label="Job")], noun="jobs", empty="None.")
        yield Footer()

    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = self._wanted
        self.query_one(FilterList).fill([Row(key="1", cells=("One",)), Row(key="2", cells=("Two",))])


@pytest.mark.parametrize("theme", [DARK, LIGHT])
@pytest.mark.parametrize("focused", [False, True])
async def test_every_tone_of_the_shared_widgets_can_be_read(theme: str, focused: bool) -> None:
    app = Shelf(theme)
    async with app.run_test(size=(80, 30)) as pilot:
        if focused:
            app.query_one(FilterList).focus_list()
        await pilot.pause()
        assert weak_spots(app) == []
        app.notify("Said in a toast", severity="warning")
        app.query_one(FilterList).action_filter()
        await pilot.pause()
        assert weak_spots(app) == []


@pytest.mark.parametrize("theme", [DARK, LIGHT])
async def test_forms_can_be_read_with_faults_open_lists_and_questions_above_them(theme: str) -> None:
    def make() -> RoomForm:
        return RoomForm(boards=[OAK, ASH], glues=[GLUE], clock=CLOCK, check=nothing_to_say)

    app = ShopWindow(make, theme)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert weak_spots(app) == []
        await one_by_one(pilot, "tab", "tab", "tab", "space", "down")
        assert weak_spots(app) == []
        await press_save_button(pilot, app)
        assert weak_spots(app) == []
    app = ShopWindow(lambda: AskYesNo("Sure?", yes="Yes", detail="It cannot be undone."), theme)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert weak_spots(app) == []
        await one_by_one(pilot, "right")
        assert weak_spots(app) == []


async def press_save_button(pilot: Pilot[None], app: ShopWindow) -> None:
    await one_by_one(pilot, "escape")
    app.screen.query_one("#save").focus()
    await pilot.pause()


@pytest.mark.parametrize("theme", THEMES)
def test_the_five_meanings_have_five_colours_that_can_be_told_apart(theme: Theme) -> None:
    names = (theme.accent, theme.success, theme.secondary, theme.warning, theme.error)
    shades = [Color.parse(name or "").get_truecolor() for name in names]
    for one, other in itertools.combinations(shades, 2):
        assert max(abs(a - b) for a, b in zip(one, other, strict=True)) >= 32


def test_no_color_asks_for_the_terminals_own_colours_and_an_empty_one_does_not() -> None:
    # no-color.org: only a value that is not empty counts.
    assert theme_for("1") == WITHOUT_COLOUR
    assert theme_for("") == DARK
    assert theme_for(None) == DARK
