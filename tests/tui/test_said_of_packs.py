"""What is told once packs are somewhere is true of the room they are in."""

from dataclasses import replace
from pathlib import Path

from store.trade.events import UNIT, MoveDraft, in_room
from tests.tui.firm_window import demo_desk
from tests.tui.shop_window import CLOCK, NOW
from tui.errands.said import say_carried


def test_packs_carried_to_a_room_of_another_board_are_not_called_ready(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        card = desk.jobs.card("GQ-0149")
    parlour, study = card.facts.rooms
    facts = replace(card.facts, rooms=(parlour, replace(study, board="ASH-180")))
    move = MoveDraft(at=NOW, product="OAK-190", batch="K41", packs=3, source=UNIT, target=in_room("Study"))
    told = say_carried(move, replace(card, facts=facts), CLOCK)
    assert told == "3 packs of OAK-190, batch K41, are in Study; that room is laid with ASH-180, not OAK-190."
