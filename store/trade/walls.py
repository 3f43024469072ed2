"""How walls lie to one another: crossing, touching, inside or outside, exact on whole millimetres."""

from collections.abc import Iterator

Point = tuple[int, int]
Wall = tuple[Point, Point]

INSIDE, ON_A_WALL, OUTSIDE = 1, 0, -1


def walls_of(ring: tuple[Point, ...]) -> list[Wall]:
    """Return the walls of a closed ring: wall *i* runs from corner *i* to the next, the last to corner 0."""
    return [(ring[i], ring[(i + 1) % len(ring)]) for i in range(len(ring))]


def wall_letter(index: int) -> str:
    """Return the letter that a wall goes by on plans and screens: A is the first one walked, after Z comes AA.

    >>> [wall_letter(index) for index in (0, 25, 26, 701, 702)]
    ['A', 'Z', 'AA', 'ZZ', 'AAA']
    """
    letters = ""
    index += 1
    while index > 0:
        index, letter = divmod(index - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def wall_of_letter(letters: str) -> int | None:
    """Return the place in the outline of the wall that goes by a letter; None for anything else."""
    if not 0 < len(letters) <= 3 or not letters.isascii() or not letters.isalpha():
        return None
    index = 0
    for letter in letters.upper():
        index = 26 * index + ord(letter) - ord("A") + 1
    return index - 1


def wall_name(index: int) -> str:
    """Return a wall by its letter and its place in the outline, as a job folder counts it: “wall C (2)”."""
    return f"wall {wall_letter(index)} ({index})"


def turn(a: Point, b: Point, c: Point) -> int:
    """Return twice the signed area of the triangle a, b, c (mm²): positive for a left turn, 0 in one line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def lies_on(point: Point, wall: Wall) -> bool:
    """Tell whether the point lies on the wall, its ends included."""
    (ax, ay), (bx, by) = wall
    x, y = point
    if not (min(ax, bx) <= x <= max(ax, bx) and min(ay, by) <= y <= max(ay, by)):
        return False
    return turn(wall[0], wall[1], point) == 0


def cross(one: Wall, other: Wall) -> bool:
    """Tell whether two walls pass through each other, each from one side of the other to its other side."""
    (a, b), (c, d) = one, other
    from_c, from_d = turn(a, b, c), turn(a, b, d)
    if (from_c <= 0 or from_d >= 0) and (from_c >= 0 or from_d <= 0):
        return False
    from_a, from_b = turn(c, d, a), turn(c, d, b)
    return (from_a > 0 > from_b) or (from_a < 0 < from_b)


def touch(one: Wall, other: Wall) -> bool:
    """Tell whether two walls that do not cross have a point in common."""
    return lies_on(other[0], one) or lies_on(other[1], one) or lies_on(one[0], other) or lies_on(one[1], other)


def close_pairs(walls: list[Wall]) -> Iterator[tuple[int, int]]:
    """Yield the index pairs (lower first) of walls whose bounding boxes have a point in common.

    Method: the boxes are sorted by their left side and swept; only boxes still open at that x are compared.
    """
    boxes = [
        (min(a[0], b[0]), max(a[0], b[0]), min(a[1], b[1]), max(a[1], b[1]), index)
        for index, (a, b) in enumerate(walls)
    ]
    boxes.sort()
    still_open: list[tuple[int, int, int, int, int]] = []
    for box in boxes:
        left, _, low, high, index = box
        still_open = [earlier for earlier in still_open if earlier[1] >= left]
        for _, _, other_low, other_high, other in still_open:
            if other_low <= high and low <= other_high:
                yield (other, index) if other < index else (index, other)
        still_open.append(box)


def where_lies(point: Point, ring: tuple[Point, ...]) -> int:
    """Return ``INSIDE``, ``ON_A_WALL`` or ``OUTSIDE`` for a point and a ring that does not cross itself.

    A ray to the right is followed; each wall it passes changes sides (textbook point-in-polygon).
    """
    x, y = point
    inside = False
    ax, ay = ring[-1]
    for bx, by in ring:
        if (ay > y) != (by > y):
            side = (bx - ax) * (y - ay) - (by - ay) * (x - ax)
            if side == 0:
                return ON_A_WALL
            if (side > 0) == (by > ay):
                inside = not inside
        elif ay == y == by and min(ax, bx) <= x <= max(ax, bx):
            return ON_A_WALL
        if (bx, by) == point:
            return ON_A_WALL
        ax, ay = bx, by
    return INSIDE if inside else OUTSIDE


def stretches(wall: Wall, stops: tuple[Point, ...]) -> Iterator[Wall]:
    """Yield the wall cut at those stops that lie on it, in order from its first end."""
    start, end = wall
    along = (end[0] - start[0], end[1] - start[1])
    on_it = {stop for stop in stops if lies_on(stop, wall)} - {start, end}
    ordered = sorted(on_it, key=lambda p: (p[0] - start[0]) * along[0] + (p[1] - start[1]) * along[1])
    here = start
    for there in [*ordered, end]:
        yield here, there
        here = there


def overlap(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    """Tell whether two anticlockwise rings share floor; walls that only touch do not.

    Each wall is cut where the other ring's corners lie on it; then no stretch changes sides unless walls
    cross, and its middle tells where all of it lies. On a shared wall both rings lie on the same side if they
    run the same way.
    """
    if _boxes_apart(one, other):
        return False
    walls, other_walls = walls_of(one), walls_of(other)
    count = len(walls)
    for i, j in close_pairs(walls + other_walls):
        if i < count <= j and cross(walls[i], other_walls[j - count]):
            return True
    return _runs_inside(one, other) or _runs_inside(other, one)


def runs(one: tuple[Point, ...], other: tuple[Point, ...], place: int) -> bool:
    """Tell whether a stretch of ring *one*, which crosses no wall of *other*, lies at that place of it."""
    doubled = tuple((2 * x, 2 * y) for x, y in other)
    return any(
        where_lies((a[0] + b[0], a[1] + b[1]), doubled) == place
        for wall in walls_of(one)
        for a, b in stretches(wall, other)
    )


def _runs_inside(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    doubled = tuple((2 * x, 2 * y) for x, y in other)
    for wall in walls_of(one):
        for a, b in stretches(wall, other):
            middle = (a[0] + b[0], a[1] + b[1])
            place = where_lies(middle, doubled)
            if place == INSIDE or (place == ON_A_WALL and _same_way((a, b), middle, doubled)):
                return True
    return False


def _same_way(stretch: Wall, middle: Point, doubled: tuple[Point, ...]) -> bool:
    along = (stretch[1][0] - stretch[0][0], stretch[1][1] - stretch[0][1])
    for wall in walls_of(doubled):
        if lies_on(middle, wall):
            (cx, cy), (dx, dy) = wall
            if turn((0, 0), along, (dx - cx, dy - cy)) == 0:
                return along[0] * (dx - cx) + along[1] * (dy - cy) > 0
    return False


def _boxes_apart(one: tuple[Point, ...], other: tuple[Point, ...]) -> bool:
    xs, ys = [x for x, _ in one], [y for _, y in one]
    others_x, others_y = [x for x, _ in other], [y for _, y in other]
    return max(xs) <= min(others_x) or max(others_x) <= min(xs) or max(ys) <= min(others_y) or max(others_y) <= min(ys)
