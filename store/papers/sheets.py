"""A table for a spreadsheet: comma-separated values (RFC 4180) in which no text can pass for a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

Cell = str | int | float | None

# The first characters that make a spreadsheet take a cell for a formula or a command: OWASP, "CSV Injection",
# and the full-width forms that some programs fold into them.
_TRIGGERS = tuple("=+-@\t\r\n|%＝＋－＠｜％\0")
_PASSED_OVER = " \N{NO-BREAK SPACE}\N{ZERO WIDTH NO-BREAK SPACE}"


def write_sheet(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    r"""Return a table as UTF-8, records ending in CR LF, every text in quotes and every number bare.

    A text that begins like a formula gets an apostrophe before it, as spreadsheets mark text; numbers are
    left alone, so that −12.5 stays a number. None is an empty cell.

    Args:
        header: the columns' names.
        rows: one sequence for each record, as long as the header.

    Raises:
        ValueError: a row is not as long as the header.

    >>> write_sheet(("batch", "packs"), [("=1+2", -3)])
    b'"batch","packs"\r\n"\'=1+2",-3\r\n'
    """
    sheet = io.StringIO(newline="")
    writer = csv.writer(sheet, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow([_harmless(name) for name in header])
    for row in rows:
        writer.writerow([_harmless(cell) for _, cell in zip(header, row, strict=True)])
    return sheet.getvalue().encode()


def _harmless(cell: Cell) -> Cell:
    if isinstance(cell, str) and cell.lstrip(_PASSED_OVER).startswith(_TRIGGERS):
        return f"'{cell}"
    return cell
