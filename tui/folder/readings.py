"""The readings of a job, each with its limit, the levelling between them, and how far each stack's wait has come."""

from collections.abc import Iterator

from store.trade.doubts import doubts
from store.trade.events import Smoothing
from store.trade.readings import Air, LevelGrid, Reading, Straightedge, WithdrawnReading
from tui.folder.on_site import voiding_entry
from tui.folder.page import Entry, Page
from tui.widgets.countdown_bar import bar_of
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.evidence import say_doubts, say_evidence
from tui.words.level_grid import say_levels, say_worst_gap
from tui.words.limits import say_judgement
from tui.words.standing import say_clock
from tui.words.vocabulary import READING_KINDS, the_room
from tui.words.wording import clean, figure, say_measure, say_percent, say_span, say_temp

COLUMNS = (
    Column(label="When", width=16),
    Column(label="Room"),
    Column(label="Reading", width=17),
    Column(label="Held against", width=25),
)
_BAR = 10
_SHORT = {
    "air": "air",
    "carbide": "carbide",
    "hygrometer": "hygrometer",
    "in_situ_probe": "probe",
    "timber_subfloor": "subfloor",
    "board": "boards",
    "surface": "surface",
    "straightedge": "gap",
    "level_grid": "levels",
}


def readings_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return a countdown for each stack of packs whose floor is not laid yet."""
    if page.card.standing.verdict is None:
        return ()
    return tuple(_countdown(page))


def _countdown(page: Page) -> Iterator[Said]:
    for clock in page.card.standing.clocks:
        over = clock.ready_at is not None and clock.ready_at <= page.clock.now
        bar = bar_of(clock.hours_counted, clock.hours_needed, _BAR)
        sign, tone = ("✓", Tone.OK) if over else ("◐", Tone.WAIT) if clock.running else ("▲", Tone.WARN)
        words = say_clock(clock, page.firm, page.clock.now)
        yield Said(words=f"{bar} {sign} {clock.packs} × {clean(clock.product)}, {clean(clock.room)}:", tone=tone)
        yield Said(words=f"  {words}", tone=tone)


def readings_entries(page: Page) -> tuple[Entry, ...]:
    """Return readings and levellings, the latest first."""
    timed = [
        *((one.at, _reading(page, one)) for one in page.facts.readings),
        *((one.at, _smoothing(page, one)) for one in page.facts.smoothings),
        *((one.at, voiding_entry(page, one)) for one in page.facts.voidings),
    ]
    timed += ((one.reading.at, _withdrawn(page, one)) for one in page.withdrawn)
    return tuple(entry for _, entry in sorted(timed, key=lambda pair: pair[0], reverse=True))


def _reading(page: Page, reading: Reading) -> Entry:
    limit, judgement = say_judgement(page.firm, page.facts, reading)
    # The range of air is long: “out” leaves room for it.
    word = judgement.replace("not good", "out") if isinstance(reading.measure, Air) else judgement
    held = f"{word} ({_short_limit(limit)})" if limit else judgement
    return Entry(
        key=f"reading:{reading.id}",
        cells=(page.clock.say(reading.at), reading.room, f"{_SHORT[reading.kind]} {_short_figure(reading)}", held),
        fact=reading,
        title=READING_KINDS[reading.kind],
        whole=tuple(_whole_reading(page, reading, limit, judgement)),
    )


def _withdrawn(page: Page, gone: WithdrawnReading) -> Entry:
    reading = gone.reading
    said = f"{say_measure(reading.measure)} in {the_room(reading.room)}, {page.clock.say(reading.at)}."
    by = f" by {clean(gone.who)}" if gone.who else ""
    return Entry(
        key=f"withdrawn:{reading.id}",
        cells=(
            page.clock.say(reading.at),
            reading.room,
            f"{_SHORT[reading.kind]} {_short_figure(reading)}",
            "· taken back",
        ),
        fact=gone,
        title=READING_KINDS[reading.kind],
        whole=(
            Said(words=said),
            Said(words=f"· Taken back {page.clock.say(gone.at)}{by}: {clean(gone.why)}", tone=Tone.MUTED),
            *(Said(words=words) for words in say_evidence(reading.evidence, page.clock.day(reading.at))),
        ),
    )


def _short_figure(reading: Reading) -> str:
    measure = reading.measure
    if isinstance(measure, Air):
        return f"{say_temp(measure.temp_c)} {say_percent(measure.rh_percent)}"
    if isinstance(measure, Straightedge):
        return f"{figure(measure.gap_mm)} mm in {say_span(measure.span_mm)}"
    if isinstance(measure, LevelGrid):
        return say_worst_gap(measure).removesuffix(" gap")
    return say_measure(measure)


def _short_limit(limit: str) -> str:
    return limit.replace(" gap under 2 m", "").replace("at most ", "≤ ").replace(" and ", " ")


def _whole_reading(page: Page, reading: Reading, limit: str, judgement: str) -> Iterator[Said]:
    tones = {"✓": Tone.OK, "✗": Tone.BAD}
    yield Said(words=f"{say_measure(reading.measure)} in {the_room(reading.room)}, {page.clock.say(reading.at)}.")
    if limit:
        yield Said(words=f"{judgement}; it must be {limit}.", tone=tones.get(judgement[0], Tone.MUTED))
    room, on = page.facts.room(reading.room), page.clock.day(reading.at)
    found = doubts(reading.measure, reading.evidence, on=on, thickness_mm=room.screed_mm)
    yield from (Said(words=f"▲ {words}", tone=Tone.WARN) for words in say_doubts(found, reading.evidence))
    if isinstance(reading.measure, LevelGrid):
        most = float(page.firm.flat_limit_mm)
        yield from (Said(words=words) for words in say_levels(reading.measure, most, room.net_mm2))
    yield from (Said(words=words) for words in say_evidence(reading.evidence, on))
    if reading.corrects is not None:
        yield Said(words="Put right: the line that stood here before was taken back; z shows it.")
    if reading.taken_by:
        yield Said(words=f"Taken by {clean(reading.taken_by)}.")
    if reading.note:
        yield Said(words=clean(reading.note))


def _smoothing(page: Page, smoothing: Smoothing) -> Entry:
    note = (Said(words=clean(smoothing.note)),) if smoothing.note else ()
    return Entry(
        key=f"smoothing:{smoothing.id}",
        cells=(page.clock.say(smoothing.at), smoothing.room, "levelled", smoothing.note),
        fact=smoothing,
        title="Subfloor levelled",
        whole=(Said(words=f"In {the_room(smoothing.room)}, {page.clock.say(smoothing.at)}."), *note),
    )
