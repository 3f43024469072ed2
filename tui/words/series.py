"""What a room's readings over time come to, in words."""

from datetime import timedelta

from store.trade.series import Series
from tui.typed.wall_clock import WallClock
from tui.words.vocabulary import READING_KINDS, the_room
from tui.words.wording import counted, figure, say_hours

_FIGURES = {
    "temp_c": ("temperature", "°C"),
    "rh_percent": ("humidity", "%"),
    "percent": ("", "%"),
    "gap_mm": ("", "mm"),
}
_HOUR = timedelta(hours=1)


def say_series(series: Series) -> str:
    """Return what is followed, and where: “Room air, temperature, in Vestry (°C)”."""
    what, unit = _FIGURES[series.figure]
    of = f", {what}" if what and series.kind == "air" else ""
    return f"{READING_KINDS[series.kind]}{of}, in {the_room(series.room)} ({unit})"


def say_course(series: Series, clock: WallClock) -> list[str]:
    """Return the picture's sentences: how many readings from when to when, the spread, what was amiss, what counted."""
    values = [value for _, value in series.points]
    _, unit = _FIGURES[series.figure]
    said = [_say_readings(series, clock, unit)]
    if len(values) > 1:
        said.append(f"Lowest {figure(min(values))}, highest {figure(max(values))}, latest {figure(values[-1])} {unit}.")
    asked = _say_range(series, unit)
    if asked:
        amiss = "none" if series.amiss == 0 else counted(series.amiss, "reading")
        said.append(f"{'✓' if series.amiss == 0 else '▲'} Must be {asked}; {amiss} out of it.")
    if series.counted:
        hours = sum((ended - begun) / _HOUR for begun, ended in series.counted)
        said.append(f"━ {say_hours(hours)} counted for the packs there.")
    return said


def _say_readings(series: Series, clock: WallClock, unit: str) -> str:
    begun, ended = series.points[0][0], series.points[-1][0]
    if len(series.points) == 1:
        return f"One reading, {clock.say(begun)}: {figure(series.points[0][1])} {unit}."
    return f"{counted(len(series.points), 'reading')}, {clock.say(begun)} to {clock.say(ended)}."


def _say_range(series: Series, unit: str) -> str:
    low, high = series.lowest_good, series.highest_good
    if low is not None and high is not None:
        return f"{figure(low)}–{figure(high)} {unit}"
    return f"at most {figure(high)} {unit}" if high is not None else ""
