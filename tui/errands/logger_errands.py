"""The errand about data loggers: a file is looked through, told, and taken in once somebody says yes."""

from store.desk.logger_counter import LookedThrough
from store.papers.on_disk import read_whole
from tui.dialogs.logger_form import LoggerChoice, LoggerForm
from tui.errands.site_errands import NO_ROOMS
from tui.errands.subject import Subject
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_measure

_MOST_TOLD = 3
_MOST_NUMBERED = 12


class LoggerErrands(Subject):
    """Taking in what a data logger wrote."""

    async def take_in(self, ref: str, room: str = "") -> bool:
        """Take in a data logger's file; ``room`` is the one to begin with."""
        names = [one.name for one in self.card(ref).facts.rooms]
        if not names:
            return self.not_now(NO_ROOMS)
        seen: list[tuple[bytes, LookedThrough]] = []

        def look(answer: LoggerChoice) -> None:
            raw = read_whole(answer.path)
            seen.append((raw, self.desk.loggers.look_through(ref, answer.room, raw)))

        answer = await self.ask(LoggerForm(rooms=names, room=room if room in names else names[0]), look)
        if answer is None:
            return False
        raw, found = seen[-1]
        if not found.new:
            return self.not_now(f"Nothing is new in this file. {_say_rest(found)}".strip())
        question = f"File {counted(len(found.new), 'reading')} of the air in {the_room(answer.room)}?"
        detail = f"{self._say_span(found)} {_say_rest(found)}".strip()
        if not await self.sure(question, yes="File them", no="Not now", detail=detail):
            return False
        taken = self.desk.loggers.take_in(ref, answer.room, raw)
        return self.done(f"On file: {counted(taken.readings, 'reading')} of the air in {the_room(taken.room)}.")

    def _say_span(self, found: LookedThrough) -> str:
        moments = [one.at for one in found.new]
        first = found.new[0]
        span = f"From {self.clock.say(min(moments))} to {self.clock.say(max(moments))}."
        return f"{span} The first says {say_measure(first.measure)}; is that what stands in the file?"


def _say_rest(found: LookedThrough) -> str:
    """Return what of a file is on file already, and what was not read."""
    told = [f"{counted(found.on_file, 'line')} on file already."] if found.on_file else []
    if found.taken_back:
        told.append(f"{counted(found.taken_back, 'line')} left out: taken back before.")
    if found.faults:
        told.append(f"{counted(len(found.faults), 'line')} not read.")
        told += [f"Line {fault.line}: {clean(fault.say)}" for fault in found.faults[:_MOST_TOLD]]
        if len(found.faults) > _MOST_TOLD:
            others = [str(fault.line) for fault in found.faults[_MOST_TOLD : _MOST_TOLD + _MOST_NUMBERED]]
            more = " …" if len(found.faults) > _MOST_TOLD + _MOST_NUMBERED else ""
            told.append(f"Also lines {', '.join(others)}{more}.")
    return " ".join(told)
