"""Keeps copies of the records by itself: one whenever something changed, the old ones thinned out."""

import re
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from store.desk.cards import Kept, RecordsCard, Saved
from store.desk.counter import Bench
from store.desk.thinning import CopyMade, to_go
from store.records.backup import last_seal, save_copy, sha256_of
from store.records.files import make_private_folder
from store.records.trouble import saying_no

FOLDER = "copies"
_STAMP = "%Y-%m-%d-%H%M%S"


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberedCopy(CopyMade):
    """A copy made by itself, as it lies in the folder of copies."""

    path: Path


class KeepingCounter:
    """The records as a file, and the copies that are kept of them."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    @property
    def _path(self) -> Path:
        return self._bench.cabinet.path

    def card(self) -> RecordsCard:
        """Return where the records lie, how large they are, and their newest copy."""
        kept = copies_of(self._path)
        last = kept[0] if kept else None
        with saying_no(self._path):
            size = self._path.stat().st_size
        zone = self._bench.firm().zone
        days = (self._bench.today() - last.at.astimezone(zone).date()).days if last else None
        return RecordsCard(path=self._path, size_bytes=size, last_copy=last, copies=len(kept), copy_days=days)

    def copy_if_changed(self) -> Saved | None:
        """Make a verified copy in the folder of copies if anything was filed since the last one there.

        Copies made earlier are thinned out then (see ``thinning``). Nothing is done while looking at another moment.

        Raises:
            StoreError: the copy could not be made, or an old one could not go; what is on file is untouched.
        """
        lines = self._bench.cabinet.history.latest(1)
        made = numbered_copies(self._path)
        if self._bench.looking_back or not lines or (made and last_seal(made[-1].path) == lines[0].seal):
            return None
        now = self._bench.now()
        folder = self._path.parent / FOLDER
        number = made[-1].number + 1 if made else 1
        target = folder / f"{self._path.stem}-{number:06d}-{now.astimezone(UTC).strftime(_STAMP)}{self._path.suffix}"
        with saying_no(folder):
            make_private_folder(folder)
        size = save_copy(self._bench.cabinet, target)
        for copy in to_go(numbered_copies(self._path)):
            with saying_no(copy.path):
                copy.path.unlink(missing_ok=True)
        return Saved(path=target, at=now, size_bytes=size, sha256=sha256_of(target))


def numbered_copies(records: Path) -> tuple[NumberedCopy, ...]:
    """Return the copies that were made by themselves, in the order of making."""
    name = re.compile(rf"{re.escape(records.stem)}-(\d{{6,}})-({_DIGITS}){re.escape(records.suffix)}")
    found = []
    for path in _files(records.parent / FOLDER):
        match = name.fullmatch(path.name)
        at = _read(match[2]) if match else None
        if match and at:
            found.append(NumberedCopy(number=int(match[1]), at=at, path=path))
    return tuple(sorted(found, key=lambda copy: copy.number))


def copies_of(records: Path) -> tuple[Kept, ...]:
    """Return every copy of the records that is known by its name, the newest first, even where the records are gone.

    They lie in the folder of copies, or beside the records under the name that ``dated_copy_path`` gives.
    """
    by_hand = re.compile(rf"{re.escape(records.stem)}-copy-({_DIGITS})(?:-\d+)?{re.escape(records.suffix)}")
    found = [Kept(path=copy.path, at=copy.at) for copy in reversed(numbered_copies(records))]
    for path in _files(records.parent):
        match = by_hand.fullmatch(path.name)
        at = _read(match[1]) if match else None
        if at:
            found.append(Kept(path=path, at=at))
    return tuple(sorted(found, key=lambda kept: kept.at, reverse=True))


_DIGITS = r"\d{4}-\d\d-\d\d-\d{6}"


def _files(folder: Path) -> list[Path]:
    with saying_no(folder):
        return sorted(path for path in folder.iterdir() if path.is_file()) if folder.is_dir() else []


def _read(stamp: str) -> datetime | None:
    try:
        return datetime.strptime(stamp, _STAMP).replace(tzinfo=UTC)
    except ValueError:
        return None
