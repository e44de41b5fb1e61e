"""Writers that go on, a full disk, a killed process, a wrong password, a site that still runs."""

from __future__ import annotations

import json
import resource
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from zipfile import ZipFile

import psycopg
import pytest

from tests.servers import wait_for
from tests.services.conftest import ROOT
from tests.staff.backup.conftest import HIRE, Desk

GROUP = "INSERT INTO auth_group (name) VALUES ('group {number}')"
BIG = 40_000_000  # bytes that do not get smaller by packing: a second of work


@contextmanager
def pairs_written(desk: Desk) -> Iterator[None]:
    """Meanwhile somebody writes: two rows, in two tables, in each transaction."""
    stop = threading.Event()
    wrote = threading.Event()

    def write() -> None:
        number = 0
        with closing(desk.connect()) as connection:
            while not stop.is_set():
                number += 1
                connection.execute("BEGIN")
                connection.execute(HIRE.format(name=f"clerk {number}"))
                connection.execute(GROUP.format(number=number))
                connection.execute("COMMIT")
                wrote.set()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        assert wrote.wait(20)
        yield
    finally:
        stop.set()
        writer.join()


def test_a_backup_is_of_one_moment_while_others_write(
    busy: Desk, new_url: Callable[..., str]
) -> None:
    with pairs_written(busy):
        assert busy.manage("backup") == 0, busy.said
        more = busy.sql("SELECT count(*) FROM auth_user")[0][0]
    counts = json.loads(ZipFile(busy.backups()[0]).read("manifest.json"))["counts"]
    groups = counts["auth_group"] - 3  # beside those every desk has
    assert 0 < counts["auth_user"] == groups <= more

    back = Desk(new_url("back"), busy.folder)
    assert back.manage("restore", str(busy.backups()[0])) == 0, back.said
    rows = "SELECT (SELECT count(*) FROM auth_user), (SELECT count(*) FROM auth_group)"
    assert back.sql(rows) == [(groups, groups + 3)]


def a_full_disk() -> None:
    """No file of this process grows beyond 64 kB."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (65_536, 65_536))


def test_a_full_disk_leaves_nothing_that_looks_good(busy: Desk) -> None:
    assert busy.manage("backup", preexec_fn=a_full_disk) == 1
    assert "Traceback" not in busy.said
    assert "could not" in busy.said
    assert list(busy.folder.iterdir()) == []


def grow(desk: Desk) -> None:
    """Put something big in."""
    digests = f"sha512(n::text::bytea) AS what FROM generate_series(1, {BIG // 64}) AS n"
    what = f"randomblob({BIG}) AS what" if desk.is_sqlite else digests
    desk.sql(f"CREATE TABLE big AS SELECT {what}")


def test_a_killed_backup_leaves_nothing_that_looks_good(busy: Desk) -> None:
    grow(busy)
    killed = subprocess.Popen([sys.executable, "manage.py", "backup"], env=busy.env, cwd=ROOT)
    wait_for(lambda: list(busy.folder.glob(".unfinished-*/*")), what="the backup to begin")
    killed.kill()
    killed.wait()
    assert busy.backups() == []
    assert [left.name[:12] for left in busy.folder.iterdir()] == [".unfinished-"]
    assert busy.manage("backup") == 0, busy.said
    assert len(busy.backups()) == 1


def test_a_damaged_database_is_no_backup(busy: Desk, engine: str) -> None:
    if engine == "sqlite":
        path = Path(busy.url.removeprefix("sqlite:///"))
        whole = bytearray(path.read_bytes())
        whole[40_960:81_920] = b"\xff" * 40_960
        path.write_bytes(whole)
    else:
        busy.sql("DROP TABLE django_migrations")
    assert busy.manage("backup") == 1
    assert "Traceback" not in busy.said
    assert busy.backups() == []


def test_a_site_that_still_runs_stops_a_restore(kept: Desk, busy: Desk) -> None:
    busy.hire("iolo")
    with closing(busy.connect()) as site:
        site.execute("BEGIN")
        site.execute(HIRE.format(name="bronagh"))
        code = busy.manage("restore", str(kept.backups()[0]), "--over", typed="overwrite\n")
        assert (code, "stop the site first" in busy.said) == (1, True), busy.said
        site.execute("COMMIT")
    assert busy.people() == ["bronagh", "iolo"]


@pytest.fixture
def locked(cluster: tuple[Path, str], tmp_path: Path) -> str:
    """The address of a database whose owner is asked for a password, and is no superuser."""
    folder, first = cluster
    admin = Desk(first, tmp_path)
    admin.sql("CREATE ROLE locked LOGIN PASSWORD 'the-right-one'")
    admin.sql("CREATE DATABASE locked OWNER locked")
    rules = folder / "postgres/data/pg_hba.conf"
    rules.write_text("host all locked 127.0.0.1/32 scram-sha-256\n" + rules.read_text())
    admin.sql("SELECT pg_reload_conf()")
    url = first.replace("fairgap@", "locked:the-right-one@").replace("/postgres", "/locked")
    wait_for(lambda: not lets_in(url.replace("right", "wrong")), what="passwords to be asked for")
    return url


def lets_in(url: str) -> bool:
    try:
        psycopg.connect(url).close()
    except psycopg.OperationalError:
        return False
    return True


@pytest.mark.worker
def test_a_wrong_password_is_told_plainly_and_the_right_one_does(
    locked: str, tmp_path: Path
) -> None:
    desk = Desk(locked, tmp_path / "backups")
    assert desk.manage("migrate", "-v", "0") == 0, desk.said
    assert desk.manage("backup") == 0, desk.said
    [made] = desk.backups()
    desk.hire("maud")
    assert desk.manage("restore", str(made), "--over", typed="overwrite\n") == 0, desk.said
    assert desk.people() == []

    desk.url = locked.replace("right", "wrong")
    for words in (["backup"], ["restore", str(made)]):
        assert desk.manage(*words) == 1
        assert "password authentication failed" in desk.said
        assert "DATABASE_URL" in desk.said
        assert "Traceback" not in desk.said
        assert "the-wrong-one" not in desk.said
