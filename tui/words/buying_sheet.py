"""The take-off of a job written out for the merchant: as text to read, and as rows of a spreadsheet."""

import textwrap
from collections.abc import Iterator

from store.trade.buying.nouns import Buying
from store.trade.facts import JobFacts
from tui.words.buying import (
    THINGS,
    cautions_of,
    say_gap,
    say_name,
    say_own,
    say_short_name,
    say_size,
    say_to_buy,
)
from tui.words.buying_how import say_how
from tui.words.units import UNITS
from tui.words.wording import clean

SHEET_HEADER = ("what", "product", "quantity", "unit", "holds", "worked out", "set by hand")


def sheet_rows(buying: Buying, facts: JobFacts) -> Iterator[tuple[str | int, ...]]:
    """Yield what is bought as rows of a spreadsheet."""
    for line in buying.lines:
        if line.to_buy:
            product = line.sheet or facts.products.get(line.product)
            yield (
                f"{THINGS[line.thing]}{f' {clean(product.name)}' if product else ''}",
                clean(line.product),
                line.to_buy,
                UNITS[line.thing],
                say_size(line),
                say_how(line),
                say_own(line),
            )


def merchant_text(buying: Buying, facts: JobFacts) -> str:
    """Return the list for the merchant: what is bought, how much, in which units; cautions and gaps at its foot."""
    job = facts.job
    lines = [f"To buy for {clean(job.ref)}, {clean(job.title)}", ""]
    bought = [line for line in buying.lines if line.to_buy]
    for line in bought:
        lines += _wrapped(f"[ ] {say_to_buy(line)}: {say_name(line, facts)}", "    ")
    if not bought:
        lines.append("Nothing.")
    lines += ["", "How it was worked out"]
    for line in buying.lines:
        own = f"; {say_own(line)}" if line.own else ""
        lines += _wrapped(f"{say_name(line, facts)}: {say_how(line)}{own}", "  ")
    told = [f"{say_short_name(line)}. {say}" for line in bought for say in cautions_of(line)]
    for title, sentences in (("Cautions", told), ("Not worked out", [say_gap(gap) for gap in buying.gaps])):
        if sentences:
            lines += ["", title, *(part for one in sentences for part in _wrapped(one, "  "))]
    return "\n".join(lines) + "\n"


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(text, 80, subsequent_indent=indent, break_on_hyphens=False) or [""]
