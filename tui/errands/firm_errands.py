"""Changing the firm's settings, its people, who is at the desk; copies, the look whether all is in order, export."""

from collections.abc import Callable
from pathlib import Path

from textual.screen import Screen

from store.desk.copies import dated_copy_path
from store.desk.desk import Desk
from store.errors import ChangedMeanwhile, Problem, StoreError
from store.trade.firm import Firm, FirmDraft
from tui.dialogs.choose import Choose
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.where_form import WhereForm
from tui.dialogs.word_forms import PersonForm
from tui.errands.meanwhile import Meanwhile
from tui.telling import list_of, tell, tell_no
from tui.wording import clean
from tui.words_for_firm import say_size, settings_of

_NOBODY = ""
_SECONDS_TO_READ = 20.0


async def change_firm(screen: Screen[None], desk: Desk) -> None:
    """Ask for the firm's settings anew and file them; what another window changed meanwhile is told, never lost."""
    try:
        shown = desk.firm.card()
        settings = Meanwhile(
            shown, ask=desk.firm.card, told=lambda firm: [("Name", firm.name), *settings_of(firm, desk.now())],
            what="The firm",
        )  # fmt: skip
        draft: FirmDraft | None = shown
        while draft is not None:
            form = FirmForm(
                today=desk.today(), check=lambda one: desk.firm.problems(one) + settings.problems(), draft=draft
            )
            draft = await screen.app.push_screen_wait(form)
            if draft is not None and _is_filed(screen, desk, settings, draft):
                tell(screen.app, "Changed: the firm's settings.")
                return
    except StoreError as error:
        tell_no(screen.app, error)


def _is_filed(screen: Screen[None], desk: Desk, settings: Meanwhile[Firm], draft: FirmDraft) -> bool:
    try:
        desk.firm.change(draft, settings.latest.rev)
    except ChangedMeanwhile:
        tell(screen.app, list_of(settings.problems()), "warning")
        return False
    return True


async def add_person(screen: Screen[None], desk: Desk) -> None:
    """Ask for the name of somebody who works for the firm, and file it."""

    def problems(draft: object) -> tuple[Problem, ...]:
        name = getattr(draft, "name", "")
        known = {person.name for person in desk.firm.people()}
        return (Problem(field="name", say=f"{clean(name)} is on file already."),) if name in known else ()

    draft = await screen.app.push_screen_wait(PersonForm(check=problems))
    if draft is None:
        return
    try:
        person = desk.firm.add_person(draft.name)
    except StoreError as error:
        tell_no(screen.app, error)
        return
    tell(screen.app, f"On file: {clean(person.name)}.")


async def sit_down(screen: Screen[None], desk: Desk) -> None:
    """Ask who is at the desk; what is filed from then on bears their name."""
    people = desk.firm.people()
    if not people:
        tell(screen.app, "Nobody is on file yet; n adds somebody.")
        return
    options = [*((person.name, person.name) for person in people), (_NOBODY, "Nobody in particular")]
    who = await screen.app.push_screen_wait(
        Choose("Who is at the desk?", label="Name", options=options, start=desk.firm.at_the_desk)
    )
    if who is not None:
        desk.firm.sit_down(who)
        tell(screen.app, f"{clean(who)} is at the desk: the history names them." if who else "Nobody is named.")


async def make_copy(screen: Screen[None], desk: Desk) -> None:
    """Ask where to, and make a verified copy of the records there."""
    target = await _ask_where(
        screen,
        desk,
        "Make a copy",
        "The whole records in one file, read back and found sound before it gets its name.",
        dated_copy_path(desk.path, desk.now()),
    )
    if target is None:
        return
    try:
        saved = desk.papers.save_copy(target)
    except StoreError as error:
        tell_no(screen.app, error)
        return
    words = f"Copied and verified: {saved.path}, {say_size(saved.size_bytes)}.\nSHA-256 {saved.sha256}"
    tell(screen.app, words, seconds=_SECONDS_TO_READ)


async def export_jobs(screen: Screen[None], desk: Desk) -> None:
    """Ask where to, and write the folders of all jobs there."""
    stamp = dated_copy_path(desk.path, desk.now())
    target = await _ask_where(
        screen,
        desk,
        "Write out all jobs",
        "Every job's folder in one JSON file, which “layday import” takes in again.",
        stamp.with_name(stamp.stem.replace("-copy-", "-jobs-") + ".json"),
    )
    if target is None:
        return
    try:
        size = desk.papers.save_folders(target)
    except StoreError as error:
        tell_no(screen.app, error)
        return
    tell(screen.app, f"Written: {target}, {say_size(size)}.", seconds=_SECONDS_TO_READ)


async def _ask_where(screen: Screen[None], desk: Desk, title: str, words: str, start: Path) -> Path | None:
    check: Callable[[Path], tuple[Problem, ...]] = desk.papers.target_problems
    return await screen.app.push_screen_wait(WhereForm(title, words=words, start=start, check=check))
