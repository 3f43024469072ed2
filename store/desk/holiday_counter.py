"""The counter for holidays: public ones by country, offered day by day, and filing those the firm is shut on."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date

from store.desk.counter import Bench, refuse
from store.errors import Refused
from store.papers.public_holidays import Area, countries, country_of_zone, parts_of, public_holidays
from store.trade.diary import is_worked
from store.trade.firm import Firm, problems_with_firm
from store.trade.holiday_reach import Reach, reach_of


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferedDay:
    """A public holiday to come: whether it is the firm's holiday already, and whether the firm would work else."""

    day: date
    name: str
    on_file: bool
    worked: bool


class HolidayCounter:
    """Questions about public holidays, and the deed that makes some of them the firm's own."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def reach(self) -> Reach:
        """Return how far the firm's holidays reach."""
        return reach_of(self._bench.firm().holidays, self._bench.today())

    def countries(self) -> tuple[Area, ...]:
        """Return the countries whose holidays are known, by name."""
        return countries()

    def likely_country(self) -> str:
        """Return the code of the country the firm is in, by its time zone; empty where that names none."""
        return country_of_zone(self._bench.firm().time_zone)

    def parts_of(self, country: str) -> tuple[Area, ...]:
        """Return the parts of a country with days of their own; Refused where no such country is known."""
        return parts_of(country)

    def offered(self, country: str, part: str = "") -> tuple[OfferedDay, ...]:
        """Return the public holidays from today to the end of next year; Refused where none are known."""
        firm, today = self._bench.firm(), self._bench.today()
        on_file, shut_else = frozenset(firm.holidays), replace(firm, holidays=())
        return tuple(
            OfferedDay(day=one.day, name=one.name, on_file=one.day in on_file, worked=is_worked(shut_else, one.day))
            for one in public_holidays(country, part, (today.year, today.year + 1))
            if one.day >= today
        )

    def file(self, days: Collection[date]) -> Firm:
        """Make some days holidays of the firm, beside those on file.

        Raises:
            Refused: all of them are on file already.
        """
        with self._bench.deed():
            before = self._bench.firm()
            fresh = set(days) - set(before.holidays)
            if not fresh:
                raise Refused("All these days are holidays of the firm already.")
            draft = replace(before, holidays=tuple(sorted({*before.holidays, *fresh})))
            refuse(problems_with_firm(draft))
            firm = self._bench.cabinet.firm.change(draft, before.rev)
            self._bench.write_down("holidays added", subject=firm.name, before=before, after=firm)
        return firm
