"""The stairs of a job, in JSON; every key is stable once released."""

from store.errors import Refused
from store.trade.flight_sum import flight_sum
from store.trade.flights import Flight
from store.trade.stairs import StairCheck
from tui.command.answers import Json


def stairs_answer(flights: tuple[Flight, ...]) -> Json:
    """Return the key ``stairs`` of the answer of ``layday job``."""
    return {"stairs": [_flight(one) for one in flights]}


def _flight(flight: Flight) -> Json:
    told: Json = {
        "name": flight.name,
        "rise_mm": flight.rise_mm,
        "width_mm": flight.width_mm,
        "code": flight.code,
        "going_mm": flight.going_mm,
        "run_mm": flight.run_mm,
        "nosing_mm": flight.nosing_mm,
        "open_risers": flight.open_risers,
        "turn": flight.turn.value,
        "winders": flight.winder_treads,
        "board": flight.board or "",
    }
    try:
        found = flight_sum(flight.measured)
    except Refused as no:
        return told | {"steps": None, "not_worked_out": str(no)}
    steps = found.steps
    return told | {
        "steps": {
            "risers": steps.risers,
            "each_rise_mm": steps.rise_mm,
            "treads": steps.treads,
            "each_going_mm": steps.going_mm,
            "twice_rise_and_going_mm": steps.twice_rise_and_going_mm,
            "pitch_deg": round(steps.pitch_deg, 2),
            "straight_treads": found.straight_treads,
            "winders_mm2": found.winders_mm2,
            "ok": found.ok,
            "source": steps.code_source,
            "checks": [_check(one) for one in found.checks],
        },
        "not_worked_out": "",
    }


def _check(check: StairCheck) -> Json:
    return {
        "what": check.what,
        "value": check.value,
        "unit": check.unit,
        "least": check.least,
        "most": check.most,
        "ok": check.ok,
    }
