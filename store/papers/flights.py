"""Flights of stairs, in a folder and out of it."""

from store.papers.events_out import Entry, kept
from store.papers.named import Named
from store.papers.rings import ring
from store.papers.spot import Spot, opened, text, truth, whole, word_of
from store.trade.flights import FlightDraft, Turn, problems_with_flight


def flight(spot: Spot, named: Named, before: set[str]) -> FlightDraft:
    """Return a flight; ``before`` are the names of those read before it, and grows by its own."""
    keys = opened(
        spot,
        "name rise_mm width_mm code going_mm run_mm risers nosing_mm open_risers turn winders winder_treads board",
    )
    draft = FlightDraft(
        name=keys.need("name", text),
        rise_mm=keys.need("rise_mm", whole),
        width_mm=keys.need("width_mm", whole),
        code=keys.need("code", text),
        going_mm=keys.may("going_mm", whole, None),
        run_mm=keys.may("run_mm", whole, None),
        risers=keys.may("risers", whole, None),
        nosing_mm=keys.may("nosing_mm", whole, 25),
        open_risers=keys.may("open_risers", truth, False),
        turn=keys.may("turn", word_of(Turn), Turn.STRAIGHT),
        winders=keys.may("winders", ring, ()),
        winder_treads=keys.may("winder_treads", whole, 0),
        board=keys.may("board", named.board, None),
    )
    keys.vet(problems_with_flight(draft, named.boards, before))
    before.add(draft.name)
    return draft


def flight_out(draft: FlightDraft) -> Entry:
    """Write a flight."""
    return kept(
        {
            "name": draft.name,
            "rise_mm": draft.rise_mm,
            "width_mm": draft.width_mm,
            "code": draft.code,
            "going_mm": draft.going_mm,
            "run_mm": draft.run_mm,
            "risers": draft.risers,
            "nosing_mm": draft.nosing_mm,
            "open_risers": draft.open_risers or None,
            "turn": None if draft.turn is Turn.STRAIGHT else draft.turn.value,
            "winders": [list(corner) for corner in draft.winders] or None,
            "winder_treads": draft.winder_treads or None,
            "board": draft.board,
        }
    )
