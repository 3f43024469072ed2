"""The lines at the top of a job's folder: whose floor it is, how far it is, what stands in the way, what is next."""

from textual.app import ComposeResult
from textual.containers import Vertical

from store.trade.verdict import Stage
from tui.widgets.safe import Line
from tui.widgets.signed_lines import Said, SignedLines
from tui.widgets.stage_bar import StageBar


class JobHead(Vertical):
    """A job in a few lines."""

    DEFAULT_CSS = """
    JobHead { height: auto; padding: 0 1; }
    JobHead Line { height: 1; text-wrap: nowrap; text-overflow: ellipsis; }
    JobHead .job-head--title { text-style: bold; color: $text-accent; }
    JobHead .job-head--who { color: $text-muted; }
    JobHead SignedLines { height: auto; text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def compose(self) -> ComposeResult:
        yield Line("", classes="job-head--title")
        yield Line("", classes="job-head--who")
        yield StageBar(Stage.SURVEY)
        yield SignedLines()

    def show(self, title: str, who: str, stage: Stage, said: tuple[Said, ...]) -> None:
        """Show a job: its title, whose it is, its stage, and the lines under it."""
        self.query_one(".job-head--title", Line).say(title)
        self.query_one(".job-head--who", Line).say(who)
        self.query_one(StageBar).show(stage)
        self.query_one(SignedLines).show(said)
