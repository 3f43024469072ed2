"""A job card written on paper is entered key by key, as the job went on, until the job is closed."""

from pathlib import Path

from textual.pilot import Pilot

from store.trade.readings import KINDS
from tests.tui.firm_window import MovingClock, new_desk, press, seen, set_out, told, window_on
from tests.tui.shop_window import answer_all, picture
from tui.doors import OpenJob
from tui.errands.errands import Errands
from tui.view import View

PAPER_CARD = """
GANNET QUAY FLOORS                                                     JOB CARD
Ref       L-0001          Oak floor in the chart room
For       Oren Vale, 070 55 02 01, Rope Walk 9, Gannet Quay
Promised  Fri 18 Dec
Mon 23 Nov  Chart room, 5200 x 4100, OSB. OAK-190 glued with MS-15.
            Subfloor 9,5 %. Air 19 and 48. Edge 2 m: gap 5 mm, too much.
            Ordered at Skerry: 12 packs OAK-190, 2 tubs MS-15, for Fri 27 Nov.
Tue 24 Nov  11:00 levelled, two bags. 15:00 gap 2 mm.
Fri 27 Nov  9:30 came: 7 packs K41, one crushed; 2 tubs. In the chart room.
            9:40 air 20,5 and 52.
Mon 30 Nov  10:00 rest came, 5 packs K42. Into the unit, no room on site.
Tue  1 Dec  8:15 carried the 5 from the unit. 8:20 air 20,8 and 49.
Tue  8 Dec  8:25 subfloor again, 9,2 %. 8:30 began, opened 6 of K41, 5 of K42.
Wed  9 Dec  15:40 done, all of it, 2 tubs.
Mon 14 Dec  9:00 left: K41 nothing, K42 two boards, to the customer.
            9:20 signed, Oren Vale.
"""


class Card:
    """Enters the paper card, a step at a time, as somebody would at the end of each day."""

    def __init__(self, pilot: Pilot[None], clock: MovingClock) -> None:
        self.pilot, self.clock = pilot, clock

    async def at(self, day: int, hour: int, minute: int = 0, *, month: int = 11) -> None:
        """Move the clock on, and let the screen ask again."""
        self.clock.show(day, hour, minute, month=month)
        screen = self.pilot.app.screen
        assert isinstance(screen, View)
        screen.ask_again()
        await self.pilot.pause()

    async def enter(self, key: str, *answers: str | tuple[str, ...] | None) -> None:
        """Press the key of a deed and answer its form."""
        await press(self.pilot, key)
        await answer_all(self.pilot, *answers)
        await self.pilot.pause()

    async def says(self, *words: str) -> None:
        """The screen says these words, once the toasts over it are gone."""
        self.pilot.app.clear_notifications()
        await self.pilot.pause()
        for one in words:
            assert one in seen(self.pilot), f"“{one}” is not to be seen in\n{picture(self.pilot.app)}"

    def told(self, words: str) -> None:
        """This was told in a toast since the screen was looked at last."""
        assert words in told(self.pilot), f"“{words}” was not told, but\n{told(self.pilot)}"


async def test_a_paper_card_is_entered_from_taking_on_to_closed(tmp_path: Path) -> None:
    clock = MovingClock()
    clock.show(23, 10)
    with new_desk(tmp_path, clock) as desk:
        async with window_on(desk) as pilot:
            card = Card(pilot, clock)
            await take_on(card)
            await survey(card)
            await order(card)
            await level(card)
            await take_in(card)
            await carry(card)
            await lay(card)
            await close(card)


def of_kind(kind: str) -> tuple[str, ...]:
    """The keys that choose a kind of reading."""
    return ("space", *("down" for _ in range(list(KINDS).index(kind))), "enter")


async def take_on(card: Card) -> None:
    pilot = card.pilot
    screen = pilot.app.screen
    assert isinstance(screen, View)
    await set_out(pilot, Errands(screen).take_on())
    await answer_all(
        pilot,
        "L-0001",
        "Oak floor in the chart room",
        "Oren Vale",
        "070 55 02 01",
        "",
        "Rope Walk 9, Gannet Quay",
        "18/12",
    )
    card.told("Job L-0001, Oak floor in the chart room, is on file.")
    pilot.app.post_message(OpenJob("L-0001"))
    await pilot.pause()
    await pilot.pause()
    await card.says("L-0001 Oak floor in the chart room", "Oren Vale", "promised for Fri 18 Dec", "● survey")
    await card.says("No room is measured yet", "a adds one")


async def survey(card: Card) -> None:
    osb = ("space", "down", "down", "down", "enter")
    await card.enter("a", "Chart room", "5200 x 4100", "", *(None,) * 5, osb, *(None,) * 9)
    card.told("The Chart room, 21.32 m², is on file; the job needs 11 packs of OAK-190 in all.")
    await card.says("Chart room ▲ to do 21.32 m²", "Next: Order 11 packs of OAK-190")
    await card.enter("r", of_kind("timber_subfloor"), None, "23/11 9:40", "9,5", *[None] * 4)
    card.told("Moisture of the timber subfloor 9.5 %, in the Chart room: good (at most 12 %).")
    await card.enter("r", of_kind("straightedge"), None, "9:45", None, "5", *[None] * 4)
    card.told("5 mm under 2 m, in the Chart room: not good (at most 3 mm).")
    await card.enter("r", None, None, "9:50", "19", "48", *[None] * 4)
    await card.says("gap 5 mm in 2 m ✗ not good (≤ 3 mm)", "subfloor 9.5 % ✓ good (≤ 12 %)")


async def order(card: Card) -> None:
    await card.at(23, 11)
    await press(card.pilot, "o")
    await card.says("Put an order on file", "OAK-190")
    await answer_all(card.pilot, "Skerry Timber Yard", None, "27/11", None, "12", None, None, None, None, None)
    await card.pilot.pause()
    card.told("12 packs of OAK-190 and 2 tubs of MS-15 are on order, due Fri 27 Nov.")
    await card.says("● delivery")
    await card.says("OAK-190 11 12 0 0", "◐ due Fri 27 Nov")


async def level(card: Card) -> None:
    await card.at(24, 16)
    await card.enter("d", None, "24/11 11:00", "two bags")
    card.told("The subfloor in the Chart room is levelled. Check it again with the straightedge (r).")
    await card.enter("d", None, None, "15:00", None, "2", *[None] * 4)
    card.told("2 mm under 2 m, in the Chart room: good (at most 3 mm).")
    await card.says("◐ Ready from Fri 4 Dec 08:00.")


async def take_in(card: Card) -> None:
    await card.at(27, 10)
    await card.enter("i", "9:30", None, None, "K41", "7", "1", None, None, None, None, "")
    card.told(
        "7 packs of OAK-190, batch K41 (1 damaged) and 2 tubs of MS-15 are in the Chart room; "
        "ready Fri 4 Dec 09:30 if the air stays right. Read the air there now."
    )
    await card.says("▲ 1 damaged, Chart room", "● delivery")
    await card.enter("d", None, None, "9:40", "20,5", "52", *[None] * 4)
    card.told("Room air 20.5 °C and 52 %, in the Chart room: good (18–24 °C and 40–65 %).")
    await card.at(30, 11)
    unit = ("space", "down", "enter")
    await card.enter("i", "10:00", unit, None, "K42", None, None, "")
    card.told(
        "5 packs of OAK-190, batch K42, are in the unit; their wait begins once they are carried into a room (c)."
    )
    await card.says("Next: Carry 5 packs of OAK-190 into the Chart room")


async def carry(card: Card) -> None:
    await card.at(1, 9, month=12)
    await card.enter("d", None, None, None, "8:15")
    card.told("5 packs of OAK-190, batch K42, are in the Chart room; ready Tue 8 Dec 08:15 if the air stays right.")
    await card.says("K42 unit → Chart room", "OAK-190 11 12 0 11")
    await card.enter("r", None, None, "8:20", "20,8", "49", *[None] * 4)
    await card.says("● acclimatising", "at best Tue 8 Dec 08:15", "Next: Test the subfloor")


async def lay(card: Card) -> None:
    await card.at(8, 8, 40, month=12)
    await card.says("▲ Something to do first", "Next: Test the subfloor in the Chart room for moisture")
    await card.enter("d", None, None, "8:25", "9,2", *[None] * 4)
    await card.says("✓ Ready to lay now.", "Next: Lay the floor in the Chart room")
    # The morning list comes first: room, moment, air, base, three things looked at, who, a note.
    await card.enter("d", None, "8:20", "20", "50", "17", ("space",), ("space",), ("space",), None, "")
    card.told("The morning list of the Chart room is on file. All is right.")
    await answer_all(card.pilot, None, "8:30", "6", "5")
    card.told(
        "Laying has begun in the Chart room; 6 packs of OAK-190, batch K41 and 5 packs of OAK-190, batch K42 opened."
    )
    await card.says("● install", "Next: Finish laying the Chart room")
    await card.at(9, 16, month=12)
    await card.enter("l", "15:40", None, "2")
    card.told("The Chart room is laid. All laid: walk on Thu 10 Dec 15:40, full load Sat 12 Dec 15:40,")
    await card.says("● cure", "Handover from Mon 14 Dec 08:00")


async def close(card: Card) -> None:
    await card.at(14, 9, 30, month=12)
    await card.says("● handover", "Next: Count what is left of OAK-190")
    await card.enter("k", "9:00", "0", "0", None, "0", "2", None, None, None, None)
    card.told("The leftovers are counted, and every board is accounted for. The job's stage now: handover.")
    await card.enter("g", None, "9:20")
    card.told("Oren Vale has signed for the floor. The job is closed, and out of the day's list.")
    await card.says(
        "✓ Closed: cured, signed for and counted.", "OAK-190 12 packs ordered", "= used 10 packs and 4 boards"
    )
    await card.says("− came damaged 1 pack", "+ to the customer 2 boards", "✓ unaccounted for nothing")
    await card.says("✓ cut loss 8.4 %, 10 % allowed")
