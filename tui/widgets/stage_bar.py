"""One line that shows how far a job is, from survey to handover, in words and signs."""

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from store.trade.verdict import Stage
from tui.words.vocabulary import STAGES

_STEPS = tuple(stage for stage in Stage if stage is not Stage.CLOSED)
_OVER, _NOW, _TO_COME = "✓", "●", "○"


def stage_parts(stage: Stage, width: int) -> list[tuple[str, bool]]:
    """Return the parts of the line and whether each is the present stage; 34 cells are always enough.

    >>> "".join(words for words, _ in stage_parts(Stage.CURE, 40))
    '✓✓✓✓ ● cure ○  step 5 of 6'
    """
    signs = [_OVER if step.step < stage.step else _NOW if step is stage else _TO_COME for step in _STEPS]
    whole = [f"{sign} {STAGES[step]}" for sign, step in zip(signs, _STEPS, strict=True)]
    for between in (" ── ", "  "):
        if cell_len(between.join(whole)) <= width:
            parts: list[tuple[str, bool]] = []
            for words, step in zip(whole, _STEPS, strict=True):
                parts += [(between, False)] if parts else []
                parts.append((words, step is stage))
            return parts
    if stage is Stage.CLOSED:
        return [(f"{_OVER * len(_STEPS)} {STAGES[stage]}", True)]
    before, after = "".join(signs[: stage.step]), "".join(signs[stage.step + 1 :])
    lead = f"{before} " if before else ""
    tail = f" {after}" if after else ""
    return [
        (lead, False),
        (whole[stage.step], True),
        (f"{tail}  step {stage.step + 1} of {len(_STEPS)}", False),
    ]


class StageBar(Widget):
    """The stages of a job in one line, the present one marked."""

    DEFAULT_CSS = """
    StageBar { height: 1; width: 1fr; color: $text-muted; }
    StageBar .stage-bar--now { color: $text-accent; text-style: bold; }
    """
    COMPONENT_CLASSES = {"stage-bar--now"}  # noqa: RUF012 - Textual reads it from the class

    def __init__(self, stage: Stage, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._stage = stage

    def show(self, stage: Stage) -> None:
        """Show another stage."""
        self._stage = stage
        self.refresh()

    def render(self) -> Content:
        now = self.get_visual_style("stage-bar--now", partial=True)
        parts = stage_parts(self._stage, self.size.width)
        return Content.assemble(*((words, now) if present else words for words, present in parts))
