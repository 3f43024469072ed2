"""The tables of what happens to a job, as peewee sees them; all but layings and snags are never changed."""

from store.records.fields import (
    DayField,
    FigureField,
    FiguresField,
    FlagField,
    HeightsField,
    ListField,
    MomentField,
    PairsField,
    WholeField,
    WordsField,
    ZoneField,
)
from store.records.rows import Row, RowOfJob


class PurchaseRow(RowOfJob):
    """An order to a supplier."""

    placed_on = DayField()
    due_on = DayField(null=True)
    supplier = WordsField()
    freight_minor = WholeField()


class PurchaseLineRow(Row):
    """So many packs of one product in an order."""

    purchase_id = WholeField()
    product_id = WholeField()
    packs = WholeField()
    price_minor = WholeField(null=True)


class ConfirmationRow(RowOfJob):
    """What a supplier said of an order."""

    purchase_id = WholeField()
    at = MomentField()
    number = WordsField()


class ConfirmedLineRow(Row):
    """So many packs of one product that a supplier sends on a day."""

    confirmation_id = WholeField()
    product_id = WholeField()
    packs = WholeField()
    due_on = DayField(null=True)
    price_minor = WholeField(null=True)


class DeliveryRow(RowOfJob):
    """What came in at one moment; its lines are rows of the ledger."""

    at = MomentField()
    into_place = WordsField()
    into_room_id = WholeField(null=True)


class MovementRow(RowOfJob):
    """The ledger: packs of one batch that went from one place to another, and why."""

    cause = WordsField()
    at = MomentField()
    product_id = WholeField()
    batch = WordsField()
    packs = WholeField()
    damaged_packs = WholeField()
    boards = WholeField()
    source = WordsField()
    source_room_id = WholeField(null=True)
    target = WordsField()
    target_room_id = WholeField(null=True)
    delivery_id = WholeField(null=True)
    use_by = DayField(null=True)


class DifferenceRow(Row):
    """The ledger too: what a stock-take found beyond the file or missed; of no job where it is free stock."""

    job_id = WholeField(null=True)
    at = MomentField()
    product_id = WholeField()
    batch = WordsField()
    packs = WholeField()
    boards = WholeField()
    way = WordsField()
    why = WordsField()


class ReadingRow(RowOfJob):
    """A reading; the figures its kind does not have stay empty."""

    room_id = WholeField()
    at = MomentField()
    kind = WordsField()
    temp_c = FigureField(null=True)
    rh_percent = FigureField(null=True)
    percent = FigureField(null=True)
    span_mm = WholeField(null=True)
    gap_mm = FigureField(null=True)
    taken_by = WordsField()
    note = WordsField()
    point = WordsField()
    instrument = WordsField()
    sample_g = FigureField(null=True)
    gauge_bar = FigureField(null=True)
    depth_mm = WholeField(null=True)
    hours = WholeField(null=True)
    zone = ZoneField(null=True)
    checked_on = DayField(null=True)
    figures = FiguresField()
    spacing_mm = WholeField(null=True)
    heights_mm = HeightsField(null=True)
    corrects = WholeField(null=True)


class SmoothingRow(RowOfJob):
    """Compound laid to level a room's subfloor."""

    room_id = WholeField()
    at = MomentField()
    note = WordsField()


class LayingRow(RowOfJob):
    """Floor laid in a room."""

    rev = WholeField()
    room_id = WholeField()
    begun_at = MomentField()
    ended_at = MomentField(null=True)
    area_mm2 = WholeField(null=True)
    tubs = WholeField(null=True)


class HandoverRow(RowOfJob):
    """A signature under a finished job."""

    signed_at = MomentField()
    signed_by = WordsField()


class SnagRow(RowOfJob):
    """Something to put right."""

    rev = WholeField()
    room_id = WholeField(null=True)
    at = MomentField()
    what = WordsField()
    mended_at = MomentField(null=True)


class NoteRow(RowOfJob):
    """A line about a job."""

    at = MomentField()
    text = WordsField()


class LayPlanRow(RowOfJob):
    """A lay plan: its terms, the sizes of the board it was made for, its counts, and every piece as six numbers."""

    room_id = WholeField()
    at = MomentField()
    board_id = WholeField()
    stagger_mm = WholeField()
    shortest_mm = WholeField()
    kerf_mm = WholeField()
    least_mm = WholeField()
    seed = WholeField()
    culls_percent = FigureField()
    confidence_percent = FigureField()
    spare_packs = WholeField()
    shape = WordsField()
    length_mm = WholeField()
    width_mm = WholeField()
    boards_per_pack = WholeField()
    boards = WholeField()
    least_boards = WholeField()
    net_area_mm2 = WholeField()
    floor_area_mm2 = FigureField()
    direction_deg = FigureField()
    row_edges_mm = PairsField()
    pieces = ListField()
    lengths = PairsField()
    board_lengths_mm = ListField()


class MorningCheckRow(RowOfJob):
    """What was looked at on the morning of laying."""

    room_id = WholeField()
    at = MomentField()
    who = WordsField()
    temp_c = FigureField()
    rh_percent = FigureField()
    surface_c = FigureField()
    mixed = FlagField()
    wedges = FlagField()
    extraction = FlagField()
    note = WordsField()


class VoidingRow(RowOfJob):
    """Something that made the moisture readings of a room void."""

    room_id = WholeField()
    at = MomentField()
    cause = WordsField()
    note = WordsField()


class OwnLineRow(RowOfJob):
    """A line of a job's take-off, set by hand."""

    thing = WordsField()
    product_id = WholeField(null=True)
    at = MomentField()
    wanted = FlagField()
    units = WholeField(null=True)
    size = FigureField(null=True)
    width_mm = WholeField(null=True)
    rate = FigureField(null=True)
    notch = WordsField()
    why = WordsField()


class CreditRow(RowOfJob):
    """What a supplier has credited for what went back or came damaged."""

    at = MomentField()
    product_id = WholeField()
    amount_minor = WholeField()
    number = WordsField()
    settles = FlagField()
    owed_for = WordsField()
    replaced_packs = WholeField()


class TakenBackRow(Row):
    """A row that was filed in error: it stays, and this says that it no longer counts, since when and why."""

    kind = WordsField()
    row_id = WholeField()
    at = MomentField()
    who = WordsField()
    why = WordsField()


class SealRow(Row):
    """A seal over a line that is never changed, and over the seal before it; see ``seals.py``."""

    of_table = WordsField()
    row_id = WholeField()
    columns = ListField()
    seal = WordsField()


class HistoryRow(Row):
    """A sealed line of history; the moment is kept as text, because the seal is over its letters."""

    at = WordsField()
    who = WordsField()
    deed = WordsField()
    job_ref = WordsField()
    subject = WordsField()
    before = WordsField()
    after = WordsField()
    seal = WordsField()
