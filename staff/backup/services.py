"""Keeping everything in one file, and getting it back. Each function is one whole step."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.db import DatabaseError, OperationalError
from django.db.backends.base.base import BaseDatabaseWrapper

from staff.backup import archive, postgres, sqlite
from staff.backup.archive import Manifest
from staff.backup.disk import put_in_place, workplace
from staff.backup.errors import BackupError
from staff.backup.state import filled, is_older, refuse_newer
from staff.seats.services import end_everybodys

_ENGINES: dict[str, Any] = {"sqlite": sqlite, "postgresql": postgres}


def backup(connection: BaseDatabaseWrapper, *, folder: Path, keep: int | None) -> Path:
    """Write a backup of everything into ``folder`` and return it; the site may go on meanwhile.

    The ``keep`` newest stay (None: all of them). Raises BackupError, and then leaves no file.
    """
    try:
        with workplace(folder) as place:
            made = _make(connection, place)
            kept = folder / archive.name_at(datetime.now(UTC))
            put_in_place(made, kept)
    except OSError as error:
        where = f" ({error.filename})" if error.filename else ""
        raise BackupError(
            f"The backup could not be written into {folder}: {error.strerror or error}{where}. "
            "No file was left behind."
        ) from None
    except DatabaseError as error:
        raise BackupError(_refused(error)) from None
    for old in archive.kept_in(folder)[keep:] if keep is not None else ():
        old.unlink(missing_ok=True)
    return kept


def _make(connection: BaseDatabaseWrapper, place: Path) -> Path:
    payload, made = place / "payload", place / "made.zip"
    counts, migrations = _engine(connection).dump(connection, payload)
    size, digest = archive.measure(payload)
    manifest = Manifest(
        engine=connection.vendor,
        made_at=f"{datetime.now(UTC):%Y-%m-%dT%H:%M:%SZ}",
        migrations=migrations,
        counts=counts,
        bytes=size,
        sha256=digest,
    )
    archive.pack(payload, manifest, made)
    payload.unlink()
    archive.unpack(made, archive.read_manifest(made), payload)  # what cannot be read is none
    return made


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restore did: what came back, what was kept of what stood there, what followed."""

    manifest: Manifest
    before: Path | None
    migrated: bool


def restore(
    connection: BaseDatabaseWrapper, *, path: Path, folder: Path, over: bool = False
) -> Restored:
    """Put a backup back. Everything is proved before anything is replaced.

    With ``over`` a database that is not empty is replaced; it is itself kept in ``folder`` first.
    Every login that came back with it is ended.
    Raises BackupError, and then nothing was changed.
    """
    manifest = archive.read_manifest(path)
    _fits(connection, manifest)
    try:
        work = _work_in(connection)
        if work and not over:
            raise BackupError(_not_empty(connection, work))
        with workplace(folder) as place:
            archive.unpack(path, manifest, place / "payload")
            before = backup(connection, folder=folder, keep=None) if work else None
            _engine(connection).put_back(connection, place / "payload", manifest)
    except OSError as error:
        raise BackupError(f"Nothing was restored: {error.strerror or error}.") from None
    except DatabaseError as error:
        raise BackupError(_refused(error)) from None
    older = is_older(manifest.migrations)
    if older:
        call_command("migrate", database=connection.alias, interactive=False, verbosity=0)
    # Who had logged out, or was made to, since the backup would be logged in again.
    end_everybodys(why="restored from a backup", database=connection.alias)
    return Restored(manifest, before, older)


def _fits(connection: BaseDatabaseWrapper, manifest: Manifest) -> None:
    if manifest.engine != connection.vendor:
        raise BackupError(
            f"This is a backup of {manifest.engine}, and DATABASE_URL names {connection.vendor}. "
            "Nothing was restored."
        )
    refuse_newer(manifest.migrations)


def _work_in(connection: BaseDatabaseWrapper) -> list[str]:
    with connection.cursor() as cursor:
        return filled(cursor, _engine(connection).table_names(cursor))


def _engine(connection: BaseDatabaseWrapper) -> Any:
    try:
        return _ENGINES[connection.vendor]
    except KeyError:
        raise BackupError(f"There is no backup for {connection.vendor}.") from None


def _not_empty(connection: BaseDatabaseWrapper, tables: list[str]) -> str:
    return (
        f"The database {connection.settings_dict['NAME']} is not empty: something stands in "
        f"{len(tables)} of its tables ({', '.join(tables[:3])}). Nothing was restored. "
        "To replace all of it, say --over."
    )


def _refused(error: DatabaseError) -> str:
    """What the database said, one line of it, with what to look at."""
    said = (str(error).strip() or "it gave no answer").splitlines()[0]
    if isinstance(error, OperationalError):
        return (
            f"The database does not let us in: {said}. Look at DATABASE_URL. Nothing was changed."
        )
    return f"This database is not a whole one of Fairgap's: {said}. Nothing was changed."
