"""The sentences about a job's earliest and latest days, and what its steps are called."""

import math
from collections.abc import Iterator
from datetime import datetime

from store.trade.facts import JobFacts
from store.trade.planning.activities import Activity, Times
from store.trade.planning.hours import shown_deadline
from store.trade.planning.job_network import BoardDays, JobTimes
from store.trade.planning.job_steps import Step
from store.trade.verdict import HoldKind
from tui.typed.wall_clock import WallClock
from tui.words.vocabulary import HOLD_KINDS, the_room
from tui.words.wording import clean, counted, say_hours, upper

_OF_A_BOARD = {
    Step.ORDER: "order {}",
    Step.LEAD: "{} on its way",
    Step.DELIVER: "{} comes in",
    Step.CARRY_IN: "carry {} into its room",
    Step.ACCLIMATISE: "{} acclimatises",
    Step.PUT_AIR_RIGHT: "put the air right for {}",
}
_IN_A_ROOM = {
    Step.SCREED_DRY: "screed dries in {}",
    Step.TEST_DAMP: "moisture test in {}",
    Step.FIRST_HEATING: "first heating in {}",
    Step.HEATING_OFF: "heating off in {}",
    Step.SMOOTH: "level {}",
    Step.SMOOTH_DRY: "levelling dries in {}",
    Step.CHECK_FLAT: "straightedge in {}",
    Step.LAY: "lay {}",
    Step.WALK_ON: "glue in {}, to walk on",
    Step.CURE: "glue in {}, to full load",
    Step.SKIRTING: "skirting in {}",
}
_DAY = 24


def say_step(activity: Activity) -> str:
    """Return what an activity is: “Lay the Gallery”, “OAK-190 acclimatises”."""
    for words, about in ((_OF_A_BOARD, clean(activity.about)), (_IN_A_ROOM, the_room(activity.about))):
        found = {step.value: said for step, said in words.items()}.get(activity.step)
        if found:
            return upper(found.format(about))
    if activity.step in {kind.value for kind in HoldKind}:
        return upper(f"{HOLD_KINDS[HoldKind(activity.step)].lower()} in {the_room(activity.about)}")
    return "Hand over"


def say_in_hand(hours: float) -> str:
    """Return time in hand: “31 h”, “5 days”, “▲ 16 h short”; days are rounded down, what is short up.

    >>> say_in_hand(31.4), say_in_hand(130), say_in_hand(-15.7), say_in_hand(-63.7)
    ('31 h', '5 days', '▲ 16 h short', '▲ 3 days short')
    """
    if hours < 0:
        short = math.ceil(-hours)
        return f"▲ {say_hours(short) if short < 2 * _DAY else counted(math.ceil(short / _DAY), 'day')} short"
    return say_hours(hours) if hours < 2 * _DAY else counted(math.floor(hours / _DAY), "day")


def say_times(times: JobTimes, facts: JobFacts, clock: WallClock) -> Iterator[str]:
    """Yield the sentences above a job's times: the handover, the first laying, what to order by when, what decides."""
    if times.handover_from is not None:
        yield _say_handover(times, times.handover_from, facts, clock)
    if times.lay_from is not None:
        by = f", and must begin by {clock.say(shown_deadline(times.lay_by))}" if times.lay_by else ""
        yield f"Laying can begin {clock.say(times.lay_from)}{by}."
    for one in times.boards:
        yield say_board_days(one, clock)
    decides = [_chain_words(one) for one in times.chain[:-1] if _takes_time(one) and one.earliest_finish > clock.now]
    if decides:
        yield f"What decides: {' → '.join(decides)}."
    if times.assumed_cure:
        rooms = " and ".join(the_room(one) for one in times.assumed_cure)
        yield f"No glue is on file for {rooms}: seven days of cure are reckoned with."


def say_pressing(times: JobTimes, facts: JobFacts, clock: WallClock) -> Iterator[str]:
    """Yield what of a job's times cannot wait to be looked up: a promise that will be missed, a last day to order."""
    if times.days_late and times.handover_from is not None:
        yield _say_handover(times, times.handover_from, facts, clock)
    yield from (say_board_days(one, clock) for one in times.boards if one.order_by is not None)


def say_board_days(days: BoardDays, clock: WallClock) -> str:
    """Return by when a board is to be ordered and here: “▲ OAK-190 was to be ordered by Mon 2 Nov …”."""
    code = clean(days.product)
    here = clock.say_day(days.deliver_by)
    if days.order_by is None:
        sign = "▲ " if days.deliver_by < clock.today else ""
        return f"{sign}{code} must be here by {here}."
    by = clock.say_day(days.order_by)
    if days.order_by < clock.today:
        return f"▲ {code} was to be ordered by {by}, to be here by {here}; {counted(days.lead_days, 'day')} to come."
    return f"Order {code} by {by} at the latest: {counted(days.lead_days, 'day')} to come, here by {here}."


def _say_handover(times: JobTimes, at: datetime, facts: JobFacts, clock: WallClock) -> str:
    first = f"Can be handed over from {clock.say(at)}"
    promised = facts.job.promised_on
    if promised is None or times.float_hours is None:
        return f"{first}; no day is promised."
    words = f"{first}, promised for {clock.say_day(promised)}"
    if times.float_hours < 0:
        late = counted(times.days_late, "day") if times.days_late else say_hours(math.ceil(-times.float_hours))
        return f"▲ {words}: {late} late."
    return f"✓ {words}: {say_in_hand(times.float_hours)} in hand."


def _takes_time(times: Times) -> bool:
    return times.earliest_finish > times.earliest_start


def _chain_words(times: Times) -> str:
    words = say_step(times.activity)
    about = words.split(" ", 1)[0]
    return words if about.isupper() else words[:1].lower() + words[1:]
