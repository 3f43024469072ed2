"""Somebody else's job folders, written from the published format alone, and the command line as a shell sees it."""

import contextlib
import copy
import io
import json
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from store.records import database
from tui.cli import main

Json = dict[str, Any]

AT_BRUSSELS = "2026-11-25T07:30:00+01:00"
CAME = "2026-11-17T09:30:00+01:00"
ROOM = "Reading room"


def board(code: str = "OAK-190", **changes: Any) -> Json:
    """2.166 m² to the pack."""
    return {
        "code": code,
        "kind": "board",
        "name": "Oak, brushed",
        "build": "engineered",
        "species": "oak",
        "length_mm": 1900,
        "width_mm": 190,
        "thickness_mm": 14,
        "boards_per_pack": 6,
        "acclimatise_hours": 168,
        "price_minor": 18240,
    } | changes


def glue(code: str = "MS-15", **changes: Any) -> Json:
    return {
        "code": code,
        "kind": "glue",
        "name": "Elastic",
        "rate_g_per_m2": 1000,
        "tub_kg": 15,
        "open_time_min": 40,
        "walk_on_hours": 24,
        "full_load_hours": 72,
        "price_minor": 9900,
    } | changes


def room(name: str = ROOM, across: int = 5200, along: int = 4100, **changes: Any) -> Json:
    """21.32 m²: with a tenth for cuts 23.452 m², eleven packs of OAK-190."""
    return {
        "name": name,
        "outline": [[0, 0], [across, 0], [across, along], [0, along]],
        "cut_outs": [],
        "subfloor": "osb",
        "heated": False,
        "method": "glued",
        "board": "OAK-190",
        "glue": "MS-15",
        "gap_mm": 10,
        "cut_loss_percent": 10,
    } | changes


def job(ref: str = "L-0007", **changes: Any) -> Json:
    return {
        "ref": ref,
        "title": "Reading room of the harbour school",
        "customer": {"name": "Harbour School", "phone": "", "email": ""},
        "site": {"address": "3 Signal Lane, Gannet Quay"},
        "rooms": [room()],
        "orders": [],
        "deliveries": [],
        "readings": [],
        "laid": [],
        "counts": [],
    } | changes


def firm(**changes: Any) -> Json:
    return {
        "name": "Gannet Quay Floors",
        "time_zone": "Europe/Brussels",
        "working_days": ["mon", "tue", "wed", "thu", "fri"],
        "day_starts": "08:00",
        "day_ends": "16:30",
    } | changes


def folder(*jobs: Json, products: list[Json] | None = None, **firm_changes: Any) -> Json:
    return copy.deepcopy(
        {
            "layday_folder": 1,
            "firm": firm(**firm_changes),
            "people": [{"name": "Ode"}, {"name": "Wim"}],
            "products": [board(), glue()] if products is None else products,
            "jobs": list(jobs),
        }
    )


def order(packs: int = 12, on: str = "2026-11-10", due_on: str = "2026-11-17", product: str = "OAK-190") -> Json:
    return {"on": on, "due_on": due_on, "lines": [{"product": product, "packs": packs}]}


def came(
    packs: int = 12, at: str = CAME, into: str = ROOM, damaged: int = 0, product: str = "OAK-190", batch: str = "K41"
) -> Json:
    line = {"product": product, "batch": batch, "packs": packs, "damaged_packs": damaged}
    return {"at": at, "into": into, "lines": [line]}


def air(at: str = CAME, temp: float = 20.5, rh: float = 52, where: str = ROOM) -> Json:
    return {"room": where, "at": at, "kind": "air", "temp_c": temp, "rh_percent": rh}


def reading(kind: str, at: str, where: str = ROOM, **figures: float) -> Json:
    return {"room": where, "at": at, "kind": kind} | figures


def timber(at: str = "2026-11-19T08:00:00+01:00", percent: float = 9.5, where: str = ROOM) -> Json:
    return reading("timber_subfloor", at, where, percent=percent)


def straightedge(at: str = CAME, gap: float = 2, where: str = ROOM) -> Json:
    return reading("straightedge", at, where, span_mm=2000, gap_mm=gap)


def laid(begun: str, ended: str, area: float = 21.32, where: str = ROOM) -> Json:
    return {"room": where, "from": begun, "to": ended, "area_m2": area}


def count(at: str, packs: int = 1, boards: int = 2, to: str = "customer", product: str = "OAK-190") -> Json:
    return {"at": at, "product": product, "batch": "K41", "packs": packs, "boards": boards, "to": to}


READY = job(orders=[order()], deliveries=[came()], readings=[air()])


WHOLE = job(
    "N-1",
    promised_on="2026-12-18",
    rooms=[
        room(
            cut_outs=[[[100, 100], [1100, 100], [1100, 600], [100, 600]]],
            subfloor="cement_screed",
            screed_mm=60,
            screed_laid_on="2026-08-01",
            site_ready_on="2026-11-01",
        )
    ],
    orders=[order()],
    deliveries=[came(damaged=1)],
    readings=[air(), straightedge(), timber()],
    laid=[laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00", 20)],
    counts=[count("2026-12-01T10:00:00+01:00")],
    handover={"signed_at": "2026-12-01T09:00:00+01:00", "by": "K. Harbour"},
)


@dataclass(frozen=True)
class Ran:
    """What a run of the command left behind."""

    status: int
    out: bytes
    err: bytes

    @property
    def said(self) -> str:
        return self.out.decode("utf-8")

    @property
    def complained(self) -> str:
        return self.err.decode("utf-8")

    @property
    def answer(self) -> Any:
        return json.loads(self.out)


def run(*arguments: str | Path, stdin: bytes = b"") -> Ran:
    """Run ``layday`` in this process; what it prints is kept as the bytes a pipe would carry."""
    with _stream(stdin) as (_, source), _stream() as (out, printed), _stream() as (err, told):
        kept = sys.stdin, sys.stdout, sys.stderr
        sys.stdin, sys.stdout, sys.stderr = source, printed, told
        try:
            status = main([str(one) for one in arguments])
        except SystemExit as leaving:
            status = leaving.code if isinstance(leaving.code, int) else 1
        finally:
            sys.stdin, sys.stdout, sys.stderr = kept
        printed.flush()
        told.flush()
        return Ran(status=status, out=out.getvalue(), err=err.getvalue())


@contextlib.contextmanager
def _stream(given: bytes = b"") -> Iterator[tuple[io.BytesIO, io.TextIOWrapper]]:
    raw = io.BytesIO(given)
    text = io.TextIOWrapper(raw, encoding="utf-8")
    try:
        yield raw, text
    finally:
        text.detach()


def refused(ran: Ran) -> str:
    """The one sentence of a refusal: on standard error, nothing on standard output, nothing of Python's."""
    assert (ran.status, ran.out) == (1, b""), ran
    return sentence(ran)


def sentence(ran: Ran) -> str:
    """The one sentence on standard error."""
    say = ran.complained
    assert say.endswith(".\n"), say
    assert say.count("\n") == 1
    assert "Traceback" not in say
    assert len(say) < 1_000
    return say.rstrip("\n")


def dump(path: Path) -> list[str]:
    """Everything a file of records says, whatever its bytes."""
    with contextlib.closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return list(reader.iterdump())


def in_a_hurry(monkeypatch: pytest.MonkeyPatch) -> None:
    """Spare the disk in tests that pull no plug: what is saved lasts as long as this process, which is enough."""
    monkeypatch.setattr(database, "SETTINGS", (*database.SETTINGS, ("synchronous", "OFF"), ("fullfsync", "OFF")))
    monkeypatch.setattr(os, "fsync", lambda _: None)
    monkeypatch.delenv("LAYDAY_FILE", raising=False)


class Shop:
    """One file of records, reached through the command line only."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.path = place / "records.layday"

    def run(self, *arguments: str | Path, stdin: bytes = b"") -> Ran:
        return run("--file", self.path, *arguments, stdin=stdin)

    def offer(self, given: Json | bytes) -> Ran:
        """Hand in a folder on standard input."""
        raw = given if isinstance(given, bytes) else json.dumps(given).encode()
        return self.run("import", "-", stdin=raw)

    def take_in(self, given: Json | bytes) -> None:
        ran = self.offer(given)
        assert (ran.status, ran.err) == (0, b""), ran.complained

    def today(self, at: str = AT_BRUSSELS) -> list[Json]:
        ran = self.run("today", "--json", "--at", at)
        assert (ran.status, ran.err) == (0, b""), ran.complained
        jobs: list[Json] = ran.answer["jobs"]
        return jobs

    def job(self, at: str = AT_BRUSSELS, ref: str = "L-0007") -> Json:
        ran = self.run("job", ref, "--json", "--at", at)
        assert (ran.status, ran.err) == (0, b""), ran.complained
        answer: Json = ran.answer
        return answer


def hold(answer: Json, kind: str, where: str | None = None) -> Json:
    """The one hold of a kind (in a room)."""
    found = [one for one in answer["holds"] if one["kind"] == kind and where in {None, one["room"]}]
    assert len(found) == 1, [(one["room"], one["kind"]) for one in answer["holds"]]
    return found[0]


def state(answer: Json, kind: str, where: str | None = None) -> tuple[str, str | None, str | None]:
    one = hold(answer, kind, where)
    return one["state"], one["clears_at"], one["not_before"]


def stands(shop: Shop, at: str, *jobs: Json, **changes: object) -> Json:
    shop.take_in(folder(*jobs, **changes))  # type: ignore[arg-type]  # the builder's own keywords
    return shop.job(at)


def verdict(answer: Json) -> tuple[str, str | None, str | None, str | None]:
    return answer["stage"], answer["verdict"], answer["ready_from"], answer["best_case"]


def tally(answer: Json) -> tuple[int, ...]:
    (one,) = answer["packs"]
    return tuple(one[key] for key in ("needed", "ordered", "on_site", "ready", "laid", "left"))


def lying_in(place: Path) -> list[str]:
    """What lies in a folder, but for the empty journal that SQLite keeps beside a file of its own."""
    return sorted(one.name for one in place.iterdir() if not (one.name.endswith("-journal") and not one.stat().st_size))


def layday(shop: Shop) -> str:
    """The command as a shell would start it, in a process of its own."""
    return f"{sys.executable} -c 'import sys; from tui.cli import main; sys.exit(main())' --file {shop.path}"


def shell(line: str) -> "subprocess.CompletedProcess[str]":
    """Run a line of bash in the project's folder."""
    place = Path(__file__).parents[2]
    return subprocess.run(["bash", "-c", line], cwd=place, capture_output=True, text=True, check=False, timeout=60)
