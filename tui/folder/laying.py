"""The laying of a job: floors begun and finished, packs opened, and when the floor may be walked on and loaded."""

from collections.abc import Iterator

from store.trade.events import Laying, Opening
from store.trade.laying import is_wholly_laid, laid_mm2
from tui.folder.on_site import morning_entry
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.facts import say_opening
from tui.words.lasting import say_lasting
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_area, say_time, upper

COLUMNS = (
    Column(label="When", width=16),
    Column(label="What", width=9),
    Column(label="Room", width=16),
    Column(label="How much"),
)


def laying_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return how far each room is and whether what is left will last, or when the laid floor may be walked on."""
    if not page.facts.layings:
        return ()
    return tuple(_windows(page)) or tuple(_progress(page))


def _windows(page: Page) -> Iterator[Said]:
    windows, now = page.card.standing.windows, page.clock.now
    named = (("Walk on", windows.walk_on), ("Full load", windows.full_load), ("Handover", windows.handover))
    for words, at in named:
        if at is not None:
            over = at <= now
            said = f"{'✓' if over else '◐'} {words:<9} from {page.clock.say(at)}"
            yield Said(words=said, tone=Tone.OK if over else Tone.WAIT)


def _progress(page: Page) -> Iterator[Said]:
    for room in page.facts.rooms:
        laid = laid_mm2(page.facts, room)
        done = is_wholly_laid(page.facts, room)
        words = f"{say_area(laid)} of {say_area(room.net_mm2)} laid"
        sign, tone = ("✓", Tone.OK) if done else ("○", Tone.PLAIN)
        if any(one.room == room.name and one.ended_at is None for one in page.facts.layings):
            sign, tone, words = "●", Tone.WAIT, f"{words}, laying goes on"
        yield Said(words=f"{sign} {upper(the_room(room.name))}: {words}.", tone=tone)
    for lasts, say in say_lasting(page.lasting):
        yield Said(words=f"✓ {say}" if lasts else f"▲ {say}", tone=Tone.OK if lasts else Tone.WARN)


def laying_entries(page: Page) -> tuple[Entry, ...]:
    """Return layings and openings, the latest first."""
    timed = [
        *((one.at, _opening(page, one)) for one in page.facts.openings),
        *((one.begun_at, _laying(page, one)) for one in page.facts.layings),
        *((one.at, morning_entry(page, one)) for one in page.facts.mornings),
    ]
    return tuple(entry for _, entry in sorted(timed, key=lambda pair: pair[0], reverse=True))


def _laying(page: Page, laying: Laying) -> Entry:
    going_on = laying.ended_at is None
    area = "going on; l finishes it" if going_on else f"{say_area(laying.area_mm2 or 0)}{_until(page, laying)}"
    return Entry(
        key=f"laying:{laying.id}",
        cells=(page.clock.say(laying.begun_at), "● laying" if going_on else "✓ laid", laying.room, area),
        fact=laying,
        title=f"Laying in {the_room(laying.room)}",
        whole=tuple(_whole_laying(page, laying)),
    )


def _until(page: Page, laying: Laying) -> str:
    """When a laying ended, as short as tells it: the hour of the day it began on, or the day."""
    if laying.ended_at is None:
        return ""
    ended = laying.ended_at.astimezone(page.clock.zone)
    same_day = ended.date() == page.clock.day(laying.begun_at)
    return f" to {say_time(ended.time())}" if same_day else f" to {page.clock.say_day(ended.date())}"


def _whole_laying(page: Page, laying: Laying) -> Iterator[Said]:
    yield Said(words=f"Begun {page.clock.say(laying.begun_at)}.")
    if laying.ended_at is None:
        yield Said(words="● Going on; l finishes it.", tone=Tone.WAIT)
        return
    yield Said(words=f"Ended {page.clock.say(laying.ended_at)}.")
    yield Said(words=f"{say_area(laying.area_mm2 or 0)} of floor laid.")
    if laying.tubs is not None:
        yield Said(words=f"{counted(laying.tubs, 'tub')} of glue used.")


def _opening(page: Page, opening: Opening) -> Entry:
    packs = f"{opening.packs} × {clean(opening.product)} {clean(opening.batch)}".rstrip()
    return Entry(
        key=f"opening:{opening.id}",
        cells=(page.clock.say(opening.at), "opened", opening.room, packs),
        fact=opening,
        title=f"Packs opened {page.clock.say(opening.at)}",
        whole=(Said(words=f"{say_opening(opening, page.facts)}."),),
    )
