"""The trade's words for the shop's kinds: subfloors, methods, places, readings, stages, holds."""

from store.trade.events import Destination, Place, PlaceKind
from store.trade.evidence import Zone
from store.trade.firm import ClockForm
from store.trade.jobs import Method, OldFloor, Sample, Subfloor
from store.trade.morning import Amiss
from store.trade.stock_take import Way
from store.trade.surveyed import Pattern
from store.trade.things import ProductKind
from store.trade.traditions import Tradition
from store.trade.verdict import HoldKind, HoldState, Stage
from store.trade.voiding import VoidedBy
from tui.words.wording import clean

SUBFLOORS = {
    Subfloor.CEMENT_SCREED: "cement screed",
    Subfloor.CALCIUM_SULPHATE: "calcium sulphate screed",
    Subfloor.CONCRETE: "concrete",
    Subfloor.OSB: "OSB",
    Subfloor.PLYWOOD: "plywood",
    Subfloor.BOARDS: "old boards",
}
METHODS = {Method.GLUED: "glued", Method.FLOATING: "floating", Method.NAILED: "nailed"}
PATTERNS = {
    Pattern.STRAIGHT: "straight rows",
    Pattern.HERRINGBONE: "herringbone",
    Pattern.CHEVRON: "chevron",
}
TRADITIONS = {
    Tradition.USUAL: "UK hygrometer, German carbide",
    Tradition.UK: "UK",
    Tradition.GERMAN: "German-speaking",
    Tradition.FRENCH: "French",
    Tradition.NORTH_AMERICAN: "North American",
}
OLD_FLOORS = {
    OldFloor.NOT_SAID: "not said",
    OldFloor.NONE: "nothing old",
    OldFloor.OLD_COVERING: "old covering from before 2000",
    OldFloor.BLACK_GLUE: "black glue",
}
SAMPLES = {
    Sample.NOT_TAKEN: "no sample tested yet",
    Sample.CLEAR: "tested, no asbestos",
    Sample.ASBESTOS: "tested, holds asbestos",
    Sample.REMOVED: "taken out by those licensed",
}
VOIDED_BY = {
    VoidedBy.LEAK: "a leak or flood",
    VoidedBy.WET_TRADE: "a wet trade worked there",
    VoidedBy.HEATING_FAILED: "the heating failed",
    VoidedBy.NEW_COMPOUND: "new compound was laid",
}
ZONES = {Zone.WHOLE: "whole thickness", Zone.LOWER: "lower part"}
AMISS = {
    Amiss.AIR: "air out of range",
    Amiss.DEW: "base less than 3 °C above the dew point",
    Amiss.BASE_COLD: "base colder than 15 °C",
    Amiss.NOT_MIXED: "packs not mixed",
    Amiss.NO_WEDGES: "no wedges",
    Amiss.NO_EXTRACTION: "no extraction",
}
DESTINATIONS = {
    Destination.CUSTOMER: "left with the customer",
    Destination.UNIT: "back to the unit",
    Destination.RETURN: "back to the supplier",
    Destination.SCRAP: "thrown away",
}
READING_KINDS = {
    "air": "Room air",
    "carbide": "Carbide test of the screed",
    "hygrometer": "Hygrometer on the subfloor",
    "in_situ_probe": "Probe in the subfloor",
    "timber_subfloor": "Moisture of the timber subfloor",
    "board": "Moisture of the boards",
    "surface": "Surface temperature of the subfloor",
    "straightedge": "Straightedge on the subfloor",
    "level_grid": "Grid of levels of the subfloor",
}
PRODUCT_KINDS = {ProductKind.BOARD: "board", ProductKind.GLUE: "glue", ProductKind.MATERIAL: "material"}
CLOCK_FORMS = {
    ClockForm.RUNNING: "counts on until a reading is out of range",
    ClockForm.STRICT_LOG: "counts only between two good readings",
}
STAGES = {
    Stage.SURVEY: "survey",
    Stage.DELIVERY: "delivery",
    Stage.ACCLIMATISATION: "acclimatising",
    Stage.INSTALL: "install",
    Stage.CURE: "cure",
    Stage.HANDOVER: "handover",
    Stage.CLOSED: "closed",
}
HOLD_STATES = {
    HoldState.CLEAR: "clear",
    HoldState.WAITING: "waiting",
    HoldState.TO_DO: "to do",
    HoldState.FAILED: "not good",
}
HOLD_SIGNS = {HoldState.CLEAR: "✓", HoldState.WAITING: "◐", HoldState.TO_DO: "▲", HoldState.FAILED: "✗"}
"""One plain cell beside each state's word, never instead of it."""
HOLD_KINDS = {
    HoldKind.SITE: "Site",
    HoldKind.SUBFLOOR_DRY: "Subfloor dry",
    HoldKind.SUBFLOOR_FLAT: "Subfloor flat",
    HoldKind.CLIMATE: "Room air",
    HoldKind.HEATING: "Heating",
    HoldKind.PACKS: "Packs",
    HoldKind.ACCLIMATISATION: "Acclimatising",
    HoldKind.MOISTURE_GAP: "Moisture gap",
    HoldKind.GLUE: "Glue",
    HoldKind.OLD_FLOOR: "Old floor",
    HoldKind.PEOPLE: "People",
}


WAYS: dict[Way, str] = {
    Way.FOUND: "found",
    Way.MISSING: "missing",
}


def say_place(place: Place) -> str:
    """Return where packs are: “in the Reading room”, “in the unit”."""
    if place.kind is PlaceKind.ROOM:
        return f"in {the_room(place.room)}"
    return {
        PlaceKind.SUPPLIER: "at the supplier's",
        PlaceKind.UNIT: "in the unit",
        PlaceKind.SHELF: "in the unit, free",
        PlaceKind.SITE: "on site",
        PlaceKind.OPENED: "opened for laying",
        PlaceKind.CUSTOMER: "left with the customer",
        PlaceKind.RETURN: "back at the supplier's",
        PlaceKind.SCRAP: "thrown away",
        PlaceKind.ASIDE: "set aside, damaged",
        PlaceKind.FOUND: "nobody knows where",
        PlaceKind.MISSING: "missing",
    }[place.kind]


def say_target(place: Place) -> str:
    """Return where packs go: “into the Reading room”, “to the unit, kept for this job”."""
    if place.kind is PlaceKind.ROOM:
        return f"into {the_room(place.room)}"
    return {
        PlaceKind.SUPPLIER: "to the supplier",
        PlaceKind.UNIT: "to the unit, kept for this job",
        PlaceKind.SHELF: "to the unit, free for any job",
        PlaceKind.SITE: "to the site",
        PlaceKind.OPENED: "opened for laying",
        PlaceKind.CUSTOMER: "left with the customer",
        PlaceKind.RETURN: "back to the supplier",
        PlaceKind.SCRAP: "thrown away",
        PlaceKind.ASIDE: "set aside, damaged",
        PlaceKind.FOUND: "nobody knows where",
        PlaceKind.MISSING: "missing",
    }[place.kind]


def the_room(name: str) -> str:
    """Return a room's name as it stands in a sentence: “the Reading room”, but “Bedroom 2”."""
    shown = clean(name)
    return f"the {shown}" if shown.lower().endswith(("room", "hall", "kitchen", "attic", "landing")) else shown
