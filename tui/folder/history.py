"""The history of a job: what was done, when and by whom, with what was on file before and after."""

import json
from collections.abc import Iterator
from datetime import datetime

from store.trade.history import HistoryLine
from tui.folder.page import Entry, Page
from tui.typed.wall_clock import WallClock
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.stairs import TURNS
from tui.words.vocabulary import DESTINATIONS, METHODS, READING_KINDS, SUBFLOORS
from tui.words.wording import clean, say_area

COLUMNS = (
    Column(label="When", width=16),
    Column(label="By", width=12),
    Column(label="What", width=19),
    Column(label="About"),
)
_ONLY_FOR_US = {"id", "rev"}
_MOST_SHOWN = 200
_WORDS = {one.value: words for kinds in (SUBFLOORS, METHODS, DESTINATIONS, TURNS) for one, words in kinds.items()}
Flat = dict[str, str]


def history_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return nothing: the lines say it."""
    return ()


def history_entries(page: Page) -> tuple[Entry, ...]:
    """Return a line for each deed, the latest first."""
    return tuple(_entry(page, line) for line in page.history)


def _entry(page: Page, line: HistoryLine) -> Entry:
    at, who = page.clock.say(line.at), line.who or "not said"
    by = Said(words=f"{at}, by {clean(who)}." if line.who else f"{at}; nobody was named.", tone=Tone.MUTED)
    subject = _subject(line)
    about = (Said(words=subject),) if subject else ()
    return Entry(
        key=f"history:{line.id}",
        cells=(at, who, line.deed, subject),
        fact=line,
        title=line.deed[:1].upper() + line.deed[1:],
        whole=(by, *about, *changes_in(line, page.clock)),
    )


def _subject(line: HistoryLine) -> str:
    kind, _, room = line.subject.partition(", ")
    return f"{READING_KINDS[kind]}, {room}" if line.deed == "reading taken" and kind in READING_KINDS else line.subject


def changes_in(line: HistoryLine, clock: WallClock) -> tuple[Said, ...]:
    """Return what a deed changed, field by field: “packs: 11 → 12”; all of it where it was new or is gone."""
    return tuple(_changes(_flat(line.before, clock), _flat(line.after, clock)))


def _changes(before: Flat, after: Flat) -> Iterator[Said]:
    if before and not after:
        yield Said(words="What stood on file:", tone=Tone.HEAD)
    elif after:
        yield Said(words="What was changed:" if before else "What was filed:", tone=Tone.HEAD)
    for name in [*after, *(one for one in before if one not in after)]:
        was, now = before.get(name, ""), after.get(name, "")
        if before and after:
            if was != now:
                yield Said(words=f"{name}: {was or 'nothing'} → {now or 'nothing'}")
        elif was or now:
            yield Said(words=f"{name}: {was or now}")


def _flat(text: str, clock: WallClock) -> Flat:
    """A fact in JSON as words by their names, parts of parts by “part, name”."""
    if not text:
        return {}
    try:
        told = json.loads(text)
    except ValueError:
        return {"as written": text[:_MOST_SHOWN]}
    return {name: words for name, words in _leaves(told, "", clock) if words}


def _leaves(told: object, name: str, clock: WallClock) -> Iterator[tuple[str, str]]:
    if isinstance(told, dict):
        for key, value in told.items():
            if key not in _ONLY_FOR_US:
                yield from _leaves(value, f"{name}, {_words(key)}" if name else _words(key), clock)
    elif isinstance(told, list) and any(isinstance(one, dict) for one in told):
        for number, one in enumerate(told, start=1):
            yield from _leaves(one, f"{name} {number}".strip(), clock)
    elif isinstance(told, int) and name.endswith(" mm2"):
        yield name.removesuffix(" mm2"), say_area(told)
    else:
        yield name or "said", _value(told, clock)


def _words(key: str) -> str:
    return str(key).replace("_", " ")


def _value(told: object, clock: WallClock) -> str:
    if not told and not isinstance(told, bool | int | float):
        return ""
    if isinstance(told, bool):
        return "yes" if told else "no"
    if isinstance(told, str):
        return _moment(told, clock) or _WORDS.get(told, told)
    return json.dumps(told, ensure_ascii=False)[:_MOST_SHOWN] if isinstance(told, list) else f"{told}"


def _moment(text: str, clock: WallClock) -> str:
    """An instant in words; empty if the text is none."""
    try:
        at = datetime.fromisoformat(text)
    except ValueError:
        return ""
    return clock.say(at) if at.tzinfo is not None else ""
