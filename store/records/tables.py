"""The tables of the firm, its people, products, customers, jobs and rooms, as peewee sees them.

The tables are made by ``steps.py``; these models only name their columns. They belong to no database of their
own: every query is run against the cabinet that asks it.
"""

from store.records.fields import (
    ClimateField,
    ClockField,
    DayField,
    DaysField,
    FigureField,
    FlagField,
    LimitsField,
    ListField,
    MomentField,
    PairsField,
    RingField,
    RingsField,
    SuppliersField,
    WholeField,
    WordsField,
)
from store.records.rows import Row, RowOfJob


class FirmRow(Row):
    """The firm: one row, number 1."""

    name = WordsField()
    time_zone = WordsField()
    working_days = ListField()
    day_starts = ClockField()
    day_ends = ClockField()
    holidays = DaysField()
    currency = WordsField()
    climate = ClimateField()
    clock_form = WordsField()
    log_gap_hours = WholeField()
    flat_limit_mm = WholeField()
    reading_good_days = WholeField()
    tradition = WordsField()
    own_limits = LimitsField()
    tests_by_area = FlagField()
    suppliers = SuppliersField()
    rev = WholeField()


class PersonRow(Row):
    """Somebody of the firm."""

    name = WordsField()
    herringbone = FlagField()
    stairs = FlagField()
    isocyanates_until = DayField(null=True)
    days_off = ListField()
    rev = WholeField()


class ProductRow(Row):
    """A board, a glue or a material; the columns of the other kinds stay empty."""

    rev = WholeField()
    kind = WordsField()
    code = WordsField()
    name = WordsField()
    price_minor = WholeField()
    build = WordsField(null=True)
    species = WordsField(null=True)
    length_mm = WholeField(null=True)
    width_mm = WholeField(null=True)
    thickness_mm = WholeField(null=True)
    boards_per_pack = WholeField(null=True)
    acclimatise_hours = WholeField(null=True)
    climate = ClimateField(null=True)
    rate_g_per_m2 = WholeField(null=True)
    tub_kg = FigureField(null=True)
    open_time_min = WholeField(null=True)
    walk_on_hours = WholeField(null=True)
    full_load_hours = WholeField(null=True)
    lengths = PairsField(null=True)
    shortest_mm = WholeField(null=True)
    pack_run_mm = WholeField(null=True)
    handed = FlagField(null=True)
    sheet_limits = LimitsField(null=True)
    ready_when_stable = FlagField(null=True)
    needs_training = FlagField(null=True)
    lead_days = WholeField(null=True)
    supplier = WordsField()
    thing = WordsField(null=True)
    size = FigureField(null=True)
    rate = FigureField(null=True)
    safety = WordsField(null=True)


class CustomerRow(Row):
    """Who floors are for."""

    name = WordsField()
    phone = WordsField()
    email = WordsField()


class SiteRow(Row):
    """Where a customer's floors are."""

    customer_id = WholeField()
    address = WordsField()


class JobRow(Row):
    """A job; ``closed_at`` is worked out by the desk and kept here so that past jobs cost nothing."""

    rev = WholeField()
    ref = WordsField()
    title = WordsField()
    site_id = WholeField()
    promised_on = DayField(null=True)
    closed_at = MomentField(null=True)


class RoomRow(RowOfJob):
    """A room of a job and the floor wanted in it."""

    rev = WholeField()
    name = WordsField()
    outline = RingField()
    cut_outs = RingsField()
    subfloor = WordsField()
    heated = FlagField()
    method = WordsField()
    board_id = WholeField()
    glue_id = WholeField(null=True)
    gap_mm = WholeField()
    cut_loss_percent = FigureField()
    screed_mm = WholeField(null=True)
    screed_laid_on = DayField(null=True)
    site_ready_on = DayField(null=True)
    direction_deg = FigureField(null=True)
    start = WholeField(null=True)
    line_mm = WholeField(null=True)
    pattern = WordsField()
    border_mm = WholeField()
    doorways = ListField()
    fixed_things = ListField()
    heating_begun_on = DayField(null=True)
    heating_proved_on = DayField(null=True)
    heating_off_from = DayField(null=True)
    old_floor = WordsField()
    old_floor_sample = WordsField()


class FlightRow(RowOfJob):
    """A flight of stairs of a job."""

    rev = WholeField()
    name = WordsField()
    rise_mm = WholeField()
    width_mm = WholeField()
    code = WordsField()
    going_mm = WholeField(null=True)
    run_mm = WholeField(null=True)
    risers = WholeField(null=True)
    nosing_mm = WholeField()
    open_risers = FlagField()
    turn = WordsField()
    winders = RingField()
    winder_treads = WholeField()
    board_id = WholeField(null=True)


class BookingRow(RowOfJob):
    """Somebody's days with a job or one of its rooms, by their name; a booking that was cancelled stays as a row."""

    room_id = WholeField(null=True)
    person = WordsField()
    first = DayField()
    last = DayField()
    part = WordsField()
    mark = WordsField()
    changes = WholeField()
    cancelled = FlagField()
