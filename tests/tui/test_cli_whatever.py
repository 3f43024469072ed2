"""Whatever a file holds, an import takes it in whole or refuses it in a sentence, and the records stay sound."""

import copy
import json
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.tui.somebodys_folder import AT_BRUSSELS, WHOLE, Shop, dump, folder, job, order, refused


@pytest.fixture
def old_shop(shop: Shop) -> Shop:
    """A shop with a job on file already."""
    shop.take_in(folder(job("OLD-1", orders=[order()])))
    return shop


_ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(2**70), 2**70),
    st.sampled_from([0, -1, 1, 0.5, 1e300, -0.0, float("nan"), float("inf"), 2**63, 10**30]),
    st.text(max_size=12),
    st.sampled_from(["", "unit", "\x1b[2J", "\u202e", "\ud800", "\x00", "2026-02-29", "9999-12-31T23:59:59-23:59"]),
    st.lists(st.integers(-5, 5), max_size=3),
    st.dictionaries(st.sampled_from(["ref", "name", "x"]), st.integers(0, 2), max_size=2),
)


_INSTANTS = [
    f"2026-{month:02}-{day:02}T09:30:00+0{zone}:00" for month in (10, 11) for day in (1, 25) for zone in (0, 1)
]


def gently(draw: st.DrawFn, value: Any) -> Any:
    """Another value of the same kind, which the folder may well hold."""
    match value:
        case bool():
            return not value
        case int() | float():
            return draw(st.sampled_from([value, value + 1, value * 2, 1, 5, 12, 60, 99.5, 168]))
        case str() if "T" in value and value[:2] == "20":
            return draw(st.sampled_from(_INSTANTS))
        case str():
            return draw(st.sampled_from([value, value + draw(st.text(max_size=4)), "OAK-190", "osb", "2026-11-12"]))
        case list():
            return draw(st.sampled_from([value[::-1], value * 2, value[:1], value[1:]]))
    return value


def _places(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [way] if way else []
    if isinstance(value, dict):
        found += [place for key, inner in value.items() for place in _places(inner, (*way, key))]
    if isinstance(value, list):
        found += [place for index, inner in enumerate(value) for place in _places(inner, (*way, index))]
    return found


PLACES = _places(folder(WHOLE))


@st.composite
def spoilt(draw: st.DrawFn) -> bytes:
    """A whole folder, spoilt in one to three places, or in its bytes."""
    given = folder(copy.deepcopy(WHOLE))
    for _ in range(draw(st.integers(1, 3))):
        *way, last = draw(st.sampled_from(PLACES))
        at: Any = given
        try:
            for step in way:
                at = at[step]
            match draw(st.sampled_from(["drop", "odd", "twice", *["gently"] * 6])):
                case "drop":
                    del at[last]
                case "odd":
                    at[last] = draw(_ODD)
                case "gently":
                    at[last] = gently(draw, at[last])
                case _:
                    at.insert(last, copy.deepcopy(at[last])) if isinstance(at, list) else at.update(extra=at[last])
        except (KeyError, IndexError, TypeError, AttributeError):
            continue  # an earlier spoiling took this place away
    raw = json.dumps(given).encode()
    match draw(st.sampled_from(["whole"] * 6 + ["cut", "byte"])):
        case "cut":
            return raw[: draw(st.integers(0, len(raw) - 1))]
        case "byte":
            at = draw(st.integers(0, len(raw) - 1))
            return raw[:at] + bytes([draw(st.integers(0, 255))]) + raw[at + 1 :]
    return raw


@settings(max_examples=50, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(raw=spoilt())
def test_whatever_a_file_holds_it_is_taken_in_whole_or_refused_in_a_sentence(old_shop: Shop, raw: bytes) -> None:
    at_rest = old_shop.path.read_bytes()
    before = dump(old_shop.path)
    ran = old_shop.offer(raw)
    if ran.status != 0:
        refused(ran)
        assert dump(old_shop.path) == before
        return
    assert ran.err == b""
    out = old_shop.run("export")
    for asked in (["today"], ["today", "--json", "--at", AT_BRUSSELS]):
        told = old_shop.run(*asked)
        assert (told.status, told.err) == (0, b"")
    # Somebody else's counts need not add up, which is no damage.
    looked = old_shop.run("check")
    assert (looked.status, looked.err) in {(0, b""), (1, b"Not everything is in order.\n")}
    for one in out.answer["jobs"]:
        assert old_shop.run("job", f"--at={AT_BRUSSELS}", "--", one["ref"]).status == 0
    other = Shop(old_shop.place / "other")
    other.path.unlink(missing_ok=True)
    other.take_in(out.out)
    assert other.run("export").out == out.out
    old_shop.path.write_bytes(at_rest)
