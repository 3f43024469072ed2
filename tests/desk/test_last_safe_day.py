"""The last safe day to order agrees with the sum done by hand, for three jobs of a firm that has holidays on file.

The firm works Mon to Fri from 08:00 to 16:30, 8.5 hours a day; a fitter lays 16 m² of glued or 25 m² of floating floor
in 8 hours, takes half an hour more for each doorway and pipe, and puts up 6 m of skirting an hour (common practice, the
rules of Handbook 2 §11). Oak and ash lie 168 hours in their room; the glue takes 72 hours to full load.
"""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from store.desk.desk import Desk
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.outline import rectangle
from store.trade.planning.hours import shown_deadline
from tests.tui.firm_window import demo_desk

BRUSSELS = ZoneInfo("Europe/Brussels")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        opened.holidays.file([date(2026, 12, 25), date(2027, 1, 1)])
        yield opened


def take_on(desk: Desk, ref: str, promised: date, room: RoomDraft) -> None:
    desk.jobs.take_on(JobDraft(ref=ref, title="A floor", customer=CustomerDraft(name="Quay"), promised_on=promised))
    desk.jobs.add_room(ref, room)


def last_days(desk: Desk, ref: str) -> tuple[str, date, date | None]:
    """When laying must begin on the wall clock; the last safe days to have it here and to order it."""
    times = desk.times.of_job(ref)
    assert times is not None
    (board,) = times.boards
    begin = shown_deadline(times.lay_by).astimezone(BRUSSELS)
    return f"{begin:%a %d %b %H:%M}", board.deliver_by, board.order_by


def test_a_glued_floor_promised_before_christmas_was_to_be_ordered_already(desk: Desk) -> None:
    # Handed over by Fri 18 Dec 16:30.    72 h of glue:  laid by Tue 15 Dec 16:30.
    # 4 m × 4 m = 16 m² are 8 h:          begun by Tue 15 Dec 08:30.
    # 168 h in the room:                  here Tue 8 Dec 08:30; at any hour of a day: by Mon 7 Dec.
    # 14 days from order to delivery:     ordered by Mon 23 Nov, two days ago.
    room = RoomDraft(
        name="Hall",
        outline=rectangle(4000, 4000),
        subfloor=Subfloor.OSB,
        method=Method.GLUED,
        board="OAK-190",
        glue="MS-15",
    )
    take_on(desk, "H-1", date(2026, 12, 18), room)
    assert last_days(desk, "H-1") == ("Tue 15 Dec 08:30", date(2026, 12, 7), date(2026, 11, 23))


def test_a_floating_floor_whose_last_day_falls_on_a_weekend_after_a_holiday(desk: Desk) -> None:
    # Handed over by Fri 15 Jan 16:30. 20 m of skirting at 6 m an hour are 3 h 20: laid by Fri 15 Jan 13:10.
    # 5 m × 5 m = 25 m² floating are 8 h: 5 h 10 of Friday and 2 h 50 of Thursday: begun by Thu 14 Jan 13:40.
    # 168 h in the room:               here Thu 7 Jan 13:40; at any hour of a day: by Wed 6 Jan.
    # 10 days, as its product says:    Sun 27 Dec; Fri 25 Dec is a holiday: ordered by Thu 24 Dec.
    ash = next(one for one in desk.products.all() if one.code == "ASH-180")
    desk.products.change(ash, replace(ash, lead_days=10))
    room = RoomDraft(
        name="Loft", outline=rectangle(5000, 5000), subfloor=Subfloor.OSB, method=Method.FLOATING, board="ASH-180"
    )
    take_on(desk, "H-2", date(2027, 1, 15), room)
    assert last_days(desk, "H-2") == ("Thu 14 Jan 13:40", date(2027, 1, 6), date(2026, 12, 24))


def test_two_rooms_one_after_the_other_over_new_year(desk: Desk) -> None:
    # Handed over by Tue 5 Jan 16:30. 72 h of glue: Sat 2 Jan 16:30; Fri 1 Jan is a holiday: laid by Thu 31 Dec 16:30.
    # Study, 2.9 m × 2.6 m = 7.54 m²:  3.77 h, and a doorway: 4.27 h: begun by Thu 31 Dec 12:13.
    # Parlour, 5.4 m × 4.3 m less 0.6 m² of chimney and 0.585 m² of hearth = 22.035 m²: 11.02 h, a doorway and a pipe:
    #   12.02 h: 4.23 h of Thursday and 7.79 h of Wednesday: begun by Wed 30 Dec 08:42.
    # 168 h in the room:               here Wed 23 Dec 08:42; at any hour of a day: by Tue 22 Dec.
    # 14 days from order to delivery:  ordered by Tue 8 Dec.
    assert last_days(desk, "GQ-0149") == ("Wed 30 Dec 08:42", date(2026, 12, 22), date(2026, 12, 8))
