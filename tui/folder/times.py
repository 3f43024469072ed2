"""A job's steps one by one: when each can be done at the earliest, when at the latest, and what is in hand."""

from collections.abc import Iterator

from store.trade.planning.activities import Times
from store.trade.planning.hours import shown_deadline
from store.trade.planning.job_steps import Step
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.times import say_in_hand, say_step, say_times
from tui.words.wording import say_hours

COLUMNS = (
    Column(label="Step"),
    Column(label="Earliest", width=16),
    Column(label="Latest", width=14),
    Column(label="In hand", width=15),
)


def times_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return when the job can be handed over, what is to be ordered by when, and what decides."""
    if page.times is None:
        return ()
    return tuple(
        Said(words=words, tone=Tone.WARN if words.startswith("▲") else Tone.OK if words.startswith("✓") else Tone.PLAIN)
        for words in say_times(page.times, page.facts, page.clock)
    )


def times_entries(page: Page) -> tuple[Entry, ...]:
    """Return the steps that are still to come or going on, the earliest first; the chain that decides is marked."""
    if page.times is None:
        return ()
    deciding = {one.activity.name for one in page.times.chain}
    steps = [
        one
        for one in page.times.timetable.times
        if one.activity.step != Step.READY.value and one.earliest_finish > page.clock.now
    ]
    steps.sort(key=lambda one: (one.earliest_start, one.earliest_finish))
    return tuple(_entry(page, one, decides=one.activity.name in deciding) for one in steps)


def _entry(page: Page, times: Times, *, decides: bool) -> Entry:
    words, clock = say_step(times.activity), page.clock
    in_hand = "" if times.float_hours is None else say_in_hand(times.float_hours)
    begin_by = times.latest_start
    return Entry(
        key=f"step:{times.activity.name}",
        cells=(
            f"{'▸' if decides else ' '} {words}",
            "goes on" if times.earliest_start <= clock.now < times.earliest_finish else clock.say(times.earliest_start),
            clock.say_day(clock.day(begin_by)) if begin_by and times.activity.fixed is None else "",
            in_hand or (f"until {clock.say_day(clock.day(times.earliest_finish))}" if times.activity.fixed else ""),
        ),
        fact=times,
        title=words,
        whole=tuple(_whole(page, times, decides=decides)),
    )


def _whole(page: Page, times: Times, *, decides: bool) -> Iterator[Said]:
    clock = page.clock
    yield Said(words=f"At the earliest from {clock.say(times.earliest_start)} to {clock.say(times.earliest_finish)}.")
    if times.latest_start is not None and times.latest_finish is not None and times.activity.fixed is None:
        begun, done = (clock.say(shown_deadline(at)) for at in (times.latest_start, times.latest_finish))
        yield Said(words=f"At the latest begun {begun}, done {done}.")
    if times.activity.hours:
        kind = "working hours" if times.activity.pace == "working" else "hours, night and day"
        yield Said(words=f"Takes {say_hours(times.activity.hours).removesuffix(' h')} {kind}.")
    if times.float_hours is not None:
        yield Said(words=f"In hand: {say_in_hand(times.float_hours)}.")
    if decides:
        yield Said(words="▸ It is one of the steps that decide when the floor can be handed over.")
    yield Said(words="A day is for planning; readings and the hours that counted release a floor.", tone=Tone.MUTED)
