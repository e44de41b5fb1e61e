"""Files that are whole or not there: made private, forced to the disk, renamed when finished.

The only module here that speaks to the operating system; it reads nothing of the environment.
"""

from __future__ import annotations

import os
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_UNFINISHED = ".unfinished-"
_ABANDONED_SECONDS = 24 * 3600


@contextmanager
def workplace(folder: Path) -> Iterator[Path]:
    """A private folder inside ``folder`` for what is not finished; gone at the end.

    A killed process leaves it behind, under a name that nobody takes for a backup; the next one
    removes it when it is a day old.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    _sweep(folder)
    with tempfile.TemporaryDirectory(prefix=_UNFINISHED, dir=folder) as place:
        yield Path(place)


def _sweep(folder: Path) -> None:
    for left in folder.glob(f"{_UNFINISHED}*"):
        with suppress(FileNotFoundError):  # another backup swept it first
            if time.time() - left.stat().st_mtime > _ABANDONED_SECONDS:
                shutil.rmtree(left, ignore_errors=True)


def put_in_place(finished: Path, name: Path) -> None:
    """Give a whole file its name, at once and to stay; nobody else may read it."""
    finished.chmod(0o600)
    _flush(finished)
    finished.replace(name)
    _flush(name.parent)


def take_the_place_of(new: Path, old: Path) -> None:
    """Put a whole file where another is, with the other's owner and rights."""
    if old.exists():
        was = old.stat()
        shutil.copymode(old, new)
        if (new.stat().st_uid, new.stat().st_gid) != (was.st_uid, was.st_gid):
            os.chown(new, was.st_uid, was.st_gid)
    _flush(new)
    new.replace(old)
    _flush(old.parent)


def _flush(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
