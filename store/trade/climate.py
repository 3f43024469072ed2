"""Where water settles out of the air of a room, and whether a surface is safely warmer."""

import math
from dataclasses import dataclass

from store.trade.units import Bounds, Number

TEMP = Bounds(what="Air temperature", unit="°C", least=-45, most=60)
SURFACE = Bounds(what="Surface temperature", unit="°C", least=-45, most=60)
RH = Bounds(what="Relative humidity", unit="%", least=0, most=100, above_least=True)

MAGNUS_B = 17.62
MAGNUS_C = 243.12
SAFE_MARGIN_C = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class DewPoint:
    """The dew point; with a surface, how much warmer that is and whether it is enough (else None)."""

    dew_point_c: float
    margin_c: float | None
    ok: bool | None


def dew_point(*, temp_c: Number, rh_percent: Number, surface_c: Number | None = None) -> DewPoint:
    """The temperature at which the air of a room would wet a surface.

    >>> answer = dew_point(temp_c=20, rh_percent=70, surface_c=17.3)
    >>> round(answer.dew_point_c, 2), round(answer.margin_c, 2), answer.ok
    (14.36, 2.94, False)

    Method: the Magnus form over water, solved for the temperature; saturated air is at its dew point. The surface is
    compared unrounded, but for what floats lose of a margin of just 3 °C.

    Args:
        temp_c: Air, °C, -45 to 60.
        rh_percent: Relative humidity, above 0 and up to 100 %.
        surface_c: The floor or screed, °C; 3 °C above the dew point or more is ok.

    Raises:
        Refused: A value is not finite or outside its range.

    Source: WMO No. 8 (CIMO guide) and Sonntag 1990 for the coefficients 17.62 and 243.12 °C; the 3 °C
    of ISO 8502-4 and ISO 12944-7, which the makers of glues and primers take over on their sheets.
    """
    temp, humidity = float(TEMP.take(temp_c)), float(RH.take(rh_percent) / 100)
    surface = None if surface_c is None else float(SURFACE.take(surface_c))
    pull = math.log(humidity) + MAGNUS_B * temp / (MAGNUS_C + temp)
    dew = temp if humidity == 1 else MAGNUS_C * pull / (MAGNUS_B - pull)
    if surface is None:
        return DewPoint(dew_point_c=dew, margin_c=None, ok=None)
    margin = surface - dew
    return DewPoint(dew_point_c=dew, margin_c=margin, ok=round(margin, 9) >= SAFE_MARGIN_C)
