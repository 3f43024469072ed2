"""Somebody else's flights of stairs, held against building codes on both sides of each limit, with their parts."""

import math

import pytest

from tests.tui.somebody_asks import answers, ask, each_no, near, refuses

# Code, risers, rise and going, whether they pass. Approved Document K (2013), Table 1.1, as printed: rise, going, a
# pitch of 42° at most and 2R + G from 550 to 700. DIN 18065 (dwellings): rise up to 200, going from 230; 590 to 650
# from memory. IRC R311.7.5 from memory: riser up to 7 3/4 in, tread from 10 in. Pitches by arc tangent.
FLIGHTS = [
    ("ad-k-private", 12, 220, 260, True),  # 2R + G just 700, 40.2°
    ("ad-k-private", 12, 220, 261, False),  # 701
    ("ad-k-private", 13, 198, 220, True),  # 41.99°
    ("ad-k-private", 13, 199, 220, False),  # 42.13°
    ("ad-k-private", 10, 150, 250, True),  # 2R + G just 550
    ("ad-k-private", 10, 150, 249, False),  # 549
    ("ad-k-private", 10, 149, 260, False),  # rise a mm short
    ("ad-k-private", 10, 150, 300, True),  # going at its most
    ("ad-k-private", 10, 150, 301, False),
    ("ad-k-private", 10, 190, 219, False),  # going a mm short
    ("ad-k-private", 10, 221, 255, False),  # rise a mm too high
    ("ad-k-utility", 14, 190, 250, True),
    ("ad-k-utility", 14, 191, 250, False),
    ("ad-k-utility", 14, 190, 249, False),
    ("ad-k-general", 15, 170, 250, True),
    ("ad-k-general", 15, 171, 250, False),
    ("ad-k-general", 15, 150, 400, True),
    ("ad-k-general", 15, 150, 401, False),
    ("din-18065", 14, 200, 230, True),  # 630
    ("din-18065", 14, 201, 230, False),
    ("din-18065", 14, 200, 229, False),
    ("din-18065", 16, 180, 230, True),  # just 590
    ("din-18065", 16, 179, 231, False),  # 589
    ("din-18065", 16, 180, 290, True),  # just 650
    ("din-18065", 16, 180, 291, False),
    ("irc", 14, 196, 254, True),
    ("irc", 14, 197, 254, False),
    ("irc", 14, 196, 253, False),
]


@pytest.mark.parametrize(("code", "risers", "rise", "going", "ok"), FLIGHTS)
def test_a_flight_passes_its_code_up_to_the_limit_and_not_beyond(
    code: str, risers: int, rise: int, going: int, ok: bool
) -> None:
    typed = f"stairs --code {code} --risers {risers} --total-rise {risers * rise} --going {going} --width 900"
    pitch = math.degrees(math.atan2(rise, going))
    right: dict[str, object] = {"risers": risers, "rise_mm": near(rise, 1e-9), "treads": risers - 1, "nosings": risers}
    right |= {"twice_rise_and_going_mm": near(2 * rise + going, 1e-9), "pitch_deg": near(pitch, 1e-6), "ok": ok}
    answers(typed, right)


# A nosing stands out 3/4 to 1 1/4 in (19 to 31.75 mm) by the IRC, from memory.
@pytest.mark.parametrize(("nosing", "ok"), [(18, False), (20, True), (31, True), (33, False)])
def test_a_nosing_is_held_against_the_code_that_limits_it(nosing: int, ok: bool) -> None:
    answers(f"stairs --code irc --risers 14 --total-rise 2660 --going 260 --width 900 --nosing {nosing}", {"ok": ok})


# The fewest risers that keep each at the code's most or under, or at the rise preferred: ⌈total ÷ rise⌉, by hand.
@pytest.mark.parametrize(
    ("total", "code", "more", "risers"),
    [
        (2640, "ad-k-private", "", 12),  # just 220 each
        (2641, "ad-k-private", "", 13),
        (2800, "din-18065", "", 14),  # just 200 each
        (2801, "din-18065", "", 15),
        (2720, "ad-k-general", "", 16),  # just 170 each
        (2600, "ad-k-private", "--rise 175", 15),
        (2625, "ad-k-private", "--rise 175", 15),  # just 175 each
        (2626, "ad-k-private", "--rise 175", 16),
        (220, "ad-k-private", "", 1),
    ],
)
def test_a_flight_has_the_fewest_risers_its_rise_allows(total: int, code: str, more: str, risers: int) -> None:
    right: dict[str, object] = {"risers": risers, "rise_mm": near(total / risers, 1e-9), "treads": risers - 1}
    answers(f"stairs --total-rise {total} --going 250 --width 900 --code {code} {more}", right)


# Treads of going + nosing and one fewer than risers; a nosing for each riser: worked by hand.
def test_the_parts_of_a_flight_are_its_width_times_their_depth() -> None:
    # 15 risers of 180 mm, 14 treads of 270 + 30 mm, 950 mm wide.
    answers(
        "stairs --code din-18065 --risers 15 --total-rise 2700 --going 270 --nosing 30 --width 950",
        {
            "tread_depth_mm": 300,
            "tread_m2": near(3.99, 1e-9),
            "riser_m2": near(2.565, 1e-9),
            "nosing_m": near(14.25, 1e-9),
        },
    )


# Pieces of a width and the cuts between them from one stick: 2 × 860 + 3, 2 × 900 + 3 (three of 900 and two cuts are
# 2706), 1 × 1199 (two and a cut are 2401), by hand.
@pytest.mark.parametrize(
    ("width", "length", "sticks"), [(860, 2400, 7), (900, 2700, 7), (900, 2706, 5), (1199, 2400, 13), (1198, 2400, 7)]
)
def test_nosings_are_cut_from_sticks_with_the_saw_between(width: int, length: int, sticks: int) -> None:
    typed = f"stairs --code ad-k-private --risers 13 --total-rise 2600 --going 225 --width {width}"
    ran = ask(f"{typed} --board-length {length} --board-width 300", "--json")
    assert (ran.status, ran.answer["boards"]["nosing_sticks"]) == (0, sticks)


NOT_COVERED = [
    ("no storey", "stairs --total-rise 0 --going 225 --width 860 --code irc"),
    ("steps back", "stairs --total-rise 2600 --going -225 --width 860 --code irc"),
    ("half a riser", "stairs --total-rise 2600 --going 225 --width 860 --code irc --risers 12.5"),
    ("risers and a rise", "stairs --total-rise 2600 --going 225 --width 860 --code irc --risers 13 --rise 200"),
    ("a board without a width", "stairs --total-rise 2600 --going 225 --width 860 --code irc --board-length 2400"),
    (
        "a board too short",
        "stairs --total-rise 2600 --going 225 --width 860 --code irc --board-length 800 --board-width 200",
    ),
]


@pytest.mark.parametrize("typed", each_no(NOT_COVERED))
def test_a_flight_that_cannot_be_built_is_refused(typed: str) -> None:
    refuses(typed)
