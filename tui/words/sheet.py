"""The lines of one job at a glance: its verdict, what stands in the way, what is clear, and how its packs wait."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from store.desk.cards import JobCard
from store.trade.firm import Firm
from store.trade.planning.job_network import JobTimes
from store.trade.verdict import Hold, HoldKind, HoldState, StackClock, Stage, Verdict, Why
from tui.typed.wall_clock import WallClock
from tui.widgets.countdown_bar import bar_of
from tui.widgets.marked_lines import Marked
from tui.words.diary import say_booked_late, say_who_comes
from tui.words.holds import say_hold
from tui.words.standing import say_clock, say_verdict, say_windows
from tui.words.times import say_pressing
from tui.words.today import days_late
from tui.words.vocabulary import HOLD_KINDS, HOLD_SIGNS, HOLD_STATES
from tui.words.wording import clean, counted, say_day, say_hours, say_instant, say_packs

TONES = {HoldState.CLEAR: "ok", HoldState.WAITING: "wait", HoldState.TO_DO: "warn", HoldState.FAILED: "bad"}
_BAR_WIDTH = 9
_AFTER_LAYING = (Stage.CURE, Stage.HANDOVER, Stage.CLOSED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """One job as it is seen at one moment."""

    card: JobCard
    firm: Firm
    now: datetime
    times: JobTimes | None = None

    def who(self) -> str:
        """Return who the floor is for and how to reach them, as far as that is on file."""
        job = self.card.facts.job
        parts = (job.customer.name, job.customer.phone or job.customer.email, job.address)
        who = " · ".join(clean(part) for part in parts if part)
        booked = say_who_comes(self.card, self.firm, self.now)
        return f"{who} · {booked}" if booked else who

    def title(self) -> str:
        """Return the job's reference, its title, and the day that was promised."""
        job, today = self.card.facts.job, self.now.astimezone(self.firm.zone).date()
        words = f"{clean(job.ref)}  {clean(job.title)}"
        if job.promised_on is not None:
            days = days_late(job, today)
            late = f", {counted(days, 'day')} late" if days else ""
            words += f" · promised {say_day(job.promised_on, today)}{late}"
        return words

    def verdict(self) -> Marked:
        """Return what the standing says, with its sign."""
        standing = self.card.standing
        say = say_verdict(standing, self.firm, self.now) or say_windows(self.card.standing.windows, self.firm, self.now)
        sign, tone = _VERDICT_SIGNS[standing.verdict]
        return Marked(mark=sign, say=say, tone=tone)

    def way(self) -> tuple[Marked, ...]:
        """Return what stands in the way, what somebody must act on first; then how packs wait, and what is clear."""
        wrong, to_do, waiting = (
            [
                self._hold(one)
                for one in self.card.standing.holds
                if one.state is state and one.why is not Why.CLOCK_RUNNING
            ]
            for state in (HoldState.FAILED, HoldState.TO_DO, HoldState.WAITING)
        )
        lines = dict.fromkeys([*wrong, *self._pressing(), *to_do, *waiting])
        return (*lines, *self._waits(), *self._clear())

    def _pressing(self) -> Iterator[Marked]:
        """What the days say that cannot wait: a promise that will be missed, the last safe day to order."""
        over = days_late(self.card.facts.job, self.now.astimezone(self.firm.zone).date())
        missed = "▲ late" if over else "▲ slips"
        for say in say_booked_late(self.card, self.times, self.firm, self.now):
            yield Marked(mark=missed, say=say, tone="warn")
        if self.times is not None:
            for say in say_pressing(self.times, self.card.facts, WallClock(now=self.now, zone=self.firm.zone)):
                mark = missed if say.startswith("▲") else "▲ order"
                yield Marked(mark=mark, say=say.removeprefix("▲ "), tone="warn")

    def is_clear(self) -> bool:
        """Whether nothing stands in the way, and no day is pressing."""
        return all(one.state is HoldState.CLEAR for one in self.card.standing.holds) and not any(self._pressing())

    def _hold(self, hold: Hold) -> Marked:
        say = say_hold(hold, self.card.facts, self.firm, self.now)
        if hold.kind is HoldKind.ACCLIMATISATION and len(self.card.facts.rooms) > 1 and hold.why in _WITHOUT_ROOM:
            say = f"{clean(hold.room)}: {say}"
        return Marked(mark=f"{HOLD_SIGNS[hold.state]} {HOLD_STATES[hold.state]}", say=say, tone=TONES[hold.state])

    def _clear(self) -> Iterator[Marked]:
        """One line for every room; a hold of which nothing is on file is not praised as clear."""
        holds = self.card.standing.holds
        clear = [one for one in holds if one.state is HoldState.CLEAR and one.why is not Why.NOTHING_ON_FILE]
        rooms: dict[tuple[str, ...], list[str]] = {}
        for room in dict.fromkeys(one.room for one in clear):
            kinds = tuple(HOLD_KINDS[one.kind].lower() for one in clear if one.room == room)
            rooms.setdefault(kinds, []).append(clean(room))
        several = len({one.room for one in holds}) > 1
        for kinds, names in rooms.items():
            say = f"{', '.join(names)}: {', '.join(kinds)}" if several else ", ".join(kinds)
            sign = HOLD_SIGNS[HoldState.CLEAR]
            yield Marked(mark=f"{sign} {HOLD_STATES[HoldState.CLEAR]}", say=say, tone=TONES[HoldState.CLEAR])

    def _waits(self) -> Iterator[Marked]:
        """How far the wait of each stack has come, those that go on first; none once all is laid."""
        if self.card.standing.stage not in _AFTER_LAYING:
            clocks = self.card.standing.clocks
            yield from (self._wait(clock) for clock in clocks if not self._is_over(clock))
            yield from (self._wait(clock) for clock in clocks if self._is_over(clock))

    def _is_over(self, clock: StackClock) -> bool:
        return clock.ready_at is not None and clock.ready_at <= self.now

    def _wait(self, clock: StackClock) -> Marked:
        where = f"{clean(clock.room)}, {say_packs(clock.packs)} of {clean(clock.product)}"
        if self._is_over(clock) and clock.ready_at is not None:
            ready = say_instant(clock.ready_at, self.now, self.firm.zone)
            return Marked(mark=bar_of(1, 1, _BAR_WIDTH), say=f"{where}: ready since {ready}", tone="ok")
        bar = bar_of(clock.hours_counted, clock.hours_needed, _BAR_WIDTH)
        if clock.ready_at is not None:
            return Marked(mark=bar, say=f"{where}: {say_clock(clock, self.firm, self.now)}", tone="wait")
        so_far = f"{say_hours(clock.hours_counted)} of {say_hours(clock.hours_needed)}"
        return Marked(mark=bar, say=f"{where}: {so_far}, stopped", tone="warn")


_WITHOUT_ROOM = frozenset({Why.CLOCK_STOPPED, Why.LOG_BROKEN})
_VERDICT_SIGNS = {
    Verdict.READY: ("●", "ok"),
    Verdict.READY_FROM: ("◐", "wait"),
    Verdict.BLOCKED: ("▲", "warn"),
    None: ("✓", "ok"),
}
