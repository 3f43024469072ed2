"""The keys of a job's folder; the footer offers the ones that help, help and the palette list them all."""

from textual.binding import Binding, BindingType

KEYS: list[BindingType] = [
    Binding("d", "do_next", "Do next", tooltip="Do the first thing that is to be done on this job", id="folder.next"),
    Binding("a", "add_room", "Add room", tooltip="Measure a room and put it on file", id="folder.room"),
    Binding("o", "order", "Order", tooltip="Put an order to the supplier on file", id="folder.order"),
    Binding(
        "n", "to_buy", "To buy", tooltip="What the job needs bought, line by line; set or leave out", id="folder.buy"
    ),
    Binding("i", "take_in", "Take in", tooltip="Take in a delivery: batches, packs, damage", id="folder.take_in"),
    Binding("c", "carry", "Carry", tooltip="Carry packs: unit, free stock, rooms", id="folder.carry"),
    Binding("p", "plan", "Plan", tooltip="Plan the lay: every board of a room, the packs to order", id="folder.plan"),
    Binding("r", "read", "Read", tooltip="Put a reading on file: air, moisture, flatness", id="folder.read"),
    Binding("y", "logger", "Logger", tooltip="Take in what a data logger wrote of the air", id="folder.logger"),
    Binding(
        "h",
        "over_time",
        "Draw",
        tooltip="Draw how the readings of a room went over time, and say it in words",
        id="folder.over_time",
    ),
    Binding(
        "z",
        "withdrawn",
        "Taken back",
        tooltip="Show the readings that were taken back, and why; once more hides them",
        id="folder.withdrawn",
    ),
    Binding("t", "trims", "Trims", tooltip="Cut a room's skirting from the fewest sticks", id="folder.trims"),
    Binding("s", "smooth", "Levelled", tooltip="Say that a subfloor was levelled", id="folder.smooth"),
    Binding("v", "void", "Void", tooltip="Say what makes moisture readings void: a leak…", id="folder.void"),
    Binding("w", "look_round", "Morning list", tooltip="Go through a room before the first board", id="folder.morning"),
    Binding("l", "lay", "Lay", tooltip="Begin laying a room; finish it where it goes on", id="folder.lay"),
    Binding("k", "count", "Count", tooltip="Count what is left, and say where it goes", id="folder.count"),
    Binding("g", "sign", "Sign", tooltip="Have the floor signed for", id="folder.sign"),
    Binding("b", "snag", "Snag", tooltip="Put a snag on file", id="folder.snag"),
    Binding("m", "note", "Note", tooltip="Write a note for anybody who opens this job", id="folder.note"),
    Binding(
        "e",
        "edit",
        "Change",
        tooltip="Change a room; put a reading or snag right; say what of an order is confirmed, or what credit came",
        id="folder.change",
    ),
    Binding("x", "take_back", "Take back", tooltip="Take the chosen line back, and say why", id="folder.take_back"),
    Binding(
        "j",
        "edit_job",
        "Job's card",
        tooltip="Change the job's card: customer, address, promised day",
        id="folder.card",
    ),
    Binding(
        "left",
        "section_before",
        "Section before",
        show=False,
        priority=True,
        tooltip="Turn to the section before",
        id="folder.before",
    ),
    Binding(
        "right",
        "section_after",
        "Next section",
        show=False,
        priority=True,
        tooltip="Turn to the next section",
        id="folder.after",
    ),
    Binding("escape", "back", "Back", tooltip="Go back to where the folder was opened", id="folder.back"),
]
