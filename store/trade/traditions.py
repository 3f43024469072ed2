"""Moisture limits as the trade's traditions give them: each figure with its source, and what other sources say.

Where no figure of a tradition's own was found, the European one stands in and says so. A maker's sheet goes before
every figure here, and so does what the firm has set itself; see ``limits.py``.

Sources as reported in trade papers and standards' summaries; the standards' own clauses were not seen except where
an edition and a table are named.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from store.trade.jobs import Method, RoomDraft, Subfloor

CEMENT, CALCIUM, CONCRETE = Subfloor.CEMENT_SCREED, Subfloor.CALCIUM_SULPHATE, Subfloor.CONCRETE
MINERAL = (CEMENT, CALCIUM, CONCRETE)
TIMBER = (Subfloor.OSB, Subfloor.PLYWOOD, Subfloor.BOARDS)


class Tradition(StrEnum):
    """Whose figures a firm works to where no maker's sheet says anything.

    USUAL takes the hygrometer's figures from the UK and those of the carbide test from the German parquet trade.
    """

    USUAL = "usual"
    UK = "uk"
    GERMAN = "german"
    FRENCH = "french"
    NORTH_AMERICAN = "north_american"


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """The most that one kind of reading may show on some bases, inclusive, in %.

    ``heated`` None and ``methods`` empty mean any. ``others`` tells what other sources say, ``why`` why this one is
    taken, or that it is another tradition's figure; either may be empty.
    """

    kind: str
    most: float
    source: str
    subfloors: tuple[Subfloor, ...]
    heated: bool | None = None
    methods: tuple[Method, ...] = ()
    others: str = ""
    why: str = ""

    def holds_for(self, room: RoomDraft) -> bool:
        """Whether this figure speaks of a room."""
        return (
            room.subfloor in self.subfloors
            and self.heated in {None, room.heated}
            and (not self.methods or room.method in self.methods)
        )


_EN_1264 = "EN 1264-4:2021, table 2"
_PARQUET = "German parquet trade"
_UK_2022 = "UK timber trade body, 2022"

_CEMENT_HEATED = Given(
    kind="carbide",
    most=1.8,
    source=_EN_1264,
    subfloors=(CEMENT,),
    heated=True,
    others="The German parquet trade says the same.",
)
_CEMENT_PLAIN = Given(kind="carbide", most=2.0, source=_PARQUET, subfloors=(CEMENT,))
_CALCIUM_HEATED = Given(
    kind="carbide",
    most=0.3,
    source=_PARQUET,
    subfloors=(CALCIUM,),
    heated=True,
    others="DIN 18560-1 and EN 1264-4:2021, table 2, allow 0.5 %.",
    why="The parquet trade keeps the stricter figure on purpose.",
)
_CALCIUM_PLAIN = Given(kind="carbide", most=0.5, source=f"{_PARQUET}; DIN 18560-1", subfloors=(CALCIUM,))
_DAMPER = "BS 8201:1987, BS 8203 and BS 5325 give 75 %; BS 8201:2011 is reported to give 65 %."
_CAREFUL = "Glue and heating ask for the stricter figure."
_HYGRO_HEATED = Given(
    kind="hygrometer", most=65.0, source=_UK_2022, subfloors=MINERAL, heated=True, others=_DAMPER, why=_CAREFUL
)
_HYGRO_GLUED = replace(_HYGRO_HEATED, heated=None, methods=(Method.GLUED,))
_HYGRO_PLAIN = Given(
    kind="hygrometer",
    most=75.0,
    source=f"{_UK_2022}; BS 8201:1987",
    subfloors=MINERAL,
    others="BS 8201:2011 is reported to give 65 %.",
)
_TIMBER = Given(
    kind="timber_subfloor",
    most=12.0,
    source="makers' instructions, North America and UK",
    subfloors=TIMBER,
    others="UK makers also ask for 8–10 %; an older UK clause let supports have 12–14 %.",
)
_CARBIDE = (_CEMENT_HEATED, _CEMENT_PLAIN, _CALCIUM_HEATED, _CALCIUM_PLAIN)
_HYGROMETER = (_HYGRO_HEATED, _HYGRO_GLUED, _HYGRO_PLAIN)

_GERMAN_CONCRETE = tuple(
    replace(one, subfloors=(CONCRETE,), why="No German figure for concrete was found.") for one in _HYGROMETER
)
_FRENCH_CARBIDE = (
    _CEMENT_HEATED,
    Given(
        kind="carbide",
        most=0.5,
        source=_EN_1264,
        subfloors=(CALCIUM,),
        heated=True,
        others="The German parquet trade keeps 0.3 % on purpose.",
    ),
    Given(kind="carbide", most=0.5, source="French trade, glued floors on anhydrite", subfloors=(CALCIUM,)),
    Given(
        kind="carbide",
        most=3.0,
        source="NF DTU 51.11, at 2 cm depth",
        subfloors=(CEMENT, CONCRETE),
        methods=(Method.FLOATING,),
        heated=False,
        others="At 4 cm depth it allows 4.5 %.",
        why="The depth nearer the boards is the stricter one.",
    ),
    replace(_CEMENT_PLAIN, why="No French figure for other floors on cement was found."),
)
_PROBE = Given(
    kind="in_situ_probe",
    most=75.0,
    source="US wood-floor association, where the maker is silent",
    subfloors=MINERAL,
    others="Glues state their own, 82 % on one sheet; the UK gives 65 % for glued or heated floors.",
)
_BY_HYGROMETER = "No figure of its own was found; the probe's stands in."


def _borrowed(given: tuple[Given, ...], why: str) -> tuple[Given, ...]:
    return tuple(replace(one, why=why) for one in given)


def _with_probe(given: tuple[Given, ...]) -> tuple[Given, ...]:
    """Return hygrometer figures, and after them the same for a probe in the base, which reads the same humidity."""
    return (*given, *(replace(one, kind="in_situ_probe") for one in given))


GIVEN: dict[Tradition, tuple[Given, ...]] = {
    Tradition.USUAL: (*_CARBIDE, *_with_probe(_HYGROMETER), _TIMBER),
    Tradition.UK: (
        *_with_probe(_HYGROMETER),
        *_borrowed(_CARBIDE, "No UK figure for the carbide test was found."),
        _TIMBER,
    ),
    # On a screed the hygrometer releases nothing here: its figure was proposed, disputed, and is in no standard.
    Tradition.GERMAN: (
        *_CARBIDE,
        *_with_probe(_GERMAN_CONCRETE),
        *_borrowed((_TIMBER,), "No German figure for timber was found."),
    ),
    Tradition.FRENCH: (
        *_FRENCH_CARBIDE,
        *_with_probe(_borrowed(_HYGROMETER, "NF DTU 51.11 recognises the probe; no French figure for it was found.")),
        *_borrowed((_TIMBER,), "No French figure for timber was found."),
    ),
    Tradition.NORTH_AMERICAN: (
        _PROBE,
        replace(_PROBE, kind="hygrometer", why=_BY_HYGROMETER),
        *_borrowed(_CARBIDE, "No North American figure for the carbide test was found."),
        _TIMBER,
    ),
}
"""For each tradition the figures, those that go before others first."""


def given_for(tradition: Tradition, room: RoomDraft) -> dict[str, Given]:
    """Return the figures of a tradition that speak of a room, by the kind of reading, in the tradition's order."""
    found: dict[str, Given] = {}
    for one in GIVEN[tradition]:
        if one.holds_for(room):
            found.setdefault(one.kind, one)
    return found
