"""The tables of what closed jobs taught, as peewee sees them."""

from store.records.fields import FigureField, FlagField, ListField, WholeField, WordsField
from store.records.rows import RowOfJob


class FloorLessonRow(RowOfJob):
    """What a closed job taught about one board; worked out by the desk from the job's facts."""

    product_id = WholeField()
    rooms = WholeField()
    pattern = WordsField(null=True)
    shape = WordsField(null=True)
    size = WordsField(null=True)
    fitters = ListField()
    planned = FlagField()
    allowed_percent = FigureField()
    laid_mm2 = WholeField()
    ordered = WholeField()
    used = WholeField()
    kept = WholeField()
    scrapped = WholeField()
    gone = WholeField()
    adds_up = FlagField()
    paid_packs = WholeField()
    paid_minor = WholeField()


class GlueLessonRow(RowOfJob):
    """What a closed job taught about one glue; worked out by the desk from the job's facts."""

    product_id = WholeField()
    rooms = WholeField()
    notch = WordsField()
    base = WordsField(null=True)
    glued_mm2 = WholeField()
    ordered = WholeField()
    tubs = WholeField()
    paid_packs = WholeField()
    paid_minor = WholeField()
