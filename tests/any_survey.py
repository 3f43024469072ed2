"""Whatever a survey finds in a room and whatever lies in a pack, for tests that try any content."""

from dataclasses import replace
from datetime import date
from typing import Any

from hypothesis import strategies as st

from store.trade.jobs import Method, OldFloor, Sample, Subfloor
from store.trade.own_limits import OwnLimit
from store.trade.products import BoardDraft
from store.trade.suppliers import Supplier
from store.trade.surveyed import Doorway, FixedThing, Pattern


def few(one: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    """Up to two of something."""
    return st.lists(one, max_size=2).map(tuple)


def limits(texts: st.SearchStrategy[str]) -> st.SearchStrategy[tuple[OwnLimit, ...]]:
    """Up to two limits that a sheet or a firm could have set."""
    most, heated, method = st.floats(0.01, 100), st.none() | st.booleans(), st.none() | st.sampled_from(Method)
    shared = {"most": most, "heated": heated, "method": method, "because": texts.filter(str.strip)}
    screeds = st.sampled_from([Subfloor.CEMENT_SCREED, Subfloor.CALCIUM_SULPHATE])
    mineral = st.none() | screeds | st.just(Subfloor.CONCRETE)
    timber = st.none() | st.sampled_from([Subfloor.OSB, Subfloor.PLYWOOD, Subfloor.BOARDS])
    return few(
        st.builds(OwnLimit, kind=st.just("carbide"), subfloor=screeds, **shared)
        | st.builds(OwnLimit, kind=st.sampled_from(["hygrometer", "in_situ_probe"]), subfloor=mineral, **shared)
        | st.builds(OwnLimit, kind=st.just("timber_subfloor"), subfloor=timber, **shared)
    )


def suppliers(texts: st.SearchStrategy[str]) -> st.SearchStrategy[tuple[Supplier, ...]]:
    """Up to two suppliers of different names, on any terms."""
    one = st.builds(
        Supplier,
        name=texts.filter(str.strip),
        contact=texts,
        lead_days=st.none() | st.integers(0, 730),
        least_return_packs=st.integers(1, 1000),
        return_days=st.none() | st.integers(0, 3650),
        return_fee_percent=st.floats(0, 100),
        return_freight_minor=st.integers(0, 100_000_000),
    )
    return few(one).filter(lambda found: len({one.name for one in found}) == len(found))


def finds(texts: st.SearchStrategy[str]) -> dict[str, st.SearchStrategy[Any]]:
    """The fields of a room of at least 3 × 1 m, its first corner at 0, 0, that a survey fills in beside its walls."""
    named = texts.filter(str.strip)
    return {
        "line_mm": st.none() | st.integers(-2_000_000, 2_000_000),
        "pattern": st.sampled_from(Pattern),
        "border_mm": st.integers(0, 200),
        "doorways": few(
            st.builds(
                Doorway,
                wall=st.integers(0, 3),
                from_mm=st.integers(0, 200),
                width_mm=st.integers(1, 800),
                to=texts,
                deep_mm=st.integers(0, 2_000),
            )
        ),
        "fixed_things": few(
            st.builds(
                FixedThing,
                name=named,
                x_mm=st.integers(0, 3_000),
                y_mm=st.integers(0, 1_000),
                size_mm=st.integers(1, 10_000),
            )
        ),
        "heating_off_from": st.none() | st.dates(date(1900, 1, 1), date(2199, 12, 31)),
        "heating_proved_on": st.none() | st.dates(date(1900, 1, 1), date(2199, 12, 31)),
        "old_floor": st.sampled_from(OldFloor),
        "old_floor_sample": st.sampled_from(Sample),
    }


def packed_any_way(boards: st.SearchStrategy[BoardDraft]) -> st.SearchStrategy[BoardDraft]:
    """Boards of one length, of several set lengths, or of lengths as they come."""
    return boards.flatmap(_packed)


def _packed(board: BoardDraft) -> st.SearchStrategy[BoardDraft]:
    counts = st.integers(1, 3_000)
    several = st.builds(
        lambda first, second, third: replace(
            board,
            length_mm=1_900,
            boards_per_pack=first + second + third,
            lengths=((1_900, first), (1_000, second), (600, third)),
        ),
        counts, counts, counts,
    )  # fmt: skip
    as_they_come = st.builds(
        lambda run: replace(board, length_mm=1_900, boards_per_pack=8, shortest_mm=500, pack_run_mm=run),
        st.none() | st.integers(4_000, 15_200),
    )
    handed = st.booleans().map(lambda said: replace(board, handed=said))
    return st.one_of(st.just(board), several, as_they_come, handed)
