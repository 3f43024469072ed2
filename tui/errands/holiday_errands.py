"""The errand of filing public holidays: of which country and part, and which of its days the firm is shut on."""

from store.papers.public_holidays import Area
from tui.dialogs.choose import Choose
from tui.dialogs.holidays_offered import HolidaysOffered
from tui.errands.subject import Subject
from tui.words.wording import counted, say_day

_ALL_OF_IT = "*"


class HolidayErrands(Subject):
    """Filling the firm's holidays from the public ones of a country."""

    async def fill(self) -> bool:
        """Ask for a country, a part of it where parts keep days of their own, and for the days; file them."""
        country = await self._choose_country()
        if country is None:
            return False
        parts = self.desk.holidays.parts_of(country.code)
        part = Area(code="", name="")
        if parts:
            options = [(_ALL_OF_IT, "The days that all of it keeps"), *((one.code, one.name) for one in parts)]
            ask = Choose(f"Which part of {country.name}?", label="Part", options=options)
            code = await self._view.app.push_screen_wait(ask)
            if code is None:
                return False
            part = next((one for one in parts if one.code == code), part)
        where = ", ".join(name for name in (country.name, part.name) if name)
        offered = self.desk.holidays.offered(country.code, part.code)
        screen = HolidaysOffered(where, offered, today=self.desk.today())
        days = await self._view.app.push_screen_wait(screen)
        if days is None:
            return False
        self.desk.holidays.file(days)
        first, last = (say_day(day, self.desk.today()) for day in (days[0], days[-1]))
        return self.done(f"{counted(len(days), 'holiday')} filed, from {first} to {last}; e changes them.")

    async def _choose_country(self) -> Area | None:
        known = self.desk.holidays.countries()
        ask = Choose(
            "Of which country?",
            label="Country",
            options=[(one.code, one.name) for one in known],
            start=self.desk.holidays.likely_country(),
        )
        code = await self._view.app.push_screen_wait(ask)
        return next((one for one in known if one.code == code), None)
