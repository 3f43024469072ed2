"""The skirting of a room of the folder, ready to be cut from sticks."""

from functools import partial

from store.trade.skirting import skirting
from tui.dialogs.skirting_cut import SkirtingCut
from tui.folder.page import Page


def skirting_of(page: Page | None, name: str) -> SkirtingCut | None:
    """Return the dialog for the room of this name, else for the first one; None where no room is on file."""
    rooms = page.facts.rooms if page else ()
    room = next((one for one in rooms if one.name == name), next(iter(rooms), None))
    if room is None:
        return None
    return SkirtingCut(
        room.name, partial(skirting, outline=room.outline, cut_outs=room.cut_outs, doorways=room.doorways)
    )
