"""The first screen in the morning: what can be laid, what to do first, and the job under the cursor."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from store.desk.cards import JobCard, Slot
from store.trade.bookings import Booking, BookingDraft, Part
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import CustomerDraft, JobDraft
from store.trade.people import DaysOff, PersonDraft
from store.trade.standing import standing_at
from tests.tui.shop_window import HOSTILE, NOW, picture, type_over
from tests.tui.whole_window import SMALL, WIDE, demo_desk, demo_window, empty_desk, golden, toasts, window_on
from tui.dialogs.dialog import Dialog
from tui.dialogs.laying_forms import FinishLaying
from tui.screens.folder import FolderScreen
from tui.screens.today import TodayScreen
from tui.widgets.day_count import DayCount
from tui.widgets.day_list import DayList
from tui.widgets.deed_list import DeedList
from tui.widgets.job_sheet import JobSheet
from tui.widgets.marked_lines import MarkedLines
from tui.words.diary import say_team, say_who_comes
from tui.words.today import fact_of


async def choose(pilot, app, ref: str) -> None:
    await pilot.press("home")
    while app.screen.chosen.ref != ref:
        await pilot.press("down")


def sheet_words(app):
    return "\n".join(lines.words for lines in app.screen.query(MarkedLines) if lines.display)


async def test_the_day_at_eighty_columns_looks_like_its_picture(tmp_path: Path):
    async with demo_window(tmp_path, SMALL) as (app, pilot):
        await golden(app, pilot, "today_80x24")


async def test_the_day_at_a_hundred_and_twenty_columns_looks_like_its_picture(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        await pilot.press(*["down"] * 4)
        await golden(app, pilot, "today_120x36")


async def test_the_top_line_counts_every_part_of_the_day(tmp_path: Path):
    async with demo_window(tmp_path) as (app, _):
        counted = app.screen.query_one(DayCount).words
        assert counted == "2 can be laid · 4 to do · 3 waiting · 1 curing · 1 to close out"


async def test_a_part_of_the_day_is_named_once_and_again_after_filtering(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        shown = picture(app).splitlines()
        assert [line[:6].strip() for line in shown[3:14]] == [
            *("Lay", "", "To do", "", "", "", "Wait", "", "", "Cure", "Close"),
        ]
        await pilot.press("slash", *"bakery")
        (row,) = [line for line in picture(app).splitlines() if "GQ-0145" in line and "Damp test" in line]
        assert row.startswith(" Wait")


async def test_the_filter_finds_a_job_by_its_customer_without_accents(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("slash", *"sohne")
        assert app.screen.query_one(DayList).chosen == "GQ-0143"
        assert "1 of 11 open jobs" in picture(app)
        await pilot.press("escape")
        assert app.screen.query_one(DayList).filter_text == ""
        assert app.screen.query_one(DayList).chosen == "GQ-0143"


async def test_the_job_under_the_cursor_is_shown_with_its_customer_phone_and_address(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("down")
        words = sheet_words(app)
        assert "GQ-0141  Oak floor in the reading room · promised Thu 3 Dec" in words
        assert "Gannet Quay Reading Society · 070 55 01 41 · 4 Lamp Lane, Gannet Quay" in words
        assert "Ready to lay now." in words


async def test_what_is_measured_and_not_good_is_said_before_what_is_clear(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("down", "down")
        lines = app.screen.query_one(".sheet--way", MarkedLines).words.splitlines()
        assert lines[0].startswith("✗ not good  Air in Vestry is 14.5 °C and 61 %")
        assert lines[-1].startswith("✓ clear  ")
        assert "heating" not in lines[-1], "nothing is on file about it"


async def test_a_running_wait_shows_a_bar_with_its_hours_and_its_end(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 6)
        words = app.screen.query_one(".sheet--way", MarkedLines).words
        assert "██████░░░  Dining room, 8 packs of ASH-180: 118 h of 168 h, ready Fri 27 Nov 09:00" in words


async def test_d_opens_the_form_of_the_first_thing_to_do(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("d")
        await pilot.pause()
        assert isinstance(app.screen, FinishLaying)


async def test_doing_the_first_thing_moves_the_job_on_and_keeps_the_cursor_on_it(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("d")
        await pilot.pause()
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert isinstance(app.screen, TodayScreen)
        assert app.screen.query_one(DayList).chosen == "GQ-0150"
        assert app.screen.chosen.slot is Slot.CURING
        assert "1 can be laid" in app.screen.query_one(DayCount).words
        assert toasts(app)


async def test_tab_goes_to_the_things_to_do_and_enter_does_the_one_under_the_cursor(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 4, "tab", "down", "down", "down")
        deeds = app.screen.query_one(DeedList)
        assert deeds.has_focus
        assert deeds.words[deeds.highlighted] == "Read the air in Parlour"
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, Dialog)


async def test_after_the_last_thing_to_do_the_arrow_shows_what_lies_below(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 4, "tab", *["down"] * 6)
        sheet = app.screen.query_one(JobSheet)
        before = sheet.scroll_y
        await pilot.press("down", "down", "down")
        assert sheet.scroll_y > before
        assert app.screen.query_one(DeedList).highlighted == 6


async def test_escape_goes_back_from_the_things_to_do_to_the_jobs(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("tab", "escape")
        assert app.screen.query_one(DayList).table.has_focus


async def test_a_job_that_only_waits_says_so_when_its_next_thing_is_asked_for(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 7, "d")
        await pilot.pause()
        assert isinstance(app.screen, TodayScreen)
        assert toasts(app) == ["There is nothing to do about this job now; it waits by itself."]


async def test_enter_opens_the_folder_of_the_job_under_the_cursor(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("down", "enter")
        await pilot.pause()
        assert isinstance(app.screen, FolderScreen)
        assert app.screen.ref == "GQ-0141"


async def test_n_takes_on_a_job_and_opens_its_folder_and_the_cursor_stands_on_it_after(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("n")
        await pilot.pause()
        await pilot.press("enter")
        await type_over(pilot, "Oak landing")
        await pilot.press("enter")
        await type_over(pilot, "Harbour Master")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert isinstance(app.screen, FolderScreen)
        assert app.screen.ref == "GQ-0152"
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, TodayScreen)
        assert app.screen.chosen.facts.job.title == "Oak landing"
        assert "GQ-0152  Oak landing" in sheet_words(app)


async def test_without_a_job_the_screen_teaches_what_to_press(tmp_path: Path):
    with empty_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path) as (app, pilot):
            shown = picture(app)
            assert "Press n to take on the first one" in shown
            assert "layday --demo" in shown
            await pilot.press("d", "tab", "down", "enter", "slash", "escape")
            assert isinstance(app.screen, TodayScreen)


async def test_what_cannot_help_before_a_day_says_the_day_even_in_a_narrow_list(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        bakery = desk.jobs.card("GQ-0145")
        assert fact_of(bakery, desk.firm.card(), NOW) == ("Damp test from Thu 17 Dec", "Shop floor")


async def test_a_job_past_its_promised_day_is_called_late_in_words(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        assert "Have it signed · late" in picture(app)
        await pilot.press("end")
        assert "promised Tue 24 Nov, 1 day late" in sheet_words(app)


@pytest.mark.parametrize("nasty", HOSTILE, ids=range(len(HOSTILE)))
async def test_words_on_file_are_shown_as_they_are_and_never_obeyed(tmp_path: Path, nasty: str):
    with empty_desk(tmp_path) as desk:
        desk.jobs.take_on(
            JobDraft(ref=nasty[:40], title=nasty, customer=CustomerDraft(name=nasty, phone=nasty), address=nasty)
        )
        async with window_on(desk, tmp_path) as (app, pilot):
            await pilot.press("tab", "escape", "down")
            shown = picture(app)
            assert "\x1b" not in shown
            assert "\u202e" not in shown
            assert len(app.screen.query_one(DayList).table.rows) == 1


async def test_the_line_above_the_list_says_where_everybody_is_today(tmp_path: Path):
    async with demo_window(tmp_path) as (app, _):
        assert "Today: Maren Holt 0141, Nils Aaker 0150, Tove Ruud free" in picture(app)


@pytest.mark.parametrize(
    ("at", "said"),
    [
        (datetime(2026, 12, 2, 7, tzinfo=UTC), "Today: Maren 0141 (morning) and 0142, Nils off, Tove free"),
        # A Saturday: the next day that is worked is told.
        (datetime(2026, 11, 28, 7, tzinfo=UTC), "No work today. Mon 30 Nov: Maren free, Nils free, Tove 0141"),
        (datetime(2026, 12, 3, 7, tzinfo=UTC), ""),
        # A Saturday that somebody is booked for.
        (datetime(2026, 12, 5, 7, tzinfo=UTC), "Today: Maren free, Nils 0141, Tove free"),
    ],
)
def test_the_team_is_told_for_the_next_day_that_is_worked(at: datetime, said: str):
    def booked(number, person, day, ref, part=Part.WHOLE):
        return Booking(id=number, ref=ref, person=person, first=day, last=day, part=part)

    away = DaysOff(first=date(2026, 12, 1), last=date(2026, 12, 2))
    people = (PersonDraft(name="Maren"), PersonDraft(name="Nils", days_off=(away,)), PersonDraft(name="Tove"))
    bookings = (
        booked(1, "Maren", date(2026, 12, 2), "GQ-0141", Part.MORNING),
        booked(2, "Maren", date(2026, 12, 2), "GQ-0142"),
        booked(3, "Tove", date(2026, 11, 30), "GQ-0141"),
        replace(booked(4, "Tove", date(2026, 12, 3), "GQ-0141"), cancelled=True),
        booked(5, "Nils", date(2026, 12, 5), "GQ-0141"),
    )
    job, firm = (
        JobDraft(ref="GQ-0141", title="Oak floor", customer=CustomerDraft(name="Widow Maddern")),
        FirmDraft(name="Gannet Quay Floors"),
    )
    facts = JobFacts(job=job, products={}, bookings=bookings)
    card = JobCard(facts=facts, standing=standing_at(firm, facts, at), slot=Slot.LAY)
    assert say_team([card], people, firm, at) == said


async def test_who_comes_before_the_floor_is_ready_is_marked_in_the_line_and_told_why_below_the_list(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        for ref in ("GQ-0142", "GQ-0143"):
            for old in desk.jobs.card(ref).facts.bookings:
                desk.diary.cancel(old)
        today = desk.today()
        desk.diary.book("GQ-0142", BookingDraft(person="Tove Ruud", first=today, last=today))
        desk.diary.book("GQ-0143", BookingDraft(person="Tove Ruud", first=date(2026, 12, 3), last=date(2026, 12, 4)))
        async with window_on(desk, tmp_path, WIDE) as (app, pilot):
            assert "Tove Ruud 0142 ▲ not ready" in picture(app)
            assert "Maren Holt 0141," in picture(app)
            await choose(pilot, app, "GQ-0142")
            assert "Tove Ruud comes today, ▲ the floor is not ready and" in picture(app)
        said = say_who_comes(desk.jobs.card("GQ-0143"), desk.firm.card(), desk.now())
        assert said == "Tove Ruud comes Thu 3 Dec, ▲ 2 days too soon, ready from Mon 7 Dec 08:00"


async def test_a_promise_that_will_be_missed_slips_in_the_list_and_by_how_much_below_it(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        vestry = desk.jobs.card("GQ-0142").facts.job
        desk.jobs.change(vestry, replace(vestry, promised_on=date(2026, 12, 3)))
        async with window_on(desk, tmp_path) as (app, pilot):
            await pilot.press("down", "down")
            assert app.screen.chosen.ref == "GQ-0142"
            assert "Put the air right: Vestry · slips" in picture(app)
            words = " ".join(app.screen.query_one(".sheet--way", MarkedLines).words.split())
            assert "▲ slips Can be handed over from" in words
            assert "promised for Thu 3 Dec" in words


async def test_a_floor_whose_booking_ends_too_late_for_its_glue_slips_and_by_when_it_must_be_laid_is_told(
    tmp_path: Path,
):
    with demo_desk(tmp_path) as desk:
        office = desk.jobs.card("GQ-0150").facts.job
        booked = desk.jobs.card("GQ-0150").facts.bookings[0]
        # The glue takes three days: laid by Fri 27 Nov it is cured on Mon 30 Nov, so that Sunday comes too soon.
        desk.jobs.change(office, replace(office, promised_on=booked.last + timedelta(days=3)))
        async with window_on(desk, tmp_path, WIDE) as (app, _):
            assert "Finish Back office · by Fri 27 Nov" in picture(app)
        office = desk.jobs.card("GQ-0150").facts.job
        desk.jobs.change(office, replace(office, promised_on=booked.last + timedelta(days=2)))
        async with window_on(desk, tmp_path) as (app, _):
            assert "Finish Back office · slips" in picture(app)
            words = " ".join(app.screen.query_one(".sheet--way", MarkedLines).words.split())
            assert "▲ slips Lay Back office by" in words
            assert (
                "to keep the promise; Nils Aaker is booked to Fri 27 Nov: then it is handed over 1 day late." in words
            )


async def test_the_last_safe_day_to_order_stands_with_the_job(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 4)
        words = app.screen.query_one(".sheet--way", MarkedLines).words
        assert "▲ order  Order OAK-190 by Wed 9 Dec at the latest" in words
        assert words.index("may hold asbestos") < words.index("▲ order"), "what can hurt comes first"


async def test_what_may_hold_asbestos_comes_before_everything_else(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 4)
        assert "Leave alone, sample: Study" in picture(app)
        assert app.screen.query_one(DeedList).words[0] == (
            "Leave the old floor in Study alone and have a sample tested"
        )
