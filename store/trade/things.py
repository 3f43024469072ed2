"""The names of what is bought: the kinds of product, and each thing that a job's take-off has a line for."""

from enum import StrEnum


class ProductKind(StrEnum):
    """The kinds of product the shop knows."""

    BOARD = "board"
    GLUE = "glue"
    MATERIAL = "material"


class Thing(StrEnum):
    """What is bought for a floor or a flight of stairs, in the order it is listed."""

    BOARDS = "boards"
    GLUE = "glue"
    PRIMER = "primer"
    COMPOUND = "compound"
    FILM = "film"
    UNDERLAY = "underlay"
    SKIRTING = "skirting"
    SCREWS = "screws"
    PROFILES = "profiles"
    WEDGES = "wedges"
    FELT_PADS = "felt_pads"
    CARE_SET = "care_set"
    CLADDING = "cladding"
    TREADS = "treads"
    RISERS = "risers"
    NOSING = "nosing"

    @property
    def is_product(self) -> bool:
        """Whether its line is about one board or glue, whose sheet says how it is sold; a line for each."""
        return self in {Thing.BOARDS, Thing.GLUE, Thing.CLADDING}


GO_OFF = frozenset({Thing.GLUE, Thing.PRIMER, Thing.COMPOUND, Thing.CARE_SET})
"""The things whose units bear a last day of use."""
MATERIALS = tuple(thing for thing in Thing if not thing.is_product)
"""The things that a material on file may be."""
