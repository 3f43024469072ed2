"""The cut list of a lay: every piece in laying order, every offcut with the row it is kept for."""

from store.trade.layout.cutlist import Kind, cut_list
from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.search import search_lays
from store.trade.outline import rectangle

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
HEARTH = ((1500, 1000), (2900, 1000), (2900, 1900), (1500, 1900))
LAY = next(
    search_lays(
        Room(outline=rectangle(5200, 4090), cut_outs=(HEARTH,), gap_mm=10),
        board=OAK,
        rules=LayRules(stagger_mm=400),
    )
).lay
LIST = cut_list(LAY)


def test_every_piece_of_the_lay_is_on_the_list_once():
    cuts = [(row.row, cut.board, cut.length_mm) for row in LIST for cut in row.cuts]
    assert cuts == [(p.row, p.board, p.to_mm - p.from_mm) for p in LAY.pieces]


def test_a_row_starts_with_a_starter_and_ends_with_a_closer_unless_boards_fit_whole():
    for row in LIST:
        assert row.cuts[0].kind in (Kind.STARTER, Kind.WHOLE, Kind.INSERT)
        assert row.cuts[-1].kind in (Kind.CLOSER, Kind.WHOLE, Kind.INSERT)
    assert {cut.kind for row in LIST for cut in row.cuts} >= {Kind.STARTER, Kind.CLOSER, Kind.WHOLE}


def test_an_offcut_says_which_row_it_is_kept_for_and_turns_up_there():
    kept = {}
    for row in LIST:
        for cut in row.cuts:
            assert cut.from_offcut == (cut.board in kept)
            if cut.from_offcut:
                assert kept[cut.board] == row.row
            if cut.rest_to_row is not None:
                assert cut.rest_to_row >= row.row
            kept[cut.board] = cut.rest_to_row
    assert all(row is None for row in kept.values())


def test_rows_narrower_than_a_board_say_what_they_are_ripped_to():
    widths = [high - low for low, high in LAY.row_edges_mm]
    assert [row.ripped_to_mm for row in LIST] == [None if width == 190 else width for width in widths]
    assert any(row.ripped_to_mm for row in LIST)
