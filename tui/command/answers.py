"""The answers in JSON: the shapes that scripts rely on; every key is stable once released."""

from datetime import date, datetime

from store.desk.cards import JobCard
from store.trade.counts import Reckoning
from store.trade.firm import Firm
from store.trade.layout.lay import Lay
from store.trade.planning.hours import shown_deadline
from store.trade.planning.job_network import JobTimes
from store.trade.plans import Plan
from store.trade.returns import ReturnCredit
from store.trade.verdict import Hold, Need, PackTally, StackClock
from tui.words.deeds import say_deed
from tui.words.holds import say_hold

Json = dict[str, object]


def day_answer(cards: tuple[JobCard, ...], firm: Firm, now: datetime) -> Json:
    """Return the answer of ``layday today``."""
    return {"at": instant(now, firm), "jobs": [job_answer(card, firm, now) for card in cards]}


def job_answer(card: JobCard, firm: Firm, now: datetime) -> Json:
    """Return one job as it stands in the day's list."""
    standing = card.standing
    windows = standing.windows
    return {
        "ref": card.ref,
        "title": card.facts.job.title,
        "stage": standing.stage.value,
        "verdict": standing.verdict.value if standing.verdict else None,
        "ready_from": instant(standing.ready_from, firm),
        "best_case": instant(standing.best_case, firm),
        "promised_on": _day(card.facts.job.promised_on),
        "holds": [_hold(hold, card, firm, now) for hold in standing.holds],
        "to_do": [say_deed(deed, now, firm.zone) for deed in standing.to_do],
        "packs": [_tally(tally) for tally in standing.packs],
        "clocks": [_clock(clock, firm) for clock in standing.clocks],
        "windows": {
            "walk_on": instant(windows.walk_on, firm),
            "full_load": instant(windows.full_load, firm),
            "handover": instant(windows.handover, firm),
        },
    }


def whole_job_answer(card: JobCard, times: JobTimes | None, firm: Firm, now: datetime) -> Json:
    """Return the answer of ``layday job``: the same object, with more keys."""
    job = card.facts.job
    return job_answer(card, firm, now) | {
        "customer": {"name": job.customer.name, "phone": job.customer.phone, "email": job.customer.email},
        "site": {"address": job.address},
        "rooms": [
            {"name": room.name, "net_area_m2": room.net_mm2 / 1_000_000, "board": room.board, "glue": room.glue}
            for room in card.facts.rooms
        ],
        "plans": [_plan(plan, firm) for plan in card.plans],
        "needs": [_need(need) for need in card.standing.needs],
        "close_out": [_reckoning(sums, card.credits) for sums in card.reckoning],
        "snags": [
            {
                "what": snag.what,
                "room": snag.room,
                "at": instant(snag.at, firm),
                "mended_at": instant(snag.mended_at, firm),
            }
            for snag in card.facts.snags
        ],
        "notes": [{"at": instant(note.at, firm), "text": note.text} for note in card.facts.notes],
        "times": _times(times, firm) if times else None,
    }


def instant(at: datetime | None, firm: Firm) -> str | None:
    """Return an instant in ISO 8601 with the firm's offset, or None."""
    return at.astimezone(firm.zone).isoformat() if at else None


def _day(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _hold(hold: Hold, card: JobCard, firm: Firm, now: datetime) -> Json:
    return {
        "room": hold.room,
        "kind": hold.kind.value,
        "state": hold.state.value,
        "clears_at": instant(hold.clears_at, firm),
        "not_before": instant(hold.not_before, firm),
        "say": say_hold(hold, card.facts, firm, now),
    }


def _latest(at: datetime | None, firm: Firm) -> str | None:
    return instant(shown_deadline(at), firm) if at else None


def _hours(hours: float | None) -> float | None:
    return None if hours is None else round(hours, 2)


def _times(times: JobTimes, firm: Firm) -> Json:
    deciding = {one.activity.name for one in times.chain}
    return {
        "lay_from": instant(times.lay_from, firm),
        "lay_by": _latest(times.lay_by, firm),
        "handover_from": instant(times.handover_from, firm),
        "in_hand_hours": _hours(times.float_hours),
        "boards": [
            {"product": one.product, "order_by": _day(one.order_by), "deliver_by": _day(one.deliver_by)}
            for one in times.boards
        ],
        "steps": [
            {
                "step": one.activity.step,
                "about": one.activity.about,
                "earliest": instant(one.earliest_start, firm),
                "ends": instant(one.earliest_finish, firm),
                "latest": _latest(one.latest_start, firm),
                "in_hand_hours": _hours(one.float_hours),
                "decides": one.activity.name in deciding,
            }
            for one in times.timetable.times
        ],
    }


def _tally(tally: PackTally) -> Json:
    return {
        "product": tally.product,
        "needed": tally.needed,
        "ordered": tally.ordered,
        "on_site": tally.on_site,
        "in_unit": tally.in_unit,
        "ready": tally.ready,
        "laid": tally.laid,
        "left": tally.left,
    }


def _plan(plan: Plan, firm: Firm) -> Json:
    return {
        "room": plan.room,
        "at": instant(plan.at, firm),
        "board": plan.board,
        "rows": plan.lay.rows,
        "boards": plan.lay.boards,
        "packs": plan.lay.packs,
        "least_boards": plan.lay.least_boards,
        "proved_best": plan.lay.proved_best,
        "cut_loss_percent": round(plan.lay.cut_loss_percent, 2),
        "culls_percent": plan.culls_percent,
        "confidence_percent": plan.confidence_percent,
        "spare_packs": plan.spare_packs,
    }


def _need(need: Need) -> Json:
    return {
        "product": need.product,
        "lay_boards": need.lay_boards,
        "cull_boards": need.cull_boards,
        "allowed_boards": need.allowed_boards,
        "spare_packs": need.spare_packs,
        "packs": need.packs,
        "pattern_boards": need.pattern_boards,
        "by_plan": need.by_plan,
    }


def _clock(clock: StackClock, firm: Firm) -> Json:
    return {
        "room": clock.room,
        "product": clock.product,
        "packs": clock.packs,
        "since": instant(clock.since, firm),
        "hours_counted": round(clock.hours_counted, 2),
        "hours_needed": clock.hours_needed,
        "running": clock.running,
        "ready_at": instant(clock.ready_at, firm),
    }


def _reckoning(sums: Reckoning, back: tuple[ReturnCredit, ...]) -> Json:
    return {
        "product": sums.product,
        "boards_per_pack": sums.boards_per_pack,
        "ordered_boards": sums.ordered,
        "never_came_boards": sums.never_came,
        "damaged_boards": sums.damaged,
        "used_boards": sums.used,
        "used_on_stairs_boards": sums.stairs,
        "customer_boards": sums.customer,
        "unit_boards": sums.unit,
        "returned_boards": sums.returned,
        "scrapped_boards": sums.scrapped,
        "unaccounted_boards": sums.unaccounted,
        "counted": sums.counted,
        "adds_up": sums.adds_up,
        "laid_m2": sums.laid_mm2 / 1_000_000,
        "real_loss_percent": None if sums.real_loss_percent is None else round(sums.real_loss_percent, 2),
        "allowed_loss_percent": round(sums.allowed_loss_percent, 2),
        "lost_minor": sums.lost_minor,
        "unaccounted_minor": sums.unaccounted_minor,
        "credit_minor": sum(one.credit_minor for one in back if one.product == sums.product),
    }


def lay_answer(lay: Lay) -> Json:
    """Return a lay: its counts, its rows and every piece, lengths in mm in the frame of the rows."""
    return {
        "rows": lay.rows,
        "boards": lay.boards,
        "packs": lay.packs,
        "net_area_m2": lay.net_area_m2,
        "bought_area_m2": lay.bought_area_m2,
        "cut_loss_percent": lay.cut_loss_percent,
        "least_boards": lay.least_boards,
        "proved_best": lay.proved_best,
        **({"board_lengths_mm": list(lay.board_lengths_mm)} if lay.board_lengths_mm else {}),
        "row_edges_mm": [list(edges) for edges in lay.row_edges_mm],
        "pieces": [
            {
                "row": piece.row,
                "from_mm": piece.from_mm,
                "to_mm": piece.to_mm,
                "board": piece.board,
                "board_from_mm": piece.board_from_mm,
                "board_to_mm": piece.board_to_mm,
            }
            for piece in lay.pieces
        ],
    }
