"""One job at a glance: who it is for, how far it is, what to do, and what stands in its way."""

from textual import events
from textual.app import ComposeResult
from textual.containers import Container, Vertical, VerticalScroll

from store.trade.verdict import Stage
from tui.widgets.deed_list import DeedList
from tui.widgets.marked_lines import Marked, MarkedLines
from tui.widgets.safe import Line
from tui.widgets.stage_bar import StageBar
from tui.words.deeds import say_deed
from tui.words.sheet import Glance

TWO_COLUMNS_FROM = 100


class JobSheet(VerticalScroll):
    """A job's state in one pane; in wide windows what to do and what stands in the way lie side by side."""

    DEFAULT_CSS = """
    JobSheet { height: 1fr; padding: 0 1; background: $background; scrollbar-size-vertical: 1; }
    JobSheet .sheet--title { text-style: bold; color: $text-accent; }
    JobSheet .sheet--who { color: $text-muted; }
    JobSheet .sheet--columns { height: auto; layout: vertical; }
    JobSheet .sheet--column { height: auto; width: 1fr; }
    JobSheet.-wide .sheet--columns { layout: horizontal; margin: 1 0 0 0; }
    JobSheet.-wide .sheet--column { padding: 0 2 0 0; }
    JobSheet .sheet--heading { display: none; color: $text-muted; }
    JobSheet.-wide .sheet--heading { display: block; }
    """

    def compose(self) -> ComposeResult:
        yield MarkedLines(classes="sheet--title")
        yield MarkedLines(classes="sheet--who")
        yield StageBar(Stage.SURVEY)
        yield MarkedLines(classes="sheet--verdict")
        with Container(classes="sheet--columns"):
            with Vertical(classes="sheet--column"):
                yield Line("To do", classes="sheet--heading")
                yield DeedList()
                yield Line("Nothing to do now.", classes="sheet--idle muted")
            with Vertical(classes="sheet--column"):
                yield Line("", classes="sheet--heading -way")
                yield MarkedLines(classes="sheet--way")

    @property
    def deeds(self) -> DeedList:
        """What there is to do, to be focused."""
        return self.query_one(DeedList)

    def show(self, glance: Glance) -> None:
        """Show a job."""
        standing = glance.card.standing
        self.query_one(".sheet--title", MarkedLines).show([Marked(say=glance.title())])
        self.query_one(".sheet--who", MarkedLines).show([Marked(say=glance.who())])
        self.query_one(StageBar).show(standing.stage)
        self.query_one(".sheet--verdict", MarkedLines).show([glance.verdict()])
        self.deeds.show(standing.to_do, [say_deed(one, glance.now, glance.firm.zone) for one in standing.to_do])
        self.query_one(".sheet--idle").display = not standing.to_do
        self.query_one(".sheet--heading.-way", Line).say("Nothing in the way" if glance.is_clear() else "In the way")
        self.query_one(".sheet--way", MarkedLines).show(glance.way())
        self.can_focus = not standing.to_do

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.width >= TWO_COLUMNS_FROM, "-wide")
