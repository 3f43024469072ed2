"""What every errand shares: the view it was asked from, the job's card, asking with a form, and telling."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Generic, TypeVar

from store.desk.cards import JobCard
from store.desk.desk import Desk
from store.errors import Refused
from store.papers.on_disk import write_whole
from store.trade.firm import Firm
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.dialog import Dialog
from tui.dialogs.folder_form import FolderForm
from tui.telling import filed, tell, tell_no
from tui.typed.wall_clock import WallClock
from tui.view import View

Answer = TypeVar("Answer")
Fact = TypeVar("Fact")


class Shown(Generic[Fact]):
    """The fact that a form was filled from; the latest, once it was looked at again."""

    def __init__(self, fact: Fact) -> None:
        self.fact = fact

    def see(self, fact: Fact) -> None:
        """Take the fact as it says now."""
        self.fact = fact


class Subject:
    """Errands about one subject, asked for from one view."""

    def __init__(self, view: View) -> None:
        self._view = view

    @property
    def desk(self) -> Desk:
        return self._view.desk

    @property
    def clock(self) -> WallClock:
        return self._view.clock

    @property
    def firm(self) -> Firm:
        return self.desk.firm.card()

    def card(self, ref: str) -> JobCard:
        """Return the job as it stands now; Refused where there is none."""
        return self.desk.jobs.card(ref)

    async def ask(
        self,
        form: Dialog[Answer],
        file: Callable[[Answer], object],
        *,
        if_changed: Callable[[], object] | None = None,
    ) -> Answer | None:
        """Return what a form answers once it is on file; the form stays open, with what was typed, until it is."""
        form.file_with(lambda answer: filed(lambda: file(answer), if_changed=if_changed))
        return await self._view.app.push_screen_wait(form)

    async def sure(self, question: str, *, yes: str, no: str, detail: str = "") -> bool:
        """Ask a question with two answers; the safe one comes first."""
        answer: bool | None = await self._view.app.push_screen_wait(AskYesNo(question, yes=yes, no=no, detail=detail))
        return bool(answer)

    async def either(self, question: str, *, yes: str, no: str, detail: str = "") -> bool | None:
        """Ask which of two ways to go on; None where it is left altogether."""
        ask = AskYesNo(question, yes=yes, no=no, detail=detail, may_leave=True)
        answer: bool | None = await self._view.app.push_screen_wait(ask)
        return answer

    async def write_files(self, question: str, words: str, files: Callable[[], Mapping[str, bytes]]) -> Path | None:
        """Ask for a folder and write named files into it; None where nothing was written, and it is told why."""
        folder: Path | None = await self._view.app.push_screen_wait(FolderForm(question, words=words, start=Path.cwd()))
        if folder is None:
            return None
        try:
            for name, content in files().items():
                write_whole(folder / name, content)
        except Refused as no:
            tell_no(self._view.app, no)
            return None
        return folder

    def done(self, say: str) -> bool:
        """Tell what was done, and show what follows from it."""
        tell(self._view.app, say, seconds=max(5.0, len(say) / 14))
        self._view.ask_again()
        return True

    def not_now(self, say: str) -> bool:
        """Tell why something cannot be done now, and what would help."""
        tell(self._view.app, say, "warning", seconds=max(6.0, len(say) / 12))
        return False
