"""The file: a zip with the database in it and, written last, a manifest that says what it holds.

``fairgap-20261125T180400Z.zip`` holds ``fairgap.sqlite3`` (a SQLite file) or ``fairgap.dump``
(what ``pg_dump -Fc`` wrote), and ``manifest.json``. Cut short, it has no directory and no
manifest, and is refused.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import IO
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile

from staff.backup.errors import BackupError

FORMAT = 1
_NAME = re.compile(r"fairgap-\d{8}T\d{6}Z\.zip")
_CHUNK = 1 << 20  # bytes
PAYLOADS = {"sqlite": "fairgap.sqlite3", "postgresql": "fairgap.dump"}


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup says of itself. ``counts``: rows by table; ``migrations``: app -> names."""

    engine: str
    made_at: str
    migrations: Mapping[str, list[str]]
    counts: Mapping[str, int]
    bytes: int
    sha256: str
    format: int = FORMAT


def name_at(moment: datetime) -> str:
    """The name of a backup made at this moment (UTC)."""
    return f"fairgap-{moment:%Y%m%dT%H%M%S}Z.zip"


def kept_in(folder: Path) -> list[Path]:
    """The backups of a folder, newest first; everything else in it is left alone."""
    return sorted((p for p in folder.glob("*.zip") if _NAME.fullmatch(p.name)), reverse=True)


def measure(payload: Path) -> tuple[int, str]:
    """How many bytes a file has, and its SHA-256."""
    digest = hashlib.sha256()
    with payload.open("rb") as file:
        while chunk := file.read(_CHUNK):
            digest.update(chunk)
    return payload.stat().st_size, digest.hexdigest()


def pack(payload: Path, manifest: Manifest, into: Path) -> None:
    """Write the file. The manifest comes last: where it can be read, the rest is there."""
    packed_already = manifest.engine == "postgresql"
    how = ZIP_STORED if packed_already else ZIP_DEFLATED
    with ZipFile(into, "w", how, compresslevel=6) as zipped:
        zipped.write(payload, PAYLOADS[manifest.engine])
        zipped.writestr("manifest.json", json.dumps(asdict(manifest), indent=1, sort_keys=True))


def read_manifest(path: Path) -> Manifest:
    """What the file says of itself. Raises BackupError where it is no backup, or not whole."""
    try:
        with ZipFile(path) as zipped:
            told = json.loads(zipped.read("manifest.json"))
    except FileNotFoundError:
        raise BackupError(f"There is no file {path}.") from None
    except PermissionError:
        raise BackupError(f"You may not read {path}.") from None
    except (BadZipFile, KeyError, ValueError, EOFError):
        raise BackupError(_not_whole(path)) from None
    if not isinstance(told, dict) or told.get("format") != FORMAT:
        raise BackupError(f"{path.name} is written in a way this version does not know.")
    return Manifest(**told)


def unpack(path: Path, manifest: Manifest, into: Path) -> None:
    """Take the database out of the file, and prove that it is what was put in."""
    digest = hashlib.sha256()
    try:
        with ZipFile(path) as zipped, into.open("xb") as out:
            into.chmod(0o600)
            with zipped.open(PAYLOADS[manifest.engine]) as packed:
                _copy(packed, out, digest.update)
    except (BadZipFile, KeyError, EOFError):
        raise BackupError(_not_whole(path)) from None
    if digest.hexdigest() != manifest.sha256:
        raise BackupError(_not_whole(path))


def _copy(packed: IO[bytes], out: IO[bytes], also: Callable[[bytes], object]) -> None:
    while chunk := packed.read(_CHUNK):
        out.write(chunk)
        also(chunk)


def _not_whole(path: Path) -> str:
    return (
        f"{path.name} is not a whole backup: it was cut short or changed. Nothing was restored; "
        "take another one."
    )
