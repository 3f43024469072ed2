"""A room's readings over time, as pictures to turn through."""

from datetime import datetime, timedelta

from store.trade.series import Series, series_in
from tui.dialogs.reading_charts import Picture
from tui.folder.page import Page
from tui.typed.wall_clock import WallClock
from tui.widgets.line_chart import Chart
from tui.words.series import say_course, say_series

_HOUR = timedelta(hours=1)


def pictures_of(page: Page, room: str, kind: str = "") -> tuple[tuple[Picture, ...], int]:
    """Return a picture of each figure that was read in a room, and the place of the first one of a kind."""
    clocks = page.card.standing.clocks
    found = series_in(page.firm, page.facts, page.facts.room(room), clocks, page.clock.now)
    pictures = tuple(
        Picture(title=say_series(one), chart=chart_of(one, page.clock), words=say_course(one, page.clock))
        for one in found
    )
    return pictures, next((place for place, one in enumerate(found) if one.kind == kind), 0)


def chart_of(series: Series, clock: WallClock) -> Chart:
    """Return the picture of a series: hours since its first moment across, a tick for each day that has room."""
    first = min([series.points[0][0], *(begun for begun, _ in series.counted)])
    last = max([series.points[-1][0], *(ended for _, ended in series.counted)])

    def across(at: datetime) -> float:
        return (at - first) / _HOUR

    days = [clock.day(first) + timedelta(days=day) for day in range((clock.day(last) - clock.day(first)).days + 1)]
    starts = [datetime(day.year, day.month, day.day, tzinfo=clock.zone) for day in days]
    return Chart(
        points=[(across(at), value) for at, value in series.points],
        lowest_good=series.lowest_good,
        highest_good=series.highest_good,
        ticks=[(max(across(start), 0.0), clock.say_day(day)) for day, start in zip(days, starts, strict=True)],
        counted=[(across(begun), across(ended)) for begun, ended in series.counted],
    )
