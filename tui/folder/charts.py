"""A room's readings over time and its grids of levels, as pictures to turn through."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from functools import partial

from store.trade.groups import in_order
from store.trade.judging import is_levelled_away
from store.trade.readings import LevelGrid
from store.trade.series import Series, series_in
from tui.dialogs.reading_charts import Picture
from tui.folder.page import Page
from tui.typed.wall_clock import WallClock
from tui.widgets.line_chart import Chart, chart_lines
from tui.words.level_grid import grid_lines, say_levels
from tui.words.series import say_course, say_series
from tui.words.vocabulary import the_room
from tui.words.wording import clean, say_measure

_HOUR = timedelta(hours=1)


def pictures_of(page: Page, room: str, kind: str = "") -> tuple[tuple[Picture, ...], int]:
    """Return a picture of each figure that was read in a room, and the place of the first one of a kind."""
    clocks = page.card.standing.clocks
    found = series_in(page.firm, page.facts, page.facts.room(room), clocks, page.clock.now)
    over_time = tuple(
        Picture(
            title=say_series(one),
            draw=partial(chart_lines, chart_of(one, page.clock)),
            words=say_course(one, page.clock),
        )
        for one in found
    )
    grids = tuple(_grids(page, room))
    places = [one.kind for one in found] + ["level_grid"] * len(grids)
    return over_time + grids, places.index(kind) if kind in places else 0


def _grids(page: Page, room: str) -> Iterator[Picture]:
    """Yield a plan of each grid of levels that still counts, the latest first."""
    for reading in reversed(in_order(page.facts.readings, room)):
        if isinstance(reading.measure, LevelGrid) and not is_levelled_away(reading, page.facts):
            most, area = float(page.firm.flat_limit_mm), page.facts.room(room).net_mm2
            at = f"At {clean(reading.evidence.point)}. " if reading.evidence.point else ""
            yield Picture(
                title=f"Levels in {the_room(room)}, {page.clock.say(reading.at)}: mm under the highest point",
                draw=partial(grid_lines, reading.measure),
                words=(f"{at}{say_measure(reading.measure)}.", *say_levels(reading.measure, most, area)),
            )


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
