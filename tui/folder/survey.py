"""The survey of a job: its rooms, and what stands in the way of each room's floor."""

from collections.abc import Iterator

from store.trade.flights import Flight
from store.trade.gaps import wall_gap
from store.trade.jobs import Method, Room
from store.trade.laying import is_wholly_laid
from store.trade.surveyed import Pattern
from store.trade.verdict import Hold, HoldKind, HoldState, Why
from store.trade.walls import wall_letter
from tui.folder.page import STATE_TONES, Entry, Page
from tui.folder.stairs import stairs_entry
from tui.widgets.rows import Column
from tui.widgets.safe import cell
from tui.widgets.signed_lines import Said, Tone
from tui.words.holds import say_hold
from tui.words.limits import say_limits_of
from tui.words.vocabulary import HOLD_KINDS, HOLD_SIGNS, HOLD_STATES, METHODS, PATTERNS, SUBFLOORS
from tui.words.wording import clean, say_area, say_mm, say_percent

COLUMNS = (
    Column(label="Room"),
    Column(label="State", width=12),
    Column(label="Area", width=9),
    Column(label="Floor", width=16),
    Column(label="Subfloor"),
)
_WORST = (HoldState.FAILED, HoldState.TO_DO, HoldState.WAITING)


def survey_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return nothing: the drawing and the holds of the chosen room say it."""
    return ()


def survey_entries(page: Page) -> tuple[Entry, ...]:
    """Return a line for each room, then for each flight of stairs, in the order of filing."""
    rooms = (_entry(page, room) for room in page.facts.rooms)
    return (*rooms, *(stairs_entry(flight, _clad_mm(page, flight)) for flight in page.facts.flights))


def _clad_mm(page: Page, flight: Flight) -> int | None:
    """How thick the board is that stairs are clad with; None where they are clad with none."""
    return page.facts.board(flight.board).thickness_mm if flight.board else None


def _entry(page: Page, room: Room) -> Entry:
    heated = ", heated" if room.heated else ""
    floor = ", ".join(code for code in (room.board, room.glue) if code)
    cells = (
        room.name,
        _state(page, room),
        cell(say_area(room.net_mm2), right=True),
        floor,
        f"{SUBFLOORS[room.subfloor]}{heated}",
    )
    whole = (*holds_of_room(page, room), Said(words=""), *_floor(page, room))
    return Entry(key=f"room:{room.id}", cells=cells, fact=room, title=clean(room.name), whole=whole)


def _state(page: Page, room: Room) -> str:
    if is_wholly_laid(page.facts, room):
        return "✓ laid"
    if any(one.room == room.name and one.ended_at is None for one in page.facts.layings):
        return "● in hand"
    states = {hold.state for hold in page.card.standing.holds if hold.room == room.name}
    worst = next((state for state in _WORST if state in states), None)
    return f"{HOLD_SIGNS[worst]} {HOLD_STATES[worst]}" if worst else "✓ ready"


def _floor(page: Page, room: Room) -> Iterator[Said]:
    glue = f" with {clean(room.glue)}" if room.glue else ""
    yield Said(words=f"{say_area(room.net_mm2)} of {clean(room.board)}, {METHODS[room.method]}{glue}.")
    screed = f", {say_mm(room.screed_mm)} thick" if room.screed_mm else ""
    laid = f", laid {page.clock.say_day(room.screed_laid_on)}" if room.screed_laid_on else ""
    heated = ", heated" if room.heated else ""
    yield Said(words=f"On {SUBFLOORS[room.subfloor]}{heated}{screed}{laid}.")
    for words in say_limits_of(page.firm, page.facts, room):
        yield Said(words=words, tone=Tone.MUTED)
    yield Said(words=f"Gap along the walls {say_mm(room.gap_mm)}, cut loss {say_percent(room.cut_loss_percent)}.")
    yield from _gap(page, room)
    if room.pattern is not Pattern.STRAIGHT or room.border_mm:
        border = f", with a border of {say_mm(room.border_mm)}" if room.border_mm else ""
        yield Said(words=f"Laid in {PATTERNS[room.pattern]}{border}; p counts it.")
    for door in room.doorways:
        to = f" to {clean(door.to)}" if door.to else ""
        at = f"{say_mm(door.from_mm)} from its first corner"
        yield Said(words=f"Doorway{to} in wall {wall_letter(door.wall)}, {at}, {say_mm(door.width_mm)} wide.")
    for thing in room.fixed_things:
        yield Said(words=f"Fixed: {clean(thing.name)}, {thing.size_mm} mm, at {thing.x_mm}, {thing.y_mm}.")


def _gap(page: Page, room: Room) -> Iterator[Said]:
    """Yield what a floating floor's width asks of the gap; across its rows if a lay says so, else its narrower side."""
    if room.method is not Method.FLOATING:
        return
    sides = [max(spots) - min(spots) for spots in zip(*room.outline, strict=True)]
    gap = wall_gap(across_mm=min(sides), method=room.method.value, gap_mm=room.gap_mm)
    if not gap.enough:
        words = f"▲ A floating floor so wide asks for a gap of {gap.asked_mm} mm at each wall."
        yield Said(words=words, tone=Tone.WARN)
    if room.doorways:
        yield Said(words="A floating floor wants a joint at each doorway, if its maker's sheet says nothing else.")


def holds_of_room(page: Page, room: Room) -> Iterator[Said]:
    """Yield what stands in the way of a room's floor, and in one line what does not."""
    holds = [hold for hold in page.card.standing.holds if hold.room == room.name]
    if not holds:
        yield Said(words="✓ This floor is laid; nothing stands in its way.", tone=Tone.OK)
        return
    for state in (HoldState.FAILED, HoldState.TO_DO, HoldState.WAITING, HoldState.CLEAR):
        for hold in holds:
            if hold.state is state and hold.why is not Why.NOTHING_ON_FILE:
                yield _hold(page, hold)
    unknown = [HOLD_KINDS[hold.kind].lower() for hold in holds if hold.why is Why.NOTHING_ON_FILE]
    if unknown:
        yield Said(words=f"· Nothing on file about {', '.join(unknown)}.", tone=Tone.MUTED)
    if room.heated and HOLD_KINDS[HoldKind.HEATING].lower() in unknown:
        yield Said(words="▲ Heated: see the heating record before a test or a board; e notes its days.", tone=Tone.WARN)


def _hold(page: Page, hold: Hold) -> Said:
    sentence = say_hold(hold, page.facts, page.firm, page.clock.now)
    return Said(words=f"{HOLD_SIGNS[hold.state]} {HOLD_KINDS[hold.kind]}: {sentence}", tone=STATE_TONES[hold.state])
