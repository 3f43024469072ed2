"""The keys of a job's folder; the footer offers the ones that help, help and the palette list them all."""

from textual.binding import Binding, BindingType

KEYS: list[BindingType] = [
    Binding("d", "do_next", "Do next", id="folder.next"),
    Binding("a", "add_room", "Add room", id="folder.room"),
    Binding("o", "order", "Order", id="folder.order"),
    Binding("i", "take_in", "Take in", id="folder.take_in"),
    Binding("c", "carry", "Carry", id="folder.carry"),
    Binding("r", "read", "Read", id="folder.read"),
    Binding("s", "smooth", "Levelled", id="folder.smooth"),
    Binding("l", "lay", "Lay", id="folder.lay"),
    Binding("k", "count", "Count", id="folder.count"),
    Binding("g", "sign", "Sign", id="folder.sign"),
    Binding("b", "snag", "Snag", id="folder.snag"),
    Binding("m", "note", "Note", id="folder.note"),
    Binding("e", "change", "Change", id="folder.change"),
    Binding("x", "take_back", "Take back", id="folder.take_back"),
    Binding("j", "change_job", "Job's card", id="folder.card"),
    Binding("left", "turn(-1)", "Section before", show=False, priority=True, id="folder.before"),
    Binding("right", "turn(1)", "Next section", show=False, priority=True, id="folder.after"),
    Binding("escape", "back", "Back", id="folder.back"),
]
