"""The form of one sum: its fields made from its options, its answer beneath, and where its rule is from."""

import argparse

from textual.app import ComposeResult
from textual.containers import Vertical

from tui.command.sums_on_offer import Option, Sum, number
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.sums import source_of

_LABELS = {"temp": "Temperature", "rh": "Humidity", "per-pack": "In a pack", "svg": "Drawing"}
_WRITES_FILES = {"svg"}
"""Options that write something: not asked here, where nothing is stored."""


class SumForm(Vertical):
    """The fields of one sum, its answer, and its source.

    Args:
        name: the sum's name.
        of: the sum.
    """

    def __init__(self, name: str, of: Sum) -> None:
        super().__init__(classes="sum--form")
        self.sum_name = name
        self.sum = of
        self.asked = [option for option in self.sum.options if option.name not in _WRITES_FILES]
        self.fields = [_field_for(option) for option in self.asked]

    def compose(self) -> ComposeResult:
        yield Line(self.sum.about, classes="sum--about")
        yield from self.fields
        yield Line("", classes="sum--answer")
        source = source_of(self.sum.rule)
        yield Line(f"Source: {source}" if source else "", classes="sum--source")

    def read(self) -> argparse.Namespace | None:
        """Return what is asked; None while something is missing or cannot be read, which is said beside its field."""
        values: dict[str, object] = {option.name.replace("-", "_"): None for option in self.sum.options}
        is_whole = True
        for option, field in zip(self.asked, self.fields, strict=True):
            typed = field.raw.strip()
            field.say_problem("")
            if not typed and option.optional:
                continue
            if not typed:
                is_whole = False
                continue
            try:
                values[option.name.replace("-", "_")] = _read(option, typed)
            except argparse.ArgumentTypeError as misread:
                field.say_problem(f"{misread}.")
                is_whole = False
        asked = argparse.Namespace(**values)
        if not is_whole or (self.sum.missing and self.sum.missing(asked)):
            return None
        return asked

    def answer(self, say: str, tone: str = "") -> None:
        """Show the answer, or what is wrong."""
        line = self.query_one(".sum--answer", Line)
        line.say(say)
        line.set_class(tone == "no", "-no")
        line.set_class(tone == "yet", "-yet")


def _read(option: Option, typed: str) -> object:
    plain_minus = typed.replace("−", "-")
    return option.read(plain_minus if option.read is number else typed)


def _field_for(option: Option) -> Field:
    label = _LABELS.get(option.name, option.name.replace("-", " ").capitalize())
    if option.choices:
        start = str(option.default) if option.default is not None else option.choices[0]
        return SelectField(option.name, label, [(one, one) for one in option.choices], start, hint=option.about)
    value = "" if option.default is None else str(option.default)
    may = " (may stay empty)" if option.optional else ""
    hint = f"{option.about}{may}"
    if option.read is not number:
        return TextField(option.name, label, value, hint=hint)
    field = TextField(option.name, label, value, hint=hint, echo=lambda _: option.about)
    field.add_class("sum--number")
    return field
