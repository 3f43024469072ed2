"""What closed jobs taught, as plain text and in JSON; every key is stable once released."""

from datetime import datetime

from store.trade.firm import Firm
from store.trade.taught.hints import Hint
from store.trade.taught.report import GlueLine, LossLine, Report, WorthLine
from tui.command.answers import Json, instant
from tui.command.plain import section, wrapped
from tui.words.taught import BYS, NOTHING_YET, bar, say_glue_whole, say_hint, say_loss, say_of, say_report, say_worth
from tui.words.wording import clean, say_now

_BAR = 24
_MOST_TOLD = 20


def taught_answer(report: Report, firm: Firm, now: datetime) -> Json:
    """Return the answer of ``layday taught``."""
    return {
        "at": instant(now, firm),
        "floors": report.floors,
        "left_out": report.left_out,
        "cut_loss": [_loss(line) for line in report.losses],
        "glue": [_glue(line) for line in report.glues],
        "worth": [_worth(line, firm) for line in report.worths],
    }


def hints_answer(hints: tuple[Hint, ...]) -> Json:
    """Return the key ``taught`` of the answer of ``layday job``: what closed jobs say to a floor not wholly ordered."""
    return {
        "taught": [
            {
                "pattern": hint.pattern.value,
                "width_mm": hint.width_mm,
                "shape": hint.shape.value if hint.shape else None,
                "floors": hint.line.floors,
                "real_percent": _rounded(hint.line.real_percent),
                "allowed_percent": _rounded(hint.line.allowed_percent),
                "enough_for_9_of_10_percent": _rounded(hint.line.enough_percent),
                "suggested_percent": _rounded(hint.line.suggested_percent),
                "say": say_hint(hint),
            }
            for hint in hints
        ]
    }


def _loss(line: LossLine) -> Json:
    return {
        "by": line.by.value,
        "of": say_of(line) if line.of is None else line.of or None,
        "floors": line.floors,
        "planned": line.planned,
        "laid_m2": line.laid_mm2 / 1_000_000,
        "allowed_percent": _rounded(line.allowed_percent),
        "real_percent": _rounded(line.real_percent),
        "enough_for_9_of_10_percent": _rounded(line.enough_percent),
        "expected_percent": _rounded(line.expected_percent),
        "common_practice_percent": _rounded(line.trade_percent),
        "suggested_percent": _rounded(line.suggested_percent),
        "jobs": list(line.refs),
    }


def _glue(line: GlueLine) -> Json:
    return {
        "product": line.product,
        "notch": line.notch or None,
        "base": line.base.value if line.base else None,
        "floors": line.floors,
        "glued_m2": line.glued_mm2 / 1_000_000,
        "sheet_g_per_m2": line.sheet_g_per_m2,
        "real_g_per_m2": _rounded(line.real_g_per_m2),
        "enough_for_9_of_10_g_per_m2": _rounded(line.enough_g_per_m2),
        "jobs": list(line.refs),
    }


def _worth(line: WorthLine, firm: Firm) -> Json:
    return {
        "ref": line.ref,
        "title": line.title,
        "closed_at": instant(line.closed_at, firm),
        "ordered_minor": line.ordered_minor,
        "used_minor": line.used_minor,
        "wasted_minor": line.wasted_minor,
        "left_minor": line.left_minor,
        "adds_up": line.adds_up,
        "no_price": list(line.unpriced),
    }


def _rounded(value: float) -> float:
    return round(value, 3)


def taught_text(report: Report, firm: Firm, now: datetime) -> str:
    """Return what closed jobs taught, as plain text."""
    lines = [f"{clean(firm.name)}, {say_now(now, firm.zone)}", ""]
    if not report.worths:
        for part in NOTHING_YET.split("\n\n"):
            lines += wrapped(part, "", "")
        return "\n".join(lines) + "\n"
    lines += wrapped(say_report(report), "", "")
    lines += _losses(report)
    glues = (sentence for line in report.glues for sentence in _indented(say_glue_whole(line)[:2]))
    lines += section("Glue", glues)
    worths = (
        sentence.replace(f"{clean(firm.currency)} ", f"{clean(firm.currency)}\N{NO-BREAK SPACE}")
        for line in report.worths[:_MOST_TOLD]
        for sentence in _indented(say_worth(line, firm.currency)[:2])
    )
    lines += section("Worth of the material by job, at what was paid", worths)
    if len(report.worths) > _MOST_TOLD:
        lines.append(f"  The latest {_MOST_TOLD} of {len(report.worths):,} jobs; --json tells them all.")
    return "\n".join(lines) + "\n"


def _losses(report: Report) -> list[str]:
    """Cut loss as a table: what was said, what was taken, what would have been enough, and a bar."""
    if not report.losses:
        return []
    lines = ["", "Cut loss: allowed, real, enough for 9 of 10, suggested; floors behind it"]
    top = max(max(line.real_percent, line.allowed_percent) for line in report.losses)
    before = None
    for line in report.losses:
        if line.by is not before:
            lines.append(f"  {BYS[line.by]}")
            before = line.by
        figures = (line.allowed_percent, line.real_percent, line.enough_percent, line.suggested_percent)
        told = "".join(f"{say_loss(one):>8}" for one in figures)
        lines += wrapped(say_of(line), "    ", "    ")
        drawn = bar(line.real_percent, top, _BAR, line.allowed_percent)
        lines.append(f"      {told}{line.floors:>6,}  {drawn}".rstrip())
    lines.append("  The bar is the real loss, its stroke what was allowed.")
    return lines


def _indented(sentences: tuple[str, ...]) -> tuple[str, ...]:
    first, *others = sentences
    return (first, *(f"  {one}" for one in others))
