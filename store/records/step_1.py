"""The first step: every table of the first release, with the rules that the file itself keeps.

The text of a step is never changed once it has been released; a later step can only add.
"""

# A list as JSON; json_valid() may not stand in a table where trusted_schema is off.
_LIST = "'[[]*]'"
_MOMENT = "????-??-??T??:??:??.??????Z"


def _words(*columns: str) -> str:
    return ", ".join(f"{column} TEXT NOT NULL CHECK (length({column}) <= 100000)" for column in columns)


def _count(*columns: str) -> str:
    return ", ".join(f"{column} INTEGER NOT NULL CHECK ({column} >= 0)" for column in columns)


def _moment(column: str) -> str:
    return f"{column} TEXT NOT NULL CHECK ({column} GLOB '{_MOMENT}')"


def _moment_or_none(column: str) -> str:
    return f"{column} TEXT CHECK ({column} GLOB '{_MOMENT}')"


def _day_or_none(column: str) -> str:
    return f"{column} TEXT CHECK ({column} IS date({column}, '+0 days'))"


def _figure_or_none(column: str, least: float, most: float) -> str:
    return f"{column} REAL CHECK ({column} BETWEEN {least} AND {most})"


def _count_or_none(*columns: str) -> str:
    return ", ".join(f"{column} INTEGER CHECK ({column} >= 0)" for column in columns)


_ID = "id INTEGER PRIMARY KEY AUTOINCREMENT"
_REV = "rev INTEGER NOT NULL CHECK (rev >= 1)"
_JOB = "job_id INTEGER NOT NULL REFERENCES job (id)"
_ROOM = "room_id INTEGER NOT NULL REFERENCES room (id)"
_PRODUCT = "product_id INTEGER NOT NULL REFERENCES product (id)"

_TABLES = {
    "firm": f"""id INTEGER PRIMARY KEY CHECK (id = 1), {_words("name", "time_zone")},
        working_days TEXT NOT NULL CHECK (working_days GLOB {_LIST}), {_words("day_starts", "day_ends")},
        holidays TEXT NOT NULL CHECK (holidays GLOB {_LIST}), {_words("currency")},
        climate TEXT NOT NULL CHECK (climate GLOB {_LIST}), {_words("clock_form")},
        {_count("log_gap_hours", "flat_limit_mm", "reading_good_days")}, {_REV}""",
    "person": f"""{_ID}, {_words("name")}, UNIQUE (name)""",
    "product": f"""{_ID}, {_REV}, {_words("kind", "code", "name")}, {_count("price_minor")},
        build TEXT CHECK (length(build) <= 100000), species TEXT CHECK (length(species) <= 100000),
        {_count_or_none("length_mm", "width_mm", "thickness_mm", "boards_per_pack", "acclimatise_hours")},
        climate TEXT CHECK (climate GLOB {_LIST}),
        {_count_or_none("rate_g_per_m2")}, {_figure_or_none("tub_kg", 0, 1000)},
        {_count_or_none("open_time_min", "walk_on_hours", "full_load_hours")}, UNIQUE (code),
        CHECK (kind <> 'board' OR build IS NOT NULL AND species IS NOT NULL AND acclimatise_hours IS NOT NULL
               AND length_mm IS NOT NULL AND width_mm IS NOT NULL AND thickness_mm IS NOT NULL
               AND boards_per_pack IS NOT NULL AND length_mm * width_mm * boards_per_pack > 0),
        CHECK (kind <> 'glue' OR rate_g_per_m2 IS NOT NULL AND tub_kg IS NOT NULL
               AND open_time_min IS NOT NULL AND walk_on_hours IS NOT NULL
               AND full_load_hours IS NOT NULL)""",
    "customer": f"""{_ID}, {_words("name", "phone", "email")}, UNIQUE (name, phone, email)""",
    "site": f"""{_ID}, customer_id INTEGER NOT NULL REFERENCES customer (id), {_words("address")},
        UNIQUE (customer_id, address)""",
    "job": f"""{_ID}, {_REV}, {_words("ref", "title")}, site_id INTEGER NOT NULL REFERENCES site (id),
        {_day_or_none("promised_on")}, {_moment_or_none("closed_at")}, UNIQUE (ref)""",
    "room": f"""{_ID}, {_REV}, {_JOB}, {_words("name")},
        outline TEXT NOT NULL CHECK (outline GLOB {_LIST}),
        cut_outs TEXT NOT NULL CHECK (cut_outs GLOB {_LIST}),
        {_words("subfloor")}, heated INTEGER NOT NULL CHECK (heated IN (0, 1)), {_words("method")},
        board_id INTEGER NOT NULL REFERENCES product (id), glue_id INTEGER REFERENCES product (id),
        {_count("gap_mm")}, cut_loss_percent REAL NOT NULL CHECK (cut_loss_percent BETWEEN 0 AND 100),
        {_count_or_none("screed_mm")}, {_day_or_none("screed_laid_on")}, {_day_or_none("site_ready_on")},
        {_figure_or_none("direction_deg", -360, 360)}, {_count_or_none("start")}, UNIQUE (job_id, name)""",
    "purchase": f"""{_ID}, {_JOB}, placed_on TEXT NOT NULL CHECK (placed_on IS date(placed_on, '+0 days')),
        {_day_or_none("due_on")}, {_words("supplier")}""",
    "purchase_line": f"""{_ID}, purchase_id INTEGER NOT NULL REFERENCES purchase (id), {_PRODUCT},
        {_count("packs")}""",
    "delivery": f"""{_ID}, {_JOB}, {_moment("at")}, {_words("into_place")},
        into_room_id INTEGER REFERENCES room (id),
        CHECK ((into_place = 'room') = (into_room_id IS NOT NULL))""",
    "movement": f"""{_ID}, {_JOB},
        cause TEXT NOT NULL CHECK (cause IN ('delivery', 'move', 'opening', 'count')),
        {_moment("at")}, {_PRODUCT}, {_words("batch")}, {_count("packs", "damaged_packs", "boards")},
        {_words("source")}, source_room_id INTEGER REFERENCES room (id),
        {_words("target")}, target_room_id INTEGER REFERENCES room (id),
        delivery_id INTEGER REFERENCES delivery (id),
        CHECK (damaged_packs <= packs), CHECK (damaged_packs = 0 OR cause = 'delivery'),
        CHECK (boards = 0 OR cause = 'count'),
        CHECK ((cause = 'delivery') = (delivery_id IS NOT NULL)),
        CHECK ((source = 'room') = (source_room_id IS NOT NULL)),
        CHECK ((target = 'room') = (target_room_id IS NOT NULL))""",
    "reading": f"""{_ID}, {_JOB}, {_ROOM}, {_moment("at")}, {_words("kind")},
        {_figure_or_none("temp_c", -100, 1000)}, {_figure_or_none("rh_percent", 0, 100)},
        {_figure_or_none("percent", 0, 1000)}, {_count_or_none("span_mm")},
        {_figure_or_none("gap_mm", 0, 100000)},
        {_words("taken_by", "note")},
        CHECK (kind <> 'air' OR temp_c IS NOT NULL AND rh_percent IS NOT NULL),
        CHECK (kind NOT IN ('carbide', 'timber_subfloor', 'board') OR percent IS NOT NULL),
        CHECK (kind <> 'hygrometer' OR rh_percent IS NOT NULL),
        CHECK (kind <> 'surface' OR temp_c IS NOT NULL),
        CHECK (kind <> 'straightedge' OR span_mm IS NOT NULL AND gap_mm IS NOT NULL)""",
    "smoothing": f"""{_ID}, {_JOB}, {_ROOM}, {_moment("at")}, {_words("note")}""",
    "laying": f"""{_ID}, {_REV}, {_JOB}, {_ROOM}, {_moment("begun_at")}, {_moment_or_none("ended_at")},
        {_count_or_none("area_mm2", "tubs")}, CHECK (ended_at >= begun_at)""",
    "handover": f"""{_ID}, {_JOB}, {_moment("signed_at")}, {_words("signed_by")}""",
    "snag": f"""{_ID}, {_REV}, {_JOB}, room_id INTEGER REFERENCES room (id),
        {_moment("at")}, {_words("what")},
        {_moment_or_none("mended_at")}""",
    "note": f"""{_ID}, {_JOB}, {_moment("at")}, {_words("text")}""",
    "taken_back": f"""{_ID}, {_words("kind")}, row_id INTEGER NOT NULL, {_moment("at")},
        {_words("who", "why")},
        UNIQUE (kind, row_id)""",
    "history": f"""{_ID}, {_moment("at")}, {_words("who", "deed", "job_ref", "subject")},
        before TEXT NOT NULL, after TEXT NOT NULL, seal TEXT NOT NULL CHECK (length(seal) = 64)""",
}

_INDEXES = (
    "job (closed_at)",
    "job (site_id)",
    "room (board_id)",
    "room (glue_id)",
    "purchase (job_id)",
    "purchase_line (purchase_id)",
    "purchase_line (product_id)",
    "delivery (job_id)",
    "delivery (into_room_id) WHERE into_room_id IS NOT NULL",
    "movement (job_id)",
    "movement (product_id)",
    "movement (source)",
    "movement (target)",
    "movement (delivery_id) WHERE delivery_id IS NOT NULL",
    "movement (source_room_id) WHERE source_room_id IS NOT NULL",
    "movement (target_room_id) WHERE target_room_id IS NOT NULL",
    "reading (job_id)",
    "reading (room_id)",
    "smoothing (job_id)",
    "smoothing (room_id)",
    "laying (job_id)",
    "laying (room_id)",
    "handover (job_id)",
    "snag (job_id)",
    "snag (room_id) WHERE room_id IS NOT NULL",
    "note (job_id)",
    "history (job_ref)",
)

_NEVER_CHANGED = (
    "purchase",
    "purchase_line",
    "delivery",
    "movement",
    "reading",
    "smoothing",
    "handover",
    "note",
    "taken_back",
    "history",
)


def _triggers_of(table: str) -> tuple[str, ...]:
    # The guard on INSERT holds INSERT OR REPLACE off even where recursive_triggers is switched off.
    same = "id = NEW.id OR kind = NEW.kind AND row_id = NEW.row_id" if table == "taken_back" else "id = NEW.id"
    stays = f"SELECT RAISE(ABORT, '{table} is never changed')"
    found = f"SELECT 1 FROM {table} WHERE {same}"  # noqa: S608 - names from this file
    return (
        f"CREATE TRIGGER {table}_not_updated BEFORE UPDATE ON {table} BEGIN {stays}; END",
        f"CREATE TRIGGER {table}_not_deleted BEFORE DELETE ON {table} BEGIN {stays}; END",
        f"CREATE TRIGGER {table}_not_replaced BEFORE INSERT ON {table} WHEN EXISTS ({found}) BEGIN {stays}; END",
    )


_LINE_LIKE_ITS_DELIVERY = """
CREATE TRIGGER movement_like_its_delivery BEFORE INSERT ON movement
WHEN NEW.delivery_id IS NOT NULL AND NOT EXISTS (
    SELECT 1 FROM delivery WHERE id = NEW.delivery_id AND job_id = NEW.job_id AND at = NEW.at
    AND into_place = NEW.target AND into_room_id IS NEW.target_room_id)
BEGIN SELECT RAISE(ABORT, 'a line of a delivery goes where the delivery went'); END
"""


def statements() -> tuple[str, ...]:
    """Return the SQL of the first step, in the order it is run."""
    tables = tuple(f"CREATE TABLE {name} ({columns}) STRICT" for name, columns in _TABLES.items())
    indexes = tuple(f"CREATE INDEX {_name_of(index)} ON {index}" for index in _INDEXES)
    triggers = tuple(trigger for table in _NEVER_CHANGED for trigger in _triggers_of(table))
    return (*tables, *indexes, *triggers, _LINE_LIKE_ITS_DELIVERY)


def _name_of(index: str) -> str:
    table, column = index.split(" WHERE ", maxsplit=1)[0].rstrip(")").split(" (")
    return f"{table}_by_{column}"
