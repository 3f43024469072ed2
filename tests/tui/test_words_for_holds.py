"""Every hold, verdict, clock and deed is said in one plain sentence with its figures."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, FirmDraft
from store.trade.jobs import CustomerDraft, Job
from store.trade.verdict import (
    DeedKind,
    Hold,
    HoldKind,
    HoldState,
    NextDeed,
    StackClock,
    Stage,
    Standing,
    Verdict,
    Why,
    Windows,
)
from tui.words.deeds import say_deed
from tui.words.holds import say_hold
from tui.words.standing import say_clock, say_stack, say_verdict

ZONE = ZoneInfo("Europe/Brussels")
NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
SATURDAY = datetime(2026, 11, 28, 8, 30, tzinfo=UTC)
FIRM = FirmDraft(name="Gannet Quay Floors")
FACTS = JobFacts(job=Job(id=1, rev=1, ref="L-1", title="Oak", customer=CustomerDraft(name="Library")), products={})


def hold(why: Why, kind: HoldKind = HoldKind.PACKS, **figures: object) -> str:
    one = Hold(room="Reading room", kind=kind, state=HoldState.TO_DO, why=why, **figures)  # type: ignore[arg-type]
    return say_hold(one, FACTS, FIRM, NOW)


@pytest.mark.parametrize("why", list(Why))
@pytest.mark.parametrize("kind", list(HoldKind))
def test_every_reason_makes_one_whole_sentence_even_without_figures(why: Why, kind: HoldKind) -> None:
    say = hold(why, kind)
    assert say.endswith(".")
    assert say[0].isupper()
    assert "None" not in say
    assert "!" not in say


def test_air_out_of_range_is_said_with_what_it_is_and_what_it_must_be() -> None:
    say = hold(Why.AIR_OUTSIDE, HoldKind.CLIMATE, measured=16.5, measured_rh=52.0)
    assert say == "Air in the Reading room is 16.5 °C and 52 %; it must be 18–24 °C and 40–65 %."


def test_a_firm_with_another_range_of_air_is_told_its_own() -> None:
    firm = FirmDraft(name="F", climate=ClimateRange(temp_min_c=17.5, rh_max_percent=60))
    one = Hold(
        room="Hall",
        kind=HoldKind.CLIMATE,
        state=HoldState.FAILED,
        why=Why.AIR_OUTSIDE,
        measured=9,
        measured_rh=80,
    )
    assert say_hold(one, FACTS, firm, NOW).endswith("it must be 17.5–24 °C and 40–60 %.")


def test_a_running_wait_says_how_far_it_is_and_when_it_ends() -> None:
    say = hold(Why.CLOCK_RUNNING, HoldKind.ACCLIMATISATION, measured=31.4, limit=168.0, clears_at=SATURDAY)
    assert say == "31 h of 168 h, ready Sat 28 Nov 09:30."


def test_a_damp_subfloor_says_what_was_measured_and_what_is_allowed() -> None:
    say = hold(Why.DAMP, HoldKind.SUBFLOOR_DRY, reading="carbide", measured=2.3, limit=2.0)
    assert say == (
        "The subfloor in the Reading room was at 2.3 % in the carbide test; at most 2 % is allowed: too damp."
    )


def test_packs_that_are_late_say_since_when_and_what_to_do() -> None:
    say = hold(Why.OVERDUE, packs=12, product="OAK-190", due_on=date(2026, 11, 17))
    assert say == "12 packs of OAK-190 were due Tue 17 Nov and have not come; chase the supplier."


def test_one_pack_is_spoken_of_as_one() -> None:
    assert hold(Why.ORDERED_TOO_FEW, packs=1, product="OAK-190") == "1 pack of OAK-190 is still to be ordered."
    assert hold(Why.IN_THE_UNIT, packs=1).startswith("1 pack lies in the unit; carry it in")


def test_a_hostile_room_name_steers_nothing() -> None:
    one = Hold(room="a\x1b[2J", kind=HoldKind.CLIMATE, state=HoldState.TO_DO, why=Why.NO_AIR_READING)
    assert "\x1b" not in say_hold(one, FACTS, FIRM, NOW)


@pytest.mark.parametrize("kind", list(DeedKind))
def test_every_deed_has_words_even_without_room_or_product(kind: DeedKind) -> None:
    bare = say_deed(NextDeed(kind=kind), NOW, ZONE)
    assert bare
    assert "None" not in bare


def test_a_deed_says_how_many_packs_go_where_and_from_when() -> None:
    deed = NextDeed(kind=DeedKind.CARRY_IN, room="Reading room", product="OAK-190", packs=12)
    assert say_deed(deed, NOW, ZONE) == "Carry 12 packs of OAK-190 into the Reading room"
    later = NextDeed(kind=DeedKind.TEST_DAMP, room="Hall", not_before=SATURDAY)
    assert say_deed(later, NOW, ZONE) == "Test the subfloor in the Hall for moisture, from Sat 28 Nov 09:30"


def clock(**changes: object) -> StackClock:
    given = {
        "room": "Reading room",
        "product": "OAK-190",
        "packs": 12,
        "since": NOW - timedelta(hours=31),
        "hours_needed": 168,
        "hours_counted": 31.2,
        "running": True,
        "ready_at": SATURDAY,
    }
    return StackClock(**(given | changes))  # type: ignore[arg-type]


def test_a_clock_says_its_hours_and_its_end_in_each_state() -> None:
    assert say_clock(clock(), FIRM, NOW) == "31 h of 168 h, ready Sat 28 Nov 09:30"
    stopped = clock(running=False, ready_at=None, stopped_at=NOW - timedelta(days=1))
    assert say_clock(stopped, FIRM, NOW) == "31 h of 168 h, stopped since Tue 24 Nov 07:30: the air is out of range"
    over = clock(hours_counted=168.0, ready_at=NOW - timedelta(days=1))
    assert say_clock(over, FIRM, NOW) == "168 h over, ready since Tue 24 Nov 07:30"
    assert say_stack(clock()) == "12 packs of OAK-190 in the Reading room"


@pytest.mark.parametrize(
    ("verdict", "ready_from", "best_case", "say"),
    [
        (Verdict.READY, None, None, "Ready to lay now."),
        (Verdict.READY_FROM, SATURDAY, None, "Ready from Sat 28 Nov 09:30."),
        (Verdict.BLOCKED, None, SATURDAY, "Something to do first; at best Sat 28 Nov 09:30."),
        (Verdict.BLOCKED, None, None, "Something to do first; no date can be given yet."),
        (None, None, None, ""),
    ],
)
def test_a_verdict_is_one_sentence(
    verdict: Verdict | None, ready_from: datetime | None, best_case: datetime | None, say: str
) -> None:
    standing = Standing(
        stage=Stage.INSTALL,
        verdict=verdict,
        ready_from=ready_from,
        best_case=best_case,
        holds=(),
        packs=(),
        clocks=(),
        windows=Windows(),
        to_do=(),
    )
    assert say_verdict(standing, FIRM, NOW) == say
