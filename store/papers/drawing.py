"""A lay drawn to scale as SVG: every piece with its mark, the walls with their lengths; black on white, for A4."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from store.papers.svg_parts import Spot, element, path_of, words
from store.trade.layout.cuts import Cut, Kept, RowOfCuts, rows_of_cuts
from store.trade.layout.footprint import Footprint, floor_under, footprints
from store.trade.layout.inset import turned
from store.trade.layout.lay import Lay, Room
from store.trade.outline import twice_area_mm2
from store.trade.surveyed import NOTHING_FOUND, Finds
from store.trade.walls import wall_letter

_LETTER_MM = 2.8
"""The height of letters on paper."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 5.0, 8.0, 6.0, 8.5
"""What stands round the floor, in letters' heights."""
_SHEETS = ((190.0, 277.0), (277.0, 190.0))
"""A4 upright and lengthwise, less 10 mm on every side."""
_LETTER_WIDTH = 0.6
_LEGEND = (
    (Kept.WHOLE, "whole board"),
    (Kept.NEAR, "cut, near (left) end kept"),
    (Kept.FAR, "cut, far (right) end kept"),
    (Kept.NEITHER, "cut at both ends"),
)
_STYLE = (
    "text{font-family:sans-serif;fill:#000}"
    ".mark{text-anchor:middle;dominant-baseline:central;paint-order:stroke;stroke:#fff;stroke-width:.3em;"
    "stroke-linejoin:round}"
    ".side{dominant-baseline:central}.wall{text-anchor:middle;dominant-baseline:central}"
)


def svg_of(
    room: Room, lay: Lay, *, kerf_mm: int, title: str, notes: tuple[str, ...] = (), finds: Finds = NOTHING_FOUND
) -> str:
    """Return a lay as an SVG file's text, in the frame of its rows: they run across, their near ends at the left.

    Whole boards are white; cut ones carry a hatching and a letter after the board's number. One unit of the drawing is
    1 mm of the floor.

    Args:
        room: the room that is laid.
        lay: the lay.
        kerf_mm: what the saw takes at each cut.
        title: stands above the drawing; any text.
        notes: up to two lines beneath the title; any text.
        finds: the room's doorways, drawn as openings in its walls, and its fixed things, drawn as rings.
    """
    return "\n".join(_Drawing(room=room, lay=lay, kerf_mm=kerf_mm, finds=finds).parts(title, notes)) + "\n"


@dataclass(frozen=True, kw_only=True)
class _Drawing:
    room: Room
    lay: Lay
    kerf_mm: int
    finds: Finds = NOTHING_FOUND

    @cached_property
    def _walls(self) -> list[tuple[Spot, ...]]:
        rings = (self.room.outline, *self.room.cut_outs)
        return [turned(ring, self.room.outline[0], self.lay.direction_deg) for ring in rings]

    @cached_property
    def _box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self._walls[0], strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @cached_property
    def _sheet(self) -> tuple[float, float, float]:
        """Paper mm for each mm of floor, and the sheet's width and height: the larger drawing of the two sheets."""
        low_x, low_y, high_x, high_y = self._box
        ways = []
        for wide, high in _SHEETS:
            across, up = wide - (_LEFT + _RIGHT) * _LETTER_MM, high - (_TOP + _BOTTOM) * _LETTER_MM
            ways.append((min(across / (high_x - low_x), up / (high_y - low_y)), wide, high))
        return max(ways)

    @cached_property
    def _letter(self) -> float:
        return _LETTER_MM / self._sheet[0]

    @cached_property
    def _rows(self) -> tuple[RowOfCuts, ...]:
        return rows_of_cuts(self.lay, self.kerf_mm)

    def _at(self, spot: Spot) -> Spot:
        """From the frame of the rows, y upwards, to the sheet's, y downwards."""
        return spot[0] - self._box[0] + _LEFT * self._letter, self._box[3] - spot[1] + _TOP * self._letter

    def parts(self, title: str, notes: tuple[str, ...]) -> Iterator[str]:
        low_x, low_y, high_x, high_y = self._box
        scale, letter = self._sheet[0], self._letter
        wide = high_x - low_x + (_LEFT + _RIGHT) * letter
        high = high_y - low_y + (_TOP + _BOTTOM) * letter
        head = element(
            "svg", "*", xmlns="http://www.w3.org/2000/svg", width=f"{wide * scale:.2f}mm",
            height=f"{high * scale:.2f}mm", viewBox=f"0 0 {wide:.3f} {high:.3f}", role="img",
        )  # fmt: skip
        yield head.removesuffix("*</svg>")
        yield words(title, (0, 0), 0).replace("<text", "<title", 1).replace("</text>", "</title>")
        yield element("style", _STYLE)
        yield element("defs", "".join(_patterns(letter)))
        yield element("rect", width=wide, height=high, fill="#fff")
        yield words(title, (letter, 1.6 * letter), 1.3 * letter, font_weight="bold")
        for place, note in enumerate(notes[:2]):
            yield words(note, (letter, (3.1 + 1.3 * place) * letter), letter)
        yield from self._pieces()
        yield element(
            "path", d=path_of([self._at(spot) for spot in ring] for ring in self._walls), fill="none", stroke="#000",
            stroke_width=0.2 * letter, stroke_linejoin="miter",
        )  # fmt: skip
        yield from self._wall_lengths()
        yield from self._doorways()
        yield from self._fixed_things()
        yield from self._marks()
        yield from self._row_names()
        yield from self._legend(high)
        yield "</svg>"

    @cached_property
    def _cuts(self) -> list[tuple[Cut, Footprint]]:
        cuts = [cut for row in self._rows for run in row.runs for cut in run]
        return list(zip(cuts, footprints(floor_under(self.room, self.lay), self.lay), strict=True))

    def _pieces(self) -> Iterator[str]:
        for place, (cut, foot) in enumerate(self._cuts):
            d = path_of([self._at(spot) for spot in ring] for ring in foot.rings)
            yield element(
                "path", id=f"piece-{place}", d=d, fill=_fill(cut.kept), fill_rule="evenodd", stroke="#000",
                stroke_width=0.07 * self._letter,
            )  # fmt: skip

    def _marks(self) -> Iterator[str]:
        for cut, foot in self._cuts:
            low, high = self.lay.row_edges_mm[cut.piece.row]
            letter = min(self._letter, 0.62 * (high - low))
            room = (cut.length_mm - letter / 2) / letter / _LETTER_WIDTH
            says = cut.mark if cut.kept is Kept.WHOLE else f"{cut.mark} · {cut.length_mm}"
            if len(says) * 0.7 > room:
                says = cut.mark
            letter *= min(1.0, max(room, 0.1) / len(says))
            if foot.middle is not None:
                yield words(says, self._at(foot.middle), letter, class_="mark")

    def _wall_lengths(self) -> Iterator[str]:
        for place, (ring, corners) in enumerate(
            zip(self._walls, (self.room.outline, *self.room.cut_outs), strict=True)
        ):
            outside = (1 if twice_area_mm2(corners) > 0 else -1) * (1 if place == 0 else -1)
            for wall, ((ax, ay), (bx, by)) in enumerate(zip(ring, ring[1:] + ring[:1], strict=True)):
                length = math.hypot(bx - ax, by - ay)
                says = f"wall {wall_letter(wall)}: {length:.0f}" if place == 0 else f"{length:.0f}"
                letter = self._letter * min(1.0, max(0.6, length / self._letter / _LETTER_WIDTH / len(says)))
                away = 0.9 * self._letter * outside / length
                x, y = self._at(((ax + bx) / 2 + (by - ay) * away, (ay + by) / 2 - (bx - ax) * away))
                yield words(says, (x, y), letter, class_="wall", transform=_along((x, y), bx - ax, by - ay))

    def _doorways(self) -> Iterator[str]:
        """Yield a white stretch of wall for each doorway, and inside it where the doorway leads."""
        walls = list(zip(self._walls[0], self._walls[0][1:] + self._walls[0][:1], strict=True))
        for door in self.finds.doorways:
            (ax, ay), (bx, by) = walls[door.wall]
            long = math.hypot(bx - ax, by - ay)
            shares = [(door.from_mm + more) / long for more in (0, door.width_mm / 2, door.width_mm)]
            near, (x, y), far = ((ax + (bx - ax) * share, ay + (by - ay) * share) for share in shares)
            (x1, y1), (x2, y2) = self._at(near), self._at(far)
            yield element(
                "path", d=f"M{x1:.3f} {y1:.3f}L{x2:.3f} {y2:.3f}", stroke="#fff", stroke_width=0.45 * self._letter,
                fill="none", class_="doorway",
            )  # fmt: skip
            if door.to:
                side = (1 if twice_area_mm2(self.room.outline) > 0 else -1) * 0.9 * self._letter / long
                spot = self._at((x + (by - ay) * side, y - (bx - ax) * side))
                yield words(
                    f"to {door.to}", spot, 0.8 * self._letter, class_="wall", transform=_along(spot, bx - ax, by - ay)
                )

    def _fixed_things(self) -> Iterator[str]:
        things = self.finds.fixed_things
        spots = turned(tuple((one.x_mm, one.y_mm) for one in things), self.room.outline[0], self.lay.direction_deg)
        for thing, spot in zip(things, spots, strict=True):
            x, y = self._at(spot)
            yield element(
                "circle", cx=x, cy=y, r=thing.size_mm / 2, fill="#fff", stroke="#000", stroke_width=0.1 * self._letter
            )
            yield words(thing.name, (x, y - thing.size_mm / 2 - 0.6 * self._letter), 0.7 * self._letter, class_="mark")

    def _row_names(self) -> Iterator[str]:
        low_x, _, high_x, _ = self._box
        for row in self._rows:
            low, high = self.lay.row_edges_mm[row.row]
            letter = min(self._letter, 0.8 * (high - low))
            left = self._at((low_x - 2 * self._letter, (low + high) / 2))
            yield words(f"{row.row + 1}", left, letter, class_="side", text_anchor="end")
            if row.ripped:
                right = self._at((high_x + 2 * self._letter, (low + high) / 2))
                yield words(f"rip to {row.width_mm}", right, letter, class_="side")

    def _legend(self, high: float) -> Iterator[str]:
        letter = self._letter
        left, line = letter, high - 4.6 * letter
        for kept, says in _LEGEND:
            yield element(
                "rect", x=left, y=line - 0.85 * letter, width=2 * letter, height=letter, fill=_fill(kept),
                stroke="#000", stroke_width=0.07 * letter,
            )  # fmt: skip
            yield words(says, (left + 2.5 * letter, line), letter)
            left += (4 + 0.52 * len(says)) * letter
        edges = self.lay.row_edges_mm
        first = "top" if len(edges) > 1 and edges[0][0] > edges[-1][0] else "bottom"
        x, y = letter, high - 2.1 * letter
        arrow = f"M{x} {y}h{3 * letter}m{-0.6 * letter} {-0.35 * letter}l{0.6 * letter} {0.35 * letter}"
        yield element(
            "path", d=f"{arrow}l{-0.6 * letter} {0.35 * letter}", fill="none", stroke="#000", stroke_width=0.15 * letter
        )
        said = (
            f"Rows are laid this way, the first at the {first}. Lengths in mm; letters tell pieces of one board apart."
        )
        yield words(said, (x + 3.6 * letter, y + 0.35 * letter), letter)


def _along(spot: Spot, across: float, up: float) -> str:
    """Return the turn of words that stand along a wall, never upside down."""
    turn = -math.degrees(math.atan2(up, across))
    turn = turn - 180 if turn > 90.001 else turn + 180 if turn < -89.999 else turn
    return f"rotate({turn:.2f} {spot[0]:.3f} {spot[1]:.3f})"


def _fill(kept: Kept) -> str:
    return "#fff" if kept is Kept.WHOLE else f"url(#{kept.value})"


def _patterns(letter: float) -> Iterator[str]:
    side = 0.8 * letter
    rising, falling = f"M0 {side:.3f}L{side:.3f} 0", f"M0 0L{side:.3f} {side:.3f}"
    for kept, lines in ((Kept.NEAR, rising), (Kept.FAR, falling), (Kept.NEITHER, rising + falling)):
        ground = element("rect", width=side, height=side, fill="#fff")
        hatch = element("path", d=lines, stroke="#999", stroke_width=0.07 * letter, fill="none")
        yield element("pattern", ground + hatch, id=kept.value, width=side, height=side, patternUnits="userSpaceOnUse")
