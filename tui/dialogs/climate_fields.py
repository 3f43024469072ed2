"""The two fields for a range of room air: temperatures and humidities."""

from store.trade.firm import ClimateRange
from tui.dialogs.slip import Slip
from tui.typed.figures import read_range
from tui.widgets.fields import TextField
from tui.words.wording import say_range, typed_number


class ClimateFields:
    """Asks for a range of room air; both fields empty mean the firm's own, where there is one.

    Args:
        climate: the range to begin with, or None.
        otherwise: the range that holds when nothing is said; None where something must be said.
    """

    def __init__(self, climate: ClimateRange | None, otherwise: ClimateRange | None) -> None:
        self._otherwise = otherwise
        temps = f"{typed_number(climate.temp_min_c)} to {typed_number(climate.temp_max_c)}" if climate else ""
        rhs = f"{typed_number(climate.rh_min_percent)} to {typed_number(climate.rh_max_percent)}" if climate else ""
        hold = f" Empty: the firm's {say_range(otherwise)}." if otherwise else ""
        self._temp = TextField("climate.temp", "Room air °C", temps, hint=f"Like 18 to 24.{hold}")
        self._rh = TextField("climate.rh", "Room air %", rhs, hint=f"Humidity, like 40 to 65.{hold}")

    @property
    def fields(self) -> tuple[TextField, TextField]:
        """The fields, in order."""
        return self._temp, self._rh

    def fill_in(self, slip: Slip) -> ClimateRange | None:
        """Return the range; None where nothing was said."""
        given = [bool(field.raw.strip()) for field in self.fields]
        if not any(given):
            if self._otherwise is None:
                slip.wrong("climate.temp", "Say which air boards may lie in, like 18 to 24 and 40 to 65.")
            return None
        if not all(given):
            slip.wrong(self.fields[given.index(False)].key, "Give temperatures and humidities, or neither.")
        temps = slip.read_if_given(self._temp, read_range) or (18.0, 24.0)
        rhs = slip.read_if_given(self._rh, read_range) or (40.0, 65.0)
        return ClimateRange(temp_min_c=temps[0], temp_max_c=temps[1], rh_min_percent=rhs[0], rh_max_percent=rhs[1])
