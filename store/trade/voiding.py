"""What makes moisture readings void: water, or a base that is no longer the one that was measured."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class VoidedBy(StrEnum):
    """What happened after which a subfloor must be measured again (house rule; no standard gives a list)."""

    LEAK = "leak"
    WET_TRADE = "wet_trade"
    HEATING_FAILED = "heating_failed"
    NEW_COMPOUND = "new_compound"


@dataclass(frozen=True, slots=True, kw_only=True)
class VoidingDraft:
    """Something after which the moisture readings of a room's subfloor from before it no longer count."""

    room: str
    at: datetime
    cause: VoidedBy
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Voiding(VoidingDraft):
    """A voiding on file; never changed, only taken back."""

    id: int
