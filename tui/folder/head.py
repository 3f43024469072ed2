"""The words at the top of a job's folder."""

from collections.abc import Iterator

from store.trade.verdict import Stage, Verdict
from tui.folder.page import Page
from tui.widgets.signed_lines import Said, Tone
from tui.words.deeds import say_deed
from tui.words.standing import say_verdict, say_windows
from tui.words.wording import clean

_VERDICTS = {
    Verdict.READY: ("✓", Tone.OK),
    Verdict.READY_FROM: ("◐", Tone.WAIT),
    Verdict.BLOCKED: ("▲", Tone.WARN),
}


def title_of(page: Page) -> str:
    """Return a job's reference and title."""
    job = page.facts.job
    return f"{job.ref}  {job.title}"


def who_of(page: Page) -> str:
    """Return whose floor it is, where, how to reach them, and the day it is promised for."""
    job, clock = page.facts.job, page.clock
    promised = ""
    if job.promised_on is not None:
        over = job.promised_on < clock.today and page.card.standing.stage is not Stage.CLOSED
        promised = f"promised for {clock.say_day(job.promised_on)}{', which is over' if over else ''}"
    parts = (job.customer.name, job.customer.phone, promised, job.address, job.customer.email)
    return " · ".join(part for part in parts if part)


def said_of(page: Page) -> tuple[Said, ...]:
    """Return the verdict, what is next, and the latest note."""
    return (*_verdict(page), *_next(page), *_note(page))


def _verdict(page: Page) -> tuple[Said, ...]:
    standing = page.card.standing
    if not page.facts.rooms:
        return (Said(words="▲ No room is measured yet.", tone=Tone.WARN),)
    if standing.stage is Stage.CLOSED:
        return (Said(words="✓ Closed: cured, signed for and counted.", tone=Tone.OK),)
    if standing.verdict is None:
        return _laid(page)
    sign, tone = _VERDICTS[standing.verdict]
    return (Said(words=f"{sign} {say_verdict(standing, page.firm, page.clock.now)}", tone=tone),)


def _laid(page: Page) -> tuple[Said, ...]:
    """The floor's times after laying, the handover on a line of its own."""
    cured = page.card.standing.stage is Stage.HANDOVER
    tone = Tone.OK if cured else Tone.WAIT
    laid, _, handover = say_windows(page.card.standing.windows, page.firm, page.clock.now).partition(", handover from ")
    lines = [Said(words=f"{'✓' if cured else '◐'} {laid}{'.' if handover else ''}", tone=tone)]
    if handover:
        lines.append(Said(words=f"  Handover from {handover}", tone=tone))
    return tuple(lines)


def _next(page: Page) -> Iterator[Said]:
    deed, number = page.next_deed, len(page.card.standing.to_do)
    if deed is not None:
        more = f"  (1 of {number} to do)" if number > 1 else ""
        words = say_deed(deed, page.clock.now, page.clock.zone)
        yield Said(words=f"  Next: {words}; d does it.{more}")


def _note(page: Page) -> Iterator[Said]:
    if page.facts.notes:
        latest = max(page.facts.notes, key=lambda note: note.at)
        yield Said(words=f"  Note {page.clock.say(latest.at)}: {clean(latest.text)}", tone=Tone.MUTED)
