"""The first and the last rise of stairs once their treads are clad: the ones people stumble on."""

from store.trade.units import Bounds, Number

RISE = Bounds(what="Rise", unit="mm", least=50, most=400)
LAYER = Bounds(what="Thickness", unit="mm", most=200)


def clad_rises(
    *, rise_mm: Number, clad_mm: Number, lower_floor_mm: Number = 0, upper_floor_mm: Number = 0
) -> tuple[float, float]:
    """Return the first and the last rise, mm, when every tread of stairs with even rises gets a layer.

    All rises between stay as they are. The first grows by what the treads gain over the lower floor, the last shrinks
    by what they gain over the upper one:

    >>> clad_rises(rise_mm=190, clad_mm=15)
    (205.0, 175.0)
    >>> clad_rises(rise_mm=190, clad_mm=14, lower_floor_mm=14, upper_floor_mm=10)
    (190.0, 186.0)

    Args:
        rise_mm: the even rise, 50 to 400.
        clad_mm: how thick the layer on the treads is.
        lower_floor_mm: by how much the floor below comes up.
        upper_floor_mm: by how much the floor above comes up.

    Raises:
        Refused: a value is out of range.

    Source: geometry; handbook 2, section 8 (first rise R + t − tl, last rise R − t + tu).
    """
    rise, layer = RISE.take(rise_mm), LAYER.take(clad_mm)
    lower, upper = LAYER.take(lower_floor_mm), LAYER.take(upper_floor_mm)
    return float(rise + layer - lower), float(rise - layer + upper)
