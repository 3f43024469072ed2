"""Errands about floors that are counted and not drawn: patterns block by block, and boards of any length."""

from dataclasses import replace

from store.trade.jobs import Room
from store.trade.layout.as_they_come import AnyLengths, AsTheyCome, as_they_come
from store.trade.layout.lay import LayRules
from store.trade.layout.take_off import TakeOff
from store.trade.needs import take_off_of
from store.trade.plans import floor_in, size_of
from store.trade.products import Board
from store.trade.surveyed import Pattern
from tui.dialogs.facts_screen import FactsScreen
from tui.errands.subject import Subject
from tui.words.vocabulary import PATTERNS
from tui.words.wording import clean, counted, figure, say_packs


class TakeOffErrands(Subject):
    """What is counted for a room instead of a lay."""

    def is_for(self, ref: str, room_name: str) -> bool:
        """Whether a room's floor is counted and not drawn: a pattern, or boards of any length."""
        room, board = self._room_and_board(ref, room_name)
        return room.pattern is not Pattern.STRAIGHT or board.shortest_mm is not None

    async def show(self, ref: str, room_name: str) -> bool:
        """Show what the floor takes; for boards of any length, offer to keep the loss for the room."""
        room, board = self._room_and_board(ref, room_name)
        if room.pattern is not Pattern.STRAIGHT:
            counted_off = take_off_of(room, board)
            title = f"{clean(room.name)}: {PATTERNS[room.pattern]} of {clean(board.code)}"
            await self._view.app.push_screen_wait(FactsScreen(title, facts_of_pattern(counted_off, board, room)))
            return False
        return await self._keep_loss(ref, room, board)

    async def _keep_loss(self, ref: str, room: Room, board: Board) -> bool:
        boards = AnyLengths(
            shortest_mm=board.shortest_mm or 1,
            longest_mm=board.length_mm,
            width_mm=board.width_mm,
            pack_run_mm=board.run_mm,
        )
        taken = as_they_come(floor_in(room), boards=boards, rules=LayRules.usual_for(size_of(board)))
        loss = round(taken.high_loss_percent, 1)
        sure = await self.sure(
            f"Keep a cut loss of {figure(loss, 1)} % for {clean(room.name)}?",
            yes="Keep it",
            no="Leave it",
            detail=say_any_length(taken, board, room),
        )
        if not sure:
            return False
        self.desk.jobs.change_room(ref, room, replace(room, cut_loss_percent=loss))
        return self.done(f"{clean(room.name)} is counted with {figure(loss, 1)} % of cut loss.")

    def _room_and_board(self, ref: str, room_name: str) -> tuple[Room, Board]:
        facts = self.card(ref).facts
        room = facts.room(room_name)
        return room, facts.board(room.board)


def facts_of_pattern(taken: TakeOff, board: Board, room: Room) -> list[tuple[str, str]]:
    """Return what a pattern floor takes as pairs: what is said, and what is said about it."""
    hands = f"{taken.left_hand} left-hand and {taken.right_hand} right-hand"
    packs = say_packs(taken.packs(board.boards_per_pack, handed=board.handed))
    apart = ", each hand rounded up on its own" if board.handed else ""
    facts = [
        ("Blocks", f"{taken.blocks}: {hands}"),
        ("Packs", f"{packs}{apart}"),
        ("Loss", f"{figure(taken.loss_percent, 1)} % of the floor"),
        ("Field", f"{figure(taken.field_mm2 / 1e6)} m², {figure(taken.field_perimeter_mm / 1000, 1)} m round"),
    ]
    if taken.border_boards:
        run = figure(taken.border_run_mm / 1000, 1)
        boards = counted(taken.border_boards, "board")
        facts.append(("Border", f"{room.border_mm} mm wide: {run} m end to end, {boards}"))
    how = (
        "the trade's rule for blocks that lie across the walls; half of their offcuts are used again"
        if room.pattern is Pattern.HERRINGBONE
        else "column by column, no offcut used again"
    )
    return [*facts, ("Counted by", how), ("Needed", "the job's packs are counted by this from now on")]


def say_any_length(taken: AsTheyCome, board: Board, room: Room) -> str:
    """Return what boards of any length come to on a floor."""
    sure = figure(taken.confidence_percent, 0)
    return (
        f"{clean(board.code)} comes in any length from {board.shortest_mm} to {board.length_mm} mm, so there is no cut "
        f"list before the packs are open. Played through {taken.trials} times on this floor it loses "
        f"{figure(taken.mean_loss_percent, 1)} % on average, and {sure} of 100 such floors no more than "
        f"{figure(taken.high_loss_percent, 1)} %: {say_packs(taken.packs)}. On file is "
        f"{figure(room.cut_loss_percent, 1)} %. Lay out a dozen boards at a time, begin each row with an offcut, and "
        "keep the joints apart."
    )
