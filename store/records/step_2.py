"""The second step: lay plans, each filed once and never changed.

The text of a step is never changed once it has been released; a later step can only add.
"""

_TABLE = """
CREATE TABLE lay_plan (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job_id INTEGER NOT NULL REFERENCES job (id),
    room_id INTEGER NOT NULL REFERENCES room (id),
    at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??.??????Z'),
    board_id INTEGER NOT NULL REFERENCES product (id),
    stagger_mm INTEGER NOT NULL CHECK (stagger_mm >= 0),
    shortest_mm INTEGER NOT NULL CHECK (shortest_mm >= 0),
    kerf_mm INTEGER NOT NULL CHECK (kerf_mm >= 0),
    least_mm INTEGER NOT NULL CHECK (least_mm >= 0),
    seed INTEGER NOT NULL CHECK (seed >= 0),
    culls_percent REAL NOT NULL CHECK (culls_percent BETWEEN 0 AND 100),
    confidence_percent REAL NOT NULL CHECK (confidence_percent BETWEEN 0 AND 100),
    spare_packs INTEGER NOT NULL CHECK (spare_packs >= 0),
    shape TEXT NOT NULL CHECK (length(shape) = 16),
    length_mm INTEGER NOT NULL CHECK (length_mm > 0),
    width_mm INTEGER NOT NULL CHECK (width_mm > 0),
    boards_per_pack INTEGER NOT NULL CHECK (boards_per_pack > 0),
    boards INTEGER NOT NULL CHECK (boards > 0),
    least_boards INTEGER NOT NULL CHECK (least_boards BETWEEN 1 AND boards),
    net_area_mm2 INTEGER NOT NULL CHECK (net_area_mm2 > 0),
    floor_area_mm2 REAL NOT NULL CHECK (floor_area_mm2 > 0),
    direction_deg REAL NOT NULL,
    row_edges_mm TEXT NOT NULL CHECK (row_edges_mm GLOB '[[]*]'),
    pieces TEXT NOT NULL CHECK (pieces GLOB '[[]*]')
) STRICT
"""

_INDEXES = (
    "CREATE INDEX lay_plan_by_job_id ON lay_plan (job_id)",
    "CREATE INDEX lay_plan_by_room_id ON lay_plan (room_id)",
    "CREATE INDEX lay_plan_by_board_id ON lay_plan (board_id)",
)

# The guard on INSERT holds INSERT OR REPLACE off even where recursive_triggers is switched off.
_GUARDS = (
    """
CREATE TRIGGER lay_plan_not_updated BEFORE UPDATE ON lay_plan
BEGIN SELECT RAISE(ABORT, 'lay_plan is never changed'); END
""",
    """
CREATE TRIGGER lay_plan_not_deleted BEFORE DELETE ON lay_plan
BEGIN SELECT RAISE(ABORT, 'lay_plan is never changed'); END
""",
    """
CREATE TRIGGER lay_plan_not_replaced BEFORE INSERT ON lay_plan
WHEN EXISTS (SELECT 1 FROM lay_plan WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, 'lay_plan is never changed'); END
""",
)


def statements() -> tuple[str, ...]:
    """Return the SQL of the second step, in the order it is run."""
    return (_TABLE, *_INDEXES, *_GUARDS)
