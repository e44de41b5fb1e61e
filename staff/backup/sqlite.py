"""SQLite: a consistent copy while others write, and putting one in the place of the database."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from django.db.backends.base.base import BaseDatabaseWrapper

from staff.backup.archive import Manifest
from staff.backup.disk import take_the_place_of, workplace
from staff.backup.errors import BackupError
from staff.backup.state import Cursor, count_rows, migrations_in

_PATIENCE = 20  # seconds that we wait for a writer
Counts = dict[str, int]
Migrations = dict[str, list[str]]


def file_of(connection: BaseDatabaseWrapper) -> Path:
    """Where the database is. Raises BackupError where it is in memory alone."""
    name = str(connection.settings_dict["NAME"])
    if ":memory:" in name or "mode=memory" in name:
        raise BackupError("This database is in memory alone: there is nothing to keep.")
    return Path(name)


def table_names(cursor: Cursor) -> list[str]:
    """Every table that holds rows of its own: an index for searching does not."""
    cursor.execute("PRAGMA main.table_list")
    found = ((row[1], row[2]) for row in cursor.fetchall())
    return [name for name, kind in found if kind == "table" and not name.startswith("sqlite_")]


def dump(connection: BaseDatabaseWrapper, into: Path) -> tuple[Counts, Migrations]:
    """Copy the database as it is at one moment, and prove the copy. Writers go on meanwhile."""
    source = file_of(connection)
    if not source.exists():
        raise BackupError(f"There is no database at {source}.")
    try:
        with (
            closing(sqlite3.connect(source, timeout=_PATIENCE)) as live,
            closing(sqlite3.connect(into)) as copy,
        ):
            live.backup(copy)  # all pages in one step: one read transaction, which stops nobody
            copy.execute("PRAGMA journal_mode=DELETE")  # one file, with nothing beside it
            _prove(copy)
            return _tables(copy), migrations_in(copy.cursor())
    except sqlite3.Error as error:
        raise BackupError(f"SQLite could not copy {source.name}: {error}.") from None


def put_back(connection: BaseDatabaseWrapper, payload: Path, manifest: Manifest) -> None:
    """Prove the unpacked file, then put it where the database is. Nobody may have that open."""
    target = file_of(connection)
    connection.close()
    with workplace(target.parent) as place:
        new = Path(shutil.move(payload, place / "new"))  # onto the disk where it will stay
        with closing(sqlite3.connect(new)) as copy:
            _prove(copy)
            if _tables(copy) != dict(manifest.counts):
                raise BackupError("The backup does not hold what it says. Nothing was restored.")
        _only_we_have(target)
        take_the_place_of(new, target)


def _tables(copy: sqlite3.Connection) -> Counts:
    return count_rows(copy.cursor(), table_names(copy.cursor()))


def _prove(copy: sqlite3.Connection) -> None:
    """Raise BackupError unless every page of the file is sound."""
    try:
        found = copy.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except sqlite3.DatabaseError as error:
        found = str(error)
    if found != "ok":
        raise BackupError(f"The database is damaged: {found}.")


def _only_we_have(target: Path) -> None:
    """Take the write-ahead log in and make sure that nobody else has the file open.

    Leaving WAL needs the whole file for oneself; a site that still runs would go on with the
    file that is taken away, and what it wrote there would be lost.
    """
    if not target.exists():
        return
    with closing(sqlite3.connect(target, timeout=1)) as live:
        try:
            live.execute("PRAGMA journal_mode=DELETE")
        except sqlite3.OperationalError:
            raise BackupError(
                f"Somebody has {target.name} open: stop the site first. Nothing was restored."
            ) from None
