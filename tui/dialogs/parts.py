"""Parts that several forms share: fields for days and moments, rooms, products, and packs lying somewhere."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from store.errors import Problem
from store.trade.events import Place
from store.trade.products import Product
from store.trade.things import Thing
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import Option
from tui.widgets.fields import TextField
from tui.words.units import say_much
from tui.words.vocabulary import say_place
from tui.words.wording import clean, typed_day

MOMENT_HINT = "Like now, 9:30, yesterday 16:00 or 28/11 9:30."
DAY_HINT = "Like 28/11, 28/11/2026, fri, tomorrow or +3."


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """Full packs, and loose boards, of one batch that lie in one place; ``thing`` says what the packs are."""

    product: str
    batch: str
    place: Place
    packs: int
    boards: int = 0
    thing: Thing = Thing.BOARDS

    @property
    def amount(self) -> str:
        """How many there are: “12 packs”, “2 tubs”."""
        return say_much(self.thing, self.packs, self.boards)

    @property
    def is_board(self) -> bool:
        """Whether it is boards, which wait, mix in batches and must be counted."""
        return self.thing is Thing.BOARDS

    @property
    def words(self) -> str:
        """The packs in words: “12 packs of OAK-190, batch K41, in the Reading room”."""
        batch = f", batch {clean(self.batch)}" if self.batch else ""
        return f"{self.amount} of {clean(self.product)}{batch}, {say_place(self.place)}"


def moment_field(key: str, label: str, clock: WallClock, at: datetime | None = None) -> TextField:
    """Return a field for a moment that is over, filled with ``at`` or with now."""
    return TextField(key, label, clock.typed(at), hint=MOMENT_HINT, echo=clock.echo)


def day_field(key: str, label: str, clock: WallClock, day: date | None, *, hint: str = DAY_HINT) -> TextField:
    """Return a field for a day to come, empty where there is none."""
    return TextField(key, label, typed_day(day) if day else "", hint=hint, echo=clock.echo_day)


def past_day_field(key: str, label: str, clock: WallClock, day: date | None, *, hint: str = DAY_HINT) -> TextField:
    """Return a field for a day that is over, empty where there is none."""
    return TextField(key, label, typed_day(day) if day else "", hint=hint, echo=clock.echo_past_day)


def room_options(rooms: Sequence[str]) -> list[Option]:
    """Return the rooms to choose from."""
    return [(room, room) for room in rooms]


def product_options(products: Sequence[Product]) -> list[Option]:
    """Return the products to choose from, by code and name."""
    return [(product.code, f"{product.code}  {product.name}") for product in products]


def beside_rows(problems: Iterable[Problem], keys: Sequence[str]) -> tuple[Problem, ...]:
    """Return problems with “lines.N.…” put beside the row that the Nth line came from; ``keys`` are those rows'."""

    def placed(problem: Problem) -> Problem:
        first, _, rest = problem.field.partition(".")
        number, _, part = rest.partition(".")
        if first != "lines" or not number.isdigit() or int(number) >= len(keys):
            return problem
        return replace(problem, field=f"{keys[int(number)]}.{part}")

    return tuple(placed(problem) for problem in problems)
