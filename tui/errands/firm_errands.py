"""Errands about the firm: its settings, its people, who is at the desk, copies, and handing all jobs on."""

from collections.abc import Callable, Sequence
from pathlib import Path

from store.desk.cards import Saved
from store.desk.copies import dated_copy_path
from store.errors import Problem
from store.trade.firm import Firm
from store.trade.people import Person, PersonDraft
from tui.dialogs.choose import Choose
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.training_form import TrainingForm
from tui.dialogs.where_form import WhereForm
from tui.dialogs.word_forms import PersonForm
from tui.errands.meanwhile import Meanwhile
from tui.errands.subject import Subject
from tui.telling import tell
from tui.words.firm import say_size, settings_of
from tui.words.wording import clean

_NOBODY = ""
_SECONDS_TO_READ = 20.0


class FirmErrands(Subject):
    """Keeping the firm's settings and people, and its records safe."""

    async def change(self) -> bool:
        """Ask for the firm's settings anew and file them; what another window changed meanwhile is told, never lost."""
        settings = Meanwhile(self.firm, ask=self.desk.firm.card, told=self._told, what="The firm")
        form = FirmForm(today=self.desk.today(), check=self.desk.firm.problems, draft=settings.fact)
        draft = await self.ask(
            form,
            lambda changed: self.desk.firm.change(changed, settings.fact.rev),
            if_changed=settings.look_again,
        )
        return draft is not None and self.done("The firm's settings are changed.")

    def _told(self, firm: Firm) -> list[tuple[str, str]]:
        return [("Name", clean(firm.name)), *settings_of(firm, self.desk.now())]

    async def add_person(self) -> bool:
        """Ask for the name of somebody who works for the firm, and file it."""
        form = PersonForm(check=self._person_problems)
        draft = await self.ask(form, lambda person: self.desk.firm.add_person(person.name))
        return draft is not None and self.done(f"{clean(draft.name)} is on file.")

    def _person_problems(self, draft: PersonDraft) -> tuple[Problem, ...]:
        if all(person.name != draft.name for person in self.desk.firm.people()):
            return ()
        return (Problem(field="name", say=f"{clean(draft.name)} is on file already."),)

    async def train(self) -> bool:
        """Ask whose training for glues with diisocyanates is in force, and until when."""
        people = self.desk.firm.people()
        if not people:
            return self.not_now("Nobody is on file yet; n on the firm's page (6) adds somebody.")
        form = TrainingForm(people=people, clock=self.clock)
        draft = await self.ask(form, lambda one: self.desk.firm.train(_of_name(people, one.name), one.trained_until))
        if draft is None:
            return False
        until = f"until {self.clock.say_day(draft.trained_until)}" if draft.trained_until else "no longer"
        return self.done(f"The training of {clean(draft.name)} is in force {until}.")

    async def sit_down(self) -> bool:
        """Ask who is at the desk; what is filed from then on bears their name."""
        people = self.desk.firm.people()
        if not people:
            return self.not_now("Nobody is on file yet; n adds somebody.")
        options = [*((person.name, person.name) for person in people), (_NOBODY, "Nobody in particular")]
        ask = Choose("Who is at the desk?", label="Name", options=options, start=self.desk.firm.at_the_desk)
        who = await self._view.app.push_screen_wait(ask)
        if who is None:
            return False
        self.desk.firm.sit_down(who)
        return self.done(f"{clean(who)} is at the desk: the history names them." if who else "Nobody is named now.")

    async def make_copy(self) -> bool:
        """Ask where to, and make a verified copy of the records there."""
        made: list[Saved] = []
        target = await self._ask_where(
            "Make a copy",
            "The whole records in one file, read back and found sound before it gets its name.",
            dated_copy_path(self.desk.path, self.desk.now()),
            lambda path: made.append(self.desk.papers.save_copy(path)),
        )
        if target is None:
            return False
        words = f"Copied and verified: {made[-1].path}, {say_size(made[-1].size_bytes)}.\nSHA-256 {made[-1].sha256}"
        return self._told_long(words)

    async def export_jobs(self) -> bool:
        """Ask where to, and write the folders of all jobs there."""
        stamped = dated_copy_path(self.desk.path, self.desk.now())
        sizes: list[int] = []
        target = await self._ask_where(
            "Write out all jobs",
            "Every job's folder in one JSON file, which “layday import” takes in again.",
            stamped.with_name(f"{stamped.stem.replace('-copy-', '-jobs-')}.json"),
            lambda path: sizes.append(self.desk.papers.save_folders(path)),
        )
        return target is not None and self._told_long(f"Written: {target}, {say_size(sizes[-1])}.")

    def _told_long(self, words: str) -> bool:
        tell(self._view.app, words, seconds=_SECONDS_TO_READ)
        self._view.ask_again()
        return True

    async def _ask_where(self, title: str, words: str, start: Path, write: Callable[[Path], object]) -> Path | None:
        form = WhereForm(title, words=words, start=start, check=self.desk.papers.target_problems)
        return await self.ask(form, write)


def _of_name(people: Sequence[Person], name: str) -> Person:
    return next(one for one in people if one.name == name)
