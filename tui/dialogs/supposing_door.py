"""What the what-if screen asks of the shop: sums that are fit for a thread, and what is asked of people and filed."""

from collections.abc import Iterator, Sequence
from typing import Protocol

from store.desk.diary_cards import Booked
from store.trade.planning.consequences import Outlook
from store.trade.planning.nouns import Proposal
from store.trade.planning.situation import Planning, Situation
from store.trade.planning.suppose import Supposition


class Door(Protocol):
    """What the screen asks of the shop; sums are fit for a thread, all else is for the event loop."""

    def situation(self) -> Situation:
        """Return how things stand now."""

    def outlook(self, situation: Situation, suppositions: Sequence[Supposition]) -> Outlook:
        """Reckon how things would stand; a sum."""

    def planning(self, seen: Outlook) -> Planning:
        """Return what a plan would be made from; a sum."""

    def search(self, planning: Planning, situation: Situation) -> Iterator[Proposal]:
        """Yield ever better plans; a sum."""

    async def another(self, situation: Situation) -> Supposition | None:
        """Ask for a supposition."""

    async def take_up(self, situation: Situation, supposition: Supposition) -> bool:
        """Ask whether to file a supposition for real, and do it; answer whether it was done."""

    async def show_plan(self, planning: Planning, situation: Situation) -> Booked | None:
        """Show the plan, and book what is taken up of it."""
