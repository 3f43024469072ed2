"""Putting whole records in place: job folders into a new file, and a copy back where the records lie."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from store.desk.clock import Clock
from store.desk.desk import open_desk
from store.desk.paper_counter import TakenIn
from store.papers.on_disk import read_whole
from store.papers.reading_in import read_folder
from store.records.backup import put_back
from store.records.trouble import saying_no


@dataclass(frozen=True, slots=True, kw_only=True)
class PutBack:
    """Where records were put back to, and where the ones that lay there are now (None: there were none)."""

    path: Path
    aside: Path | None


def import_into(path: Path, source: Path | bytes, *, clock: Clock, who: str) -> TakenIn:
    """File the job folders of a file into the records at ``path``, which are made if there are none.

    Raises:
        Refused: the file is no job folder or does not fit the records; nothing was filed or made.
    """
    folder = read_folder(read_whole(source) if isinstance(source, Path) else source)
    with saying_no(path):
        new = not path.exists()
    try:
        with open_desk(path, clock=clock, who=who, create=True) as desk:
            return desk.papers.file(folder)
    except BaseException:
        # Records that were made for this import and hold nothing would only be taken for an empty firm.
        if new:
            path.unlink(missing_ok=True)
            path.with_name(f"{path.name}-journal").unlink(missing_ok=True)
        raise


def put_copy_back(copy: Path, path: Path, *, now: datetime) -> PutBack:
    """Put a verified copy where the records lie; what lies there is set aside under a dated name beside it.

    Raises:
        Refused: the copy and the records are one file.
        StoreError: the copy is not sound, or is a newer release's.
    """
    aside = path.with_name(f"{path.stem}-set-aside-{now.strftime('%Y-%m-%d-%H%M%S')}{path.suffix}")
    return PutBack(path=path, aside=put_back(copy, path, aside))


def dated_copy_path(path: Path, now: datetime) -> Path:
    """Return a name for a copy beside the records that says when it was made."""
    return path.with_name(f"{path.stem}-copy-{now.strftime('%Y-%m-%d-%H%M%S')}{path.suffix}")
