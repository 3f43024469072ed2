"""The fifteenth step: what closed jobs taught, a row for each board and each glue of a closed job.

The rows are worked out from the job's facts by the desk, which fills them for jobs closed before; so they may be
changed and taken out. The text of a step is never changed once it has been released; a later step can only add.
"""

_FLOORS = """
CREATE TABLE floor_lesson (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    product_id INTEGER NOT NULL REFERENCES product (id),
    rooms INTEGER NOT NULL CHECK (rooms > 0),
    pattern TEXT CHECK (pattern IN ('straight', 'herringbone', 'chevron')),
    shape TEXT CHECK (shape IN ('rectangle', 'corners', 'cut_up')),
    size TEXT CHECK (size IN ('small', 'middle', 'large')),
    fitters TEXT NOT NULL,
    planned INTEGER NOT NULL CHECK (planned IN (0, 1)),
    allowed_percent REAL NOT NULL,
    laid_mm2 INTEGER NOT NULL CHECK (laid_mm2 > 0),
    ordered INTEGER NOT NULL,
    used INTEGER NOT NULL,
    kept INTEGER NOT NULL,
    scrapped INTEGER NOT NULL,
    gone INTEGER NOT NULL,
    adds_up INTEGER NOT NULL CHECK (adds_up IN (0, 1)),
    UNIQUE (job_id, product_id)
) STRICT
"""
_GLUES = """
CREATE TABLE glue_lesson (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    product_id INTEGER NOT NULL REFERENCES product (id),
    rooms INTEGER NOT NULL CHECK (rooms > 0),
    notch TEXT NOT NULL,
    base TEXT,
    glued_mm2 INTEGER NOT NULL CHECK (glued_mm2 >= 0),
    ordered INTEGER NOT NULL,
    tubs INTEGER NOT NULL CHECK (tubs > 0),
    UNIQUE (job_id, product_id)
) STRICT
"""


def statements() -> tuple[str, ...]:
    """Return the SQL of the fifteenth step, in the order it is run."""
    return (
        _FLOORS,
        "CREATE INDEX floor_lesson_by_job_id ON floor_lesson (job_id)",
        "CREATE INDEX floor_lesson_by_product_id ON floor_lesson (product_id)",
        _GLUES,
        "CREATE INDEX glue_lesson_by_job_id ON glue_lesson (job_id)",
        "CREATE INDEX glue_lesson_by_product_id ON glue_lesson (product_id)",
    )
