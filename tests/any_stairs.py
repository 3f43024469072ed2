"""Any material and any flight of stairs that the shop takes, for tests that try any content."""

from dataclasses import replace

from hypothesis import strategies as st

from store.trade.buying.sizes import RATES, SIZES, USUAL, WHOLE_SIZES, WIDTHS
from store.trade.flights import FlightDraft, Turn
from store.trade.materials import MaterialDraft
from store.trade.stairs import STAIR_CODES
from store.trade.things import MATERIALS

_CORNER = ((0, 0), (900, 0), (900, 900), (0, 900))


def materials(codes: st.SearchStrategy[str], texts: st.SearchStrategy[str]) -> st.SearchStrategy[MaterialDraft]:
    """Any material: rolls, bags, sticks, sets…, with and without a rate."""
    return st.sampled_from(MATERIALS).flatmap(
        lambda thing: st.builds(
            MaterialDraft,
            code=codes,
            name=texts.filter(str.strip),
            thing=st.just(thing),
            size=st.just(1.0)
            if SIZES[thing] is None
            else st.integers(1_000, 20_000).map(float)
            if thing in WHOLE_SIZES
            else st.floats(1, 200),
            width_mm=st.none() if WIDTHS[thing] is None else st.integers(100, 2_000) | st.just(USUAL[thing].width_mm),
            rate=st.none() if RATES[thing] is None else st.none() | st.floats(1, 50),
            price_minor=st.integers(0, 100_000_000),
            needs_training=st.booleans(),
            safety=texts,
            lead_days=st.none() | st.integers(0, 730),
            supplier=texts,
        )
    )


def flights(names: st.SearchStrategy[str], board: str) -> st.SearchStrategy[FlightDraft]:
    """Any flight: straight or wound, clad or not, counted or left to its code."""
    straight = st.builds(
        FlightDraft,
        name=names.filter(lambda name: len(name.strip()) > 0 and len(name) <= 80),
        rise_mm=st.integers(1_200, 4_000),
        width_mm=st.integers(300, 3_000),
        code=st.sampled_from(list(STAIR_CODES)),
        going_mm=st.integers(50, 2_000),
        run_mm=st.none() | st.integers(50, 100_000),
        risers=st.none() | st.integers(6, 40),
        nosing_mm=st.integers(0, 200),
        open_risers=st.booleans(),
        board=st.sampled_from([None, board]),
    )
    turns = st.sampled_from([Turn.QUARTER, Turn.HALF])
    wound = st.builds(
        lambda flight, turn, count: replace(flight, turn=turn, winders=_CORNER, winder_treads=count),
        straight,
        turns,
        st.integers(1, 4),
    )
    landing = st.builds(lambda flight, turn: replace(flight, turn=turn), straight, turns)
    by_length = straight.map(lambda flight: replace(flight, going_mm=None, run_mm=2_000))
    return st.one_of(straight, wound, landing, by_length)
