"""A backup comes back whole, on both engines, by the commands that the keeper types."""

from __future__ import annotations

import json
import stat
from pathlib import Path
from typing import Any
from zipfile import ZipFile

from tests.staff.backup.conftest import Desk


def manifest_of(path: Path) -> Any:
    return json.loads(ZipFile(path).read("manifest.json"))


def changed(path: Path, into: Path, **entries: Any) -> Path:
    """The same backup with another manifest."""
    with ZipFile(path) as old, ZipFile(into, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "manifest.json":
                content = json.dumps(json.loads(content) | entries).encode()
            new.writestr(name, content)
    return into


def test_everything_comes_back_into_an_empty_database(kept: Desk, another: Desk) -> None:
    [made] = kept.backups()
    assert another.manage("restore", str(made)) == 0, another.said
    assert "Restored" in another.said
    assert another.people() == ["maud"]
    assert another.manage("migrate", "--check") == 0, "nothing is left to migrate"
    another.hire("iolo")  # numbers go on where they were
    assert another.manage("backup") == 0, another.said
    counts = manifest_of(made)["counts"]
    assert manifest_of(another.backups()[0])["counts"] == counts | {"auth_user": 2}


def test_a_new_database_that_was_only_migrated_counts_as_empty(kept: Desk, busy: Desk) -> None:
    assert busy.manage("restore", str(kept.backups()[0])) == 0, busy.said
    assert busy.people() == ["maud"]


def test_work_is_replaced_only_by_a_typed_word_and_kept_even_then(
    kept: Desk, another: Desk
) -> None:
    [made] = kept.backups()
    assert another.manage("restore", str(made)) == 0, another.said
    another.hire("iolo")
    both = ["iolo", "maud"]

    assert another.manage("restore", str(made)) == 1
    assert "is not empty" in another.said
    for word in ("", "yes\n"):
        assert another.manage("restore", str(made), "--over", typed=word) == 1
        assert "was not typed" in another.said
    assert (another.people(), another.backups()) == (both, [])

    assert another.manage("restore", str(made), "--over", typed="overwrite\n") == 0, another.said
    assert another.people() == ["maud"]
    [before] = another.backups()
    assert before.name in another.said
    assert another.manage("restore", str(before), "--over", typed="overwrite\n") == 0, another.said
    assert another.people() == both


def test_nobody_else_may_read_a_backup(kept: Desk) -> None:
    [made] = kept.backups()
    assert stat.S_IMODE(made.stat().st_mode) == 0o600
    assert list(kept.folder.iterdir()) == [made], "nothing unfinished is left"


def test_a_manifest_says_what_is_inside(kept: Desk) -> None:
    told = manifest_of(kept.backups()[0])
    assert told["engine"] == ("sqlite" if kept.is_sqlite else "postgresql")
    assert told["counts"]["auth_user"] == 1
    assert "0007_counter" in told["migrations"]["intake"]


def test_the_oldest_go_when_there_are_enough(kept: Desk, tmp_path: Path) -> None:
    old = [tmp_path / f"fairgap-2026010{day}T000000Z.zip" for day in (1, 2, 3)]
    other = [tmp_path / "fairgap-notes.zip", tmp_path / "photos.zip"]
    for path in [*old, *other]:
        path.touch()
    assert kept.manage("backup", "--to", str(tmp_path), "--keep", "2") == 0, kept.said
    left = sorted(tmp_path.glob("*"))
    assert [path for path in left if path in old] == [old[2]]
    assert len(left) == 4, "what is no backup of ours is left alone"


def test_rows_that_are_not_there_undo_the_restore(
    kept: Desk, another: Desk, tmp_path: Path
) -> None:
    [made] = kept.backups()
    assert another.manage("restore", str(made)) == 0, another.said
    another.hire("iolo")
    counts = manifest_of(made)["counts"] | {"auth_user": 7}
    wrong = changed(made, tmp_path / "other.zip", counts=counts)
    assert another.manage("restore", str(wrong), "--over", typed="overwrite\n") == 1
    assert "Nothing was restored" in another.said
    assert another.people() == ["iolo", "maud"]


def test_a_backup_of_a_newer_version_names_what_is_needed(
    kept: Desk, another: Desk, tmp_path: Path
) -> None:
    [made] = kept.backups()
    seen = manifest_of(made)["migrations"]
    newer = seen | {"intake": [*seen["intake"], "0999_from_tomorrow"]}
    wrong = changed(made, tmp_path / "newer.zip", migrations=newer)
    assert another.manage("restore", str(wrong)) == 1
    assert "intake 0999_from_tomorrow" in another.said


def test_a_backup_of_an_older_version_is_migrated(kept: Desk, another: Desk) -> None:
    assert another.manage("migrate", "intake", "0006", "-v", "0") == 0, another.said
    another.sql("INSERT INTO auth_group (name) VALUES ('of old')")
    assert another.manage("backup") == 0, another.said
    [made] = another.backups()
    assert another.manage("migrate", "-v", "0") == 0, another.said
    another.hire("iolo")

    assert another.manage("restore", str(made), "--over", typed="overwrite\n") == 0, another.said
    assert "migrated" in another.said
    assert another.manage("migrate", "--check") == 0
    assert another.people() == []
    assert another.sql("SELECT name FROM auth_group") == [("of old",)]


def test_the_other_engines_backup_is_refused(kept: Desk, tmp_path: Path) -> None:
    other = "postgresql" if kept.is_sqlite else "sqlite"
    wrong = changed(kept.backups()[0], tmp_path / "other.zip", engine=other)
    assert kept.manage("restore", str(wrong)) == 1
    assert f"a backup of {other}" in kept.said


def test_a_file_that_is_not_there_is_said(another: Desk) -> None:
    assert another.manage("restore", "var/none.zip") == 1
    assert "There is no file" in another.said


def test_a_folder_that_cannot_be_written_is_said(kept: Desk, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    assert kept.manage("backup", "--to", str(tmp_path / "file" / "below")) == 1
    assert "could not be written" in kept.said
    assert "Traceback" not in kept.said


def test_no_login_comes_back_with_it(kept: Desk, another: Desk) -> None:
    """Who was logged in when the backup was made may have been told to leave since."""
    assert another.manage("restore", str(kept.backups()[0])) == 0, another.said
    another.sql(
        "INSERT INTO staff_seat (user_id, since, active_at, address, browser, second, ended_why)"
        " SELECT id, '2026-11-25 10:00+00:00', '2026-11-25 10:00+00:00', '', '', FALSE, ''"
        " FROM auth_user"
    )
    assert another.manage("backup") == 0, another.said
    [made] = another.backups()
    assert another.manage("restore", str(made), "--over", typed="overwrite\n") == 0, another.said
    assert another.sql("SELECT ended_why FROM staff_seat WHERE ended_at IS NOT NULL") == [
        ("restored from a backup",)
    ]
