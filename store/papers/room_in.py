"""The shape of one room read from a file, for a sum that needs no job."""

from store.papers.job_in import ROOM_KEYS, doorway, fixed_thing
from store.papers.json_text import parsed
from store.papers.rings import ring
from store.papers.spot import Spot, day, number, opened, text, truth, whole, word_of
from store.trade.jobs import Method, OldFloor, Sample, Subfloor
from store.trade.layout.lay import Room
from store.trade.outline import faults_in_outline
from store.trade.surveyed import Finds, Pattern, faults_in_doorways, faults_in_fixed_things


def read_room(raw: bytes) -> tuple[Room, Finds]:
    """Return the shape of a room that is written as in a job folder, and the doorways and fixed things in it.

    Only its outline must be there. What else a room holds is read too, so that a slip in it is told, but the codes
    of its board and glue are not looked up.

    Args:
        raw: the file, UTF-8 JSON.

    Raises:
        Refused: the first thing found wrong, in one sentence that names its place.
    """
    keys = opened(Spot(value=parsed(raw), place=""), ROOM_KEYS)
    for key in ("name", "board", "glue"):
        keys.may(key, text, "")
    keys.may("subfloor", word_of(Subfloor), None)
    keys.may("method", word_of(Method), None)
    keys.may("heated", truth, False)
    keys.may("cut_loss_percent", number, 0.0)
    keys.may("pattern", word_of(Pattern), None)
    keys.may("border_mm", whole, 0)
    finds = Finds(doorways=keys.each("doorways", doorway), fixed_things=keys.each("fixed_things", fixed_thing))
    for key in ("heating_begun_on", "heating_proved_on", "heating_off_from"):
        keys.may(key, day, None)
    keys.may("old_floor", word_of(OldFloor), None)
    keys.may("old_floor_sample", word_of(Sample), None)
    room = Room(
        outline=keys.need("outline", ring),
        cut_outs=keys.each("cut_outs", ring),
        gap_mm=keys.may("gap_mm", whole, 10),
        direction_deg=keys.may("direction_deg", number, None),
        start=keys.may("start", whole, None),
        line_mm=keys.may("line_mm", whole, None),
    )
    faults = faults_in_outline(room.outline, room.cut_outs)
    if faults:
        place = "cut_outs" if not faults_in_outline(room.outline) else "outline"
        keys.spot(place).refuse(faults[0])
    for place, amiss in (
        ("doorways", faults_in_doorways(room.outline, finds.doorways)),
        ("fixed_things", faults_in_fixed_things(room.outline, finds.fixed_things)),
    ):
        for say in amiss:
            keys.spot(place).refuse(say)
    return room, finds
