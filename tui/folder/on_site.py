"""Lines of a folder about what is noted on site: morning lists, and what made moisture readings void."""

from collections.abc import Iterator

from store.trade.morning import MorningCheck
from store.trade.voiding import Voiding
from tui.dialogs.morning_form import CAUTIONS
from tui.folder.page import Entry, Page
from tui.widgets.signed_lines import Said, Tone
from tui.words.morning import found_amiss, say_amiss, say_looked
from tui.words.vocabulary import AMISS, VOIDED_BY, the_room
from tui.words.wording import clean, upper


def voiding_entry(page: Page, voiding: Voiding) -> Entry:
    """Return the line of what made moisture readings void."""
    note = (Said(words=clean(voiding.note)),) if voiding.note else ()
    return Entry(
        key=f"voiding:{voiding.id}",
        cells=(page.clock.say(voiding.at), voiding.room, "void before", VOIDED_BY[voiding.cause]),
        fact=voiding,
        title="Moisture readings void",
        whole=(
            Said(
                words=f"{upper(VOIDED_BY[voiding.cause])}, in {the_room(voiding.room)}, {page.clock.say(voiding.at)}."
            ),
            Said(words="Moisture readings of this subfloor from before that no longer count.", tone=Tone.WARN),
            *note,
        ),
    )


def morning_entry(page: Page, check: MorningCheck) -> Entry:
    """Return the line of a morning list."""
    found = found_amiss(check, page.facts, page.firm)
    words = f"▲ {', '.join(AMISS[one] for one in found)}" if found else "✓ all right"
    return Entry(
        key=f"morning:{check.id}",
        cells=(page.clock.say(check.at), "looked", check.room, words),
        fact=check,
        title="Before the first board",
        whole=tuple(_whole(page, check)),
    )


def _whole(page: Page, check: MorningCheck) -> Iterator[Said]:
    yield Said(words=f"{upper(the_room(check.room))}, {page.clock.say(check.at)}: {say_looked(check)}.")
    amiss = say_amiss(check, page.facts, page.firm)
    yield Said(words=f"▲ {amiss}", tone=Tone.WARN) if amiss else Said(words="✓ All was right.", tone=Tone.OK)
    if check.who:
        yield Said(words=f"Looked at by {clean(check.who)}.")
    if check.note:
        yield Said(words=clean(check.note))
    yield Said(words=CAUTIONS, tone=Tone.MUTED)
