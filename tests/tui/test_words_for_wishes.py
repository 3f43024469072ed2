"""What a lay comes to by its wishes, and other ways to lay the same room, in words."""

from pathlib import Path

from store.trade.products import Board
from store.trade.ways import other_ways
from store.trade.wishes import usual_wishes
from tests.tui.whole_window import demo_desk
from tui.words.wishes import say_way_tried


def test_other_ways_are_each_one_wish_away(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        facts = desk.jobs.card("GQ-0149").facts
        boards = [one for one in desk.products.all() if isinstance(one, Board)]
    room = facts.room("Parlour")
    wishes = usual_wishes(room, facts.board("OAK-190"))
    ways = other_ways(room, wishes, boards)
    said = {say_way_tried(way) for way in ways}
    assert (ways[0].wishes, say_way_tried(ways[0])) == (wishes, "as it is now")
    assert len(said) == len(ways)
    assert said >= {"rows turned 90°", "first row at wall C", "joints 570 apart", "ASH-180"}
    assert all(way.wishes != wishes for way in ways[1:])
