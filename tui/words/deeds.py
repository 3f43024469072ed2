"""The sentences that tell somebody what to do next."""

from collections.abc import Callable
from datetime import datetime, tzinfo

from store.trade.verdict import DeedKind, NextDeed
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_instant, say_packs


def say_deed(deed: NextDeed, now: datetime, zone: tzinfo) -> str:
    """Return one thing to do as an order to oneself: “Carry 12 packs of OAK-190 into the Reading room”.

    Where acting cannot help before a moment still to come, that moment is said.
    """
    words = _DEEDS[deed.kind](deed)
    if deed.not_before is not None and deed.not_before > now:
        words += f", from {say_instant(deed.not_before, now, zone)}"
    return words


def _packs(deed: NextDeed) -> str:
    many = say_packs(deed.packs) if deed.packs is not None else "the packs"
    return f"{many} of {clean(deed.product)}" if deed.product else many


def _tubs(deed: NextDeed) -> str:
    many = counted(deed.packs, "tub") if deed.packs is not None else "tubs"
    return f"{many} of {_product(deed)}"


def _room(deed: NextDeed) -> str:
    return the_room(deed.room) if deed.room else "the room"


def _of_room(deed: NextDeed) -> str:
    return f" in {the_room(deed.room)}" if deed.room else ""


def _product(deed: NextDeed) -> str:
    return clean(deed.product) if deed.product else "the boards"


_DEEDS: dict[DeedKind, Callable[[NextDeed], str]] = {
    DeedKind.MEASURE: lambda d: f"Measure {the_room(d.room)}" if d.room else "Measure the rooms and put them on file",
    DeedKind.ORDER: lambda d: f"Order {_packs(d)}",
    DeedKind.CHASE: lambda d: f"Ask the supplier about {_packs(d)}",
    DeedKind.CHASE_GLUE: lambda d: f"Ask the supplier about {_tubs(d)}",
    DeedKind.TAKE_IN: lambda d: f"Take in {_packs(d)}",
    DeedKind.CARRY_IN: lambda d: f"Carry {_packs(d)} into {_room(d)}",
    DeedKind.READ_AIR: lambda d: f"Read the air in {_room(d)}",
    DeedKind.PUT_AIR_RIGHT: lambda d: f"Put the air in {_room(d)} right, then read it again",
    DeedKind.TEST_DAMP: lambda d: f"Test the subfloor in {_room(d)} for moisture",
    DeedKind.CHECK_FLAT: lambda d: f"Lay the straightedge on the subfloor in {_room(d)}",
    DeedKind.LEVEL: lambda d: f"Level the subfloor in {_room(d)}, then check it again",
    DeedKind.READ_BOARDS: lambda d: f"Read the moisture of {_product(d)}{_of_room(d)}",
    DeedKind.SAMPLE_OLD_FLOOR: lambda d: f"Leave the old floor in {_room(d)} alone and have a sample tested",
    DeedKind.CALL_LICENSED: lambda d: f"Have the asbestos in {_room(d)} taken out by those licensed for it",
    DeedKind.PROVE_HEATING: lambda d: f"Have the first heating in {_room(d)} proved, and note the day",
    DeedKind.TURN_HEATING_DOWN: lambda d: f"Have the heating in {_room(d)} off or held down, and note since when",
    DeedKind.ORDER_GLUE: lambda d: f"Order {_tubs(d)}",
    DeedKind.TRAIN: lambda d: f"Note whose training for {_product(d)} is in force",
    DeedKind.LAY: lambda d: f"Lay the floor in {_room(d)}",
    DeedKind.FINISH_LAYING: lambda d: f"Finish laying {_room(d)}",
    DeedKind.NAME_GLUE: lambda d: f"Say which glue goes under {_room(d)}",
    DeedKind.COUNT: lambda d: f"Count what is left of {_product(d)}",
    DeedKind.SIGN: lambda d: "Hand the floor over and have it signed",
    DeedKind.MEND: lambda d: f"Put the snag right{_of_room(d)}",
}
