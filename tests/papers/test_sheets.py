"""Tables for a spreadsheet: what is written is what is read, and no text is ever a formula."""

import csv
import io

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from store.papers.sheets import write_sheet

# OWASP, "CSV Injection": = + - @, tab and carriage return; line feed and the full-width forms beside them.
TRIGGERS = "=+-@\t\r\n|%＝＋－＠"


def read(raw: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(raw.decode(), newline=""), strict=True))


def test_records_end_in_cr_lf_and_quotes_are_doubled() -> None:
    # RFC 4180, section 2, rules 1, 5, 6 and 7.
    raw = write_sheet(("batch", "note"), [("K41", 'said "dry", twice'), ("K42", "two\r\nlines")])
    assert raw == b'"batch","note"\r\n"K41","said ""dry"", twice"\r\n"K42","two\r\nlines"\r\n'


def test_numbers_stay_numbers_below_nought_too() -> None:
    assert write_sheet(("a", "b", "c"), [(-3, -12.5, 0)]) == b'"a","b","c"\r\n-3,-12.5,0\r\n'


@pytest.mark.parametrize("trigger", TRIGGERS)
def test_a_text_that_begins_like_a_formula_is_marked_as_text(trigger: str) -> None:
    (header, row) = read(write_sheet((f"{trigger}1",), [(f"{trigger}1+2",)]))
    assert (header, row) == ([f"'{trigger}1"], [f"'{trigger}1+2"])


def test_spaces_before_a_formula_do_not_hide_it() -> None:
    assert read(write_sheet(("a", "b"), [(" =1+2", "\xa0\ufeff@SUM(1)")]))[1] == [
        "' =1+2",
        "'\xa0\ufeff@SUM(1)",
    ]


def test_an_empty_cell_is_empty() -> None:
    assert read(write_sheet(("a", "b", "c"), [(None, "", 1)]))[1] == ["", "", "1"]


def test_a_row_of_another_length_is_a_mistake() -> None:
    with pytest.raises(ValueError, match="shorter"):
        write_sheet(("a", "b"), [("x",)])


def test_the_same_rows_are_the_same_bytes_from_any_iterable() -> None:
    assert write_sheet(["a"], iter([["é"]])) == write_sheet(("a",), (("é",),))


cells = st.one_of(
    st.text(st.characters(exclude_categories=["Cs"])),
    st.from_regex(r"[=+\-@;,\t\"' ]{1,4}[a-z0-9]*"),
    st.integers(),
)


@given(st.lists(st.tuples(cells, cells), max_size=20))
@example([('=1+2";=1+2', "=1+2'\" ;,=1+2")])
def test_no_text_cell_ever_begins_like_a_formula_and_none_is_otherwise_altered(
    rows: list[tuple[str | int, str | int]],
) -> None:
    back = read(write_sheet(("a", "b"), rows))[1:]
    assert len(back) == len(rows)
    for written, row in zip(back, rows, strict=True):
        for cell, given_cell in zip(written, row, strict=True):
            if isinstance(given_cell, int):
                assert cell == str(given_cell)
            else:
                assert not cell.startswith(tuple(TRIGGERS))
                assert cell in {given_cell, f"'{given_cell}"}
