"""What decided each floor's day in a plan, and when its job ends by it, as values."""

from collections.abc import Iterator, Sequence
from datetime import date

from store.trade.planning.nouns import Decider, JobEnd, Proposal, Reason, Visit
from store.trade.planning.placing import Placing, Spot


def proposal_of(placing: Placing, spots: Sequence[Spot | None], changes: int, done: float) -> Proposal:
    """Return a plan in words of its nouns: visits in order of time, reasons in the order of the floors."""
    visits = [visit_of(placing, number, spot) for number, spot in enumerate(spots) if spot is not None]
    return Proposal(
        visits=tuple(sorted(visits, key=lambda one: (one.halves[0], one.fitter))),
        reasons=tuple(_reason(placing, spots, number) for number in range(len(spots))),
        ends=tuple(_ends(placing, spots)),
        changes=changes,
        done=done,
    )


def visit_of(placing: Placing, number: int, spot: Spot) -> Visit:
    """Return a floor's visit for the spot it was given."""
    own = placing.own[spot.fitter][spot.first : spot.first + spot.count]
    return Visit(
        floor=placing.floors[number].key,
        fitter=placing.fitters[spot.fitter].name,
        halves=tuple(placing.grid.halves[place] for place in own),
    )


def _reason(placing: Placing, spots: Sequence[Spot | None], number: int) -> Reason:
    floor, spot, ready = placing.floors[number], spots[number], placing.ready[number]
    ready_from = placing.grid.halves[ready] if ready < placing.grid.usable else None
    behind = None
    if spot is None:
        decider = Decider.NO_DAY if placing.able[number] else Decider.NOBODY
    elif floor.booked is not None and spot == placing.booked[number]:
        decider = Decider.PINNED if floor.pinned else Decider.BOOKED
    elif placing.own[spot.fitter][spot.first] == ready:
        decider = Decider.READY
    elif spot.first == placing.first[number][spot.fitter]:
        decider = Decider.DAYS_OFF
    else:
        decider = Decider.FITTER_BUSY
        before = [
            (other.first, place)
            for place, other in enumerate(spots)
            if other is not None and place != number and other.fitter == spot.fitter and other.first < spot.first
        ]
        behind = placing.floors[max(before)[1]].key if before else None
    return Reason(
        floor=floor.key,
        decider=decider,
        fitter=placing.fitters[spot.fitter].name if spot else "",
        behind=behind,
        ready_from=ready_from,
    )


def _ends(placing: Placing, spots: Sequence[Spot | None]) -> Iterator[JobEnd]:
    """When each job that is wholly placed is handed over; its promise is the earliest of its floors'."""
    for job, name in enumerate(placing.jobs):
        numbers = [number for number in range(len(spots)) if placing.job_of[number] == job]
        ends = [(number, spot) for number in numbers if (spot := spots[number]) is not None]
        if len(ends) < len(numbers):
            continue
        over: list[date] = [placing.handover_on(number, placing.end_of(spot)) for number, spot in ends]
        late = max(placing.days_late(number, placing.end_of(spot)) for number, spot in ends)
        promises = [one for number in numbers if (one := placing.floors[number].promised_on)]
        yield JobEnd(job=name, handover_on=max(over), promised_on=min(promises, default=None), days_late=late)
