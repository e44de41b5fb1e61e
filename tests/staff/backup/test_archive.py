"""The file itself: what is not whole is refused, whatever was cut or changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from staff.backup import archive
from staff.backup.errors import BackupError
from staff.backup.state import is_older, refuse_newer

CONTENT = bytes(range(256)) * 4000


@pytest.fixture(params=["sqlite", "postgresql"])
def made(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    """A small backup of made-up bytes."""
    payload, into = tmp_path / "payload", tmp_path / "made.zip"
    payload.write_bytes(CONTENT)
    size, digest = archive.measure(payload)
    manifest = archive.Manifest(request.param, "now", {}, {"intake_boat": 3}, size, digest)
    archive.pack(payload, manifest, into)
    return into


def take_out(path: Path, into: Path) -> bytes:
    archive.unpack(path, archive.read_manifest(path), into)
    return into.read_bytes()


def test_what_was_put_in_comes_out(made: Path, tmp_path: Path) -> None:
    assert take_out(made, tmp_path / "out") == CONTENT
    assert archive.read_manifest(made).counts == {"intake_boat": 3}


@pytest.mark.parametrize("share", [0, 0.01, 0.5, 0.9, 0.999])
def test_what_was_cut_short_is_refused(made: Path, tmp_path: Path, share: float) -> None:
    whole = made.read_bytes()
    made.write_bytes(whole[: int(len(whole) * share)])
    with pytest.raises(BackupError, match="not a whole backup"):
        take_out(made, tmp_path / "out")


def test_one_changed_byte_is_refused(made: Path, tmp_path: Path) -> None:
    whole = bytearray(made.read_bytes())
    whole[len(whole) // 4] ^= 1
    made.write_bytes(whole)
    with pytest.raises(BackupError, match="not a whole backup"):
        take_out(made, tmp_path / "out")


def test_other_content_under_the_old_sum_is_refused(made: Path, tmp_path: Path) -> None:
    manifest = archive.read_manifest(made)
    payload = tmp_path / "other"
    payload.write_bytes(CONTENT[::-1])
    archive.pack(payload, manifest, made)
    with pytest.raises(BackupError, match="not a whole backup"):
        take_out(made, tmp_path / "out")


def test_what_a_later_version_writes_otherwise_is_refused(made: Path, tmp_path: Path) -> None:
    manifest = archive.read_manifest(made)
    later = archive.Manifest("sqlite", "now", {}, {}, 1, manifest.sha256, format=2)
    archive.pack(tmp_path / "payload", later, made)
    with pytest.raises(BackupError, match="does not know"):
        archive.read_manifest(made)


def test_a_backup_of_a_newer_version_names_what_is_needed() -> None:
    with pytest.raises(BackupError, match="intake 0999_from_tomorrow"):
        refuse_newer({"intake": ["0001_initial", "0999_from_tomorrow"]})
    refuse_newer({"intake": ["0001_initial"]})


def test_what_has_seen_less_is_older() -> None:
    assert is_older({"intake": ["0001_initial"]})
