"""The made-up firm: reads demo_data and moves every job in through the desk's own deeds, dated relative to now.

A happening in demo_data says when as ``"-6w 09:30"``: six working days ago at half past nine. Working days keep
deliveries off Sundays whatever day the demo is opened on; ``"-45d"`` counts calendar days.
"""

import re
import tomllib
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from importlib.resources import files
from pathlib import Path
from typing import Any, cast

from dateutil.relativedelta import relativedelta
from dateutil.rrule import DAILY, rrule

from store.desk.demo_deeds import DEEDS
from store.desk.demo_drafts import Toml, flight_draft, job_draft, person_draft, product_draft, room_draft
from store.desk.demo_scene import Scene
from store.desk.desk import open_desk
from store.trade.diary import day_of, wall_instant
from store.trade.firm import Firm, FirmDraft
from store.trade.suppliers import Supplier

_WHEN = re.compile(r"([+-]\d+)([wd])(?: (\d\d):(\d\d))?")
_EARLIEST = "-310w"


class StoryClock:
    """Shows the moment of the happening being filed, so that the history reads as if it had been lived."""

    def __init__(self, now: datetime) -> None:
        self.shows = now

    def __call__(self) -> datetime:
        return self.shows


@dataclass(frozen=True, slots=True, kw_only=True)
class Calendar:
    """Turns "-6w 09:30" into a day or an instant, counted from one day in the firm's zone."""

    firm: FirmDraft
    today: date

    def day(self, when: str) -> date:
        """Return the day; ValueError if ``when`` is not written as the module says."""
        match = _WHEN.fullmatch(when)
        if match is None:
            raise ValueError(when)
        count = int(match.group(1))
        if match.group(2) == "d":
            return self.today + relativedelta(days=count)
        return self._working_day(count)

    def instant(self, when: str) -> datetime:
        """Return the instant (UTC); eight in the morning where no time stands."""
        match = _WHEN.fullmatch(when)
        hour, minute = (match.group(3), match.group(4)) if match else (None, None)
        return wall_instant(self.firm, self.day(when), time(int(hour or 8), int(minute or 0)))

    def _working_day(self, count: int) -> date:
        """The working day so many before (negative) or after today."""
        first = self.today + relativedelta(days=-3 * abs(count) - 7 if count < 0 else 1)
        days = rrule(DAILY, dtstart=datetime.combine(first, time()), byweekday=self.firm.working_days)
        if count < 0:
            before = days.between(datetime.combine(first, time()), datetime.combine(self.today, time()), inc=False)
            return before[count].date()
        return next(moment for index, moment in enumerate(days, start=1) if index == count).date()


def furnish(path: Path, now: datetime) -> None:
    """Make records at ``path`` that hold the made-up firm as it stands at ``now``; they are not meant to be kept."""
    book = _read("firm.toml")
    firm_draft = _firm_draft(book)
    calendar = Calendar(firm=firm_draft, today=day_of(firm_draft, now))
    clock = StoryClock(calendar.instant(_EARLIEST))
    people = [person_draft(one, calendar.day) for one in _tables(book, "person")]
    who = people[0].name
    with open_desk(path, clock=clock, who=who, create=True, throw_away=True) as desk:
        firm = desk.firm.set_up(firm_draft)
        for person in people:
            desk.firm.take_on(person)
        for product in _tables(book, "product"):
            desk.products.add(product_draft(product))
        happenings = [one for file in _job_files() for one in _happenings(_read(file), calendar, firm)]
        for at, scene in sorted(happenings, key=lambda pair: pair[0]):
            clock.shows = min(at, now.astimezone(UTC))
            DEEDS[str(scene.told["deed"])](desk, scene)


def _happenings(job: Toml, calendar: Calendar, firm: Firm) -> list[tuple[datetime, Scene]]:
    ref = str(job["ref"])
    promised = job.get("promised")
    told = [{"deed": "taken_on", "at": job["taken_on"]}, *_tables(job, "happening")]
    scenes: list[tuple[datetime, Scene]] = []
    for one in told:
        at = calendar.instant(str(one["at"]))
        draft = job_draft(job, calendar.day(str(promised)) if promised else None)
        rooms = tuple(room_draft(room, calendar.day) for room in _tables(job, "room"))
        flights = tuple(flight_draft(flight) for flight in _tables(job, "flight"))
        scene = Scene(ref=ref, at=at, told=one, job=draft, rooms=rooms, flights=flights, day=calendar.day)
        scenes.append((at, scene))
    return scenes


def _firm_draft(book: Toml) -> FirmDraft:
    firm = _table(book, "firm")
    return FirmDraft(
        name=str(firm["name"]),
        time_zone=str(firm["time_zone"]),
        currency=str(firm["currency"]),
        suppliers=tuple(Supplier(**one) for one in cast("list[dict[str, Any]]", book.get("supplier", []))),
    )


def _job_files() -> list[str]:
    folder = files("demo_data")
    return sorted(entry.name for entry in folder.iterdir() if entry.name.startswith("job_"))


def _read(name: str) -> Toml:
    return tomllib.loads(files("demo_data").joinpath(name).read_text(encoding="utf-8"))


def _table(told: Toml, key: str) -> Toml:
    value = told[key]
    if not isinstance(value, dict):
        raise TypeError(key)
    return value


def _tables(told: Toml, key: str) -> list[Toml]:
    return [one for one in _list(told, key) if isinstance(one, dict)]


def _list(told: Toml, key: str) -> list[object]:
    value = told.get(key, [])
    if not isinstance(value, list):
        raise TypeError(key)
    return value
