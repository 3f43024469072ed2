"""Whether what is left on site will last, in JSON; every key is stable once released."""

from store.trade.lasting import BoardsToGo, GlueToGo, Lasting
from tui.command.answers import Json
from tui.words.lasting import say_boards_to_go, say_glue_to_go


def lasting_answer(lasting: Lasting) -> Json:
    """Return the key ``lasting`` of the answer of ``layday job``."""
    boards = [_boards(one) for one in lasting.boards]
    return {"lasting": {"boards": boards, "glue": [_glue(one) for one in lasting.glues]}}


def _boards(one: BoardsToGo) -> Json:
    return {
        "product": one.product,
        "to_go": one.to_go,
        "rooms": [
            {"room": room.room, "floor_m2": room.floor_mm2 / 1_000_000, "rows": room.rows, "of_rows": room.of_rows}
            for room in one.rooms
        ],
        "left": {"packs": one.packs, "boards": one.boards},
        "short": one.short,
        "in_unit_packs": one.in_unit,
        "owed_packs": one.owed,
        "opened_packs": one.opened_packs,
        "opened_on_days": one.opened_days,
        "say": say_boards_to_go(one),
    }


def _glue(one: GlueToGo) -> Json:
    return {
        "product": one.product,
        "floor_m2": one.floor_mm2 / 1_000_000,
        "g_per_m2": round(one.g_per_m2, 1),
        "so_far": one.so_far,
        "to_go_tubs": round(one.to_go, 3),
        "left_tubs": round(one.tubs, 3),
        "too_old_tubs": round(one.too_old, 3),
        "short": one.short,
        "say": say_glue_to_go(one),
    }
