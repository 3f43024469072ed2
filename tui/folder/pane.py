"""One section of the folder on the screen: its list, the sum above or beside it, and the chosen line's details."""

from collections.abc import Collection

from textual import events, on
from textual.app import ComposeResult
from textual.containers import Container, VerticalScroll

from store.trade.events import Laying, Opening, Smoothing
from store.trade.flights import Flight
from store.trade.jobs import Room
from store.trade.morning import MorningCheck
from store.trade.readings import Reading, WithdrawnReading
from store.trade.surveyed import Finds
from store.trade.voiding import Voiding
from tui.folder.page import Entry, Page
from tui.folder.sections import PARTS, Section
from tui.widgets.filter_list import FilterList
from tui.widgets.room_sketch import RoomSketch
from tui.widgets.signed_lines import Said, SignedLines, Tone

_SIDE_BY_SIDE_FROM = 116  # the widest list takes 70 columns, the details beside it 46


class SectionPane(Container):
    """A section of the folder.

    In a narrow window the sum stands above the list; the survey's drawing and holds stand below it. In a wide one
    they stand at the right, with the details of the chosen line under them.
    """

    DEFAULT_CSS = """
    SectionPane { height: 1fr; }
    SectionPane .pane--side { height: auto; max-height: 60%; padding: 0 1; display: none; }
    SectionPane.-told .pane--side { display: block; }
    SectionPane .pane--sum { height: auto; }
    SectionPane RoomSketch { display: none; width: 30; height: 9; margin: 0 1 0 0; }
    SectionPane .pane--more { height: auto; display: none; scrollbar-size-vertical: 1; }

    SectionPane.-drawn FilterList { dock: top; height: auto; max-height: 8; margin: 0 0 1 0; }
    SectionPane.-drawn FilterList > DataTable { height: auto; max-height: 7; }
    SectionPane.-drawn .pane--side { height: 1fr; max-height: 100%; layout: horizontal; }
    SectionPane.-drawn RoomSketch { display: block; }
    SectionPane.-drawn .pane--more { display: block; height: 1fr; width: 1fr; }

    SectionPane.-wide .pane--side { dock: right; width: 46; height: 1fr; max-height: 100%; layout: vertical;
                                    padding: 0 1 0 2; }
    SectionPane.-wide RoomSketch { width: 1fr; height: 10; margin: 0 0 1 0; }
    SectionPane.-wide .pane--more { display: block; height: 1fr; width: 1fr; }
    SectionPane.-wide .pane--sum { margin: 0 0 1 0; }
    SectionPane.-wide FilterList { dock: none; height: 1fr; max-height: 100%; margin: 0; }
    SectionPane.-wide FilterList > DataTable { height: 1fr; max-height: 100%; }
    """

    def __init__(self, section: Section) -> None:
        super().__init__(id=f"section-{section.value}")
        self.section = section
        self._entries: dict[str, Entry] = {}
        self._page: Page | None = None

    def compose(self) -> ComposeResult:
        part = PARTS[self.section]
        with Container(classes="pane--side"):
            yield SignedLines(classes="pane--sum")
            yield RoomSketch()
            with VerticalScroll(classes="pane--more", can_focus=False):
                yield SignedLines()
        yield FilterList(part.columns, noun=part.noun, empty=part.empty)

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.width >= _SIDE_BY_SIDE_FROM, "-wide")
        if self._page is not None:
            self._show_sum(self._page)

    @property
    def rows(self) -> FilterList:
        """The list."""
        return self.query_one(FilterList)

    @property
    def chosen(self) -> Entry | None:
        """The line the cursor stands on."""
        return self._entries.get(self.rows.chosen or "")

    @property
    def room(self) -> str:
        """The name of the room that the chosen line is about; empty where it is about none."""
        fact = self.chosen.fact if self.chosen else None
        if isinstance(fact, Room):
            return fact.name
        if isinstance(fact, WithdrawnReading):
            return fact.reading.room
        return fact.room if isinstance(fact, Reading | Smoothing | Laying | Opening | MorningCheck | Voiding) else ""

    def entry(self, key: str) -> Entry | None:
        """Return the line of a key."""
        return self._entries.get(key)

    def choose_new(self, known: Collection[str]) -> None:
        """Put the cursor on the first line that was not known before, if there is one."""
        new = next((key for key in self._entries if key not in known), None)
        if new is not None:
            self.rows.choose(new)
            self._show_chosen()

    def show(self, page: Page) -> None:
        """Show what the desk answered."""
        self._page = page
        entries = PARTS[self.section].entries(page)
        self._entries = {entry.key: entry for entry in entries}
        self._show_sum(page)
        self.rows.fill([entry.row for entry in entries])
        self._show_chosen()

    def _show_sum(self, page: Page) -> None:
        summary = PARTS[self.section].summary(page, wide=self.has_class("-wide"))
        self.query_one(".pane--sum", SignedLines).show(summary)
        self.set_class(bool(summary or self._entries), "-told")

    @on(FilterList.Chosen)
    def _moved(self, event: FilterList.Chosen) -> None:
        event.stop()
        self._show_chosen()

    def _show_chosen(self) -> None:
        entry = self.chosen or next(iter(self._entries.values()), None)
        more = self.query_one(".pane--more SignedLines", SignedLines)
        is_room = entry is not None and isinstance(entry.fact, Room)
        heading = (Said(words=entry.title, tone=Tone.HEAD),) if entry and not is_room else ()
        more.show((*heading, *entry.whole) if entry else ())
        winders = entry.fact.winders if entry is not None and isinstance(entry.fact, Flight) else ()
        self.set_class(is_room or bool(winders), "-drawn")
        if winders:
            self.query_one(RoomSketch).show(winders)
        if entry is not None and isinstance(entry.fact, Room):
            self.query_one(RoomSketch).show(
                entry.fact.outline,
                entry.fact.cut_outs,
                Finds(doorways=entry.fact.doorways, fixed_things=entry.fact.fixed_things),
            )
