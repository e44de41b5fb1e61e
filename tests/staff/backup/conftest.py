"""A desk with its own database on either engine, kept and brought back by the real commands."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from typing import Any

import psycopg
import pytest

from tests.servers import start_postgres
from tests.services.conftest import ROOT, clean_environment

HIRE = """
INSERT INTO auth_user (username, password, first_name, last_name, email,
    is_superuser, is_staff, is_active, date_joined)
VALUES ('{name}', '!', '', '', '', FALSE, TRUE, TRUE, '2026-11-25T10:00:00+00:00')
"""


@dataclass
class Desk:
    """One database, and ``manage.py`` on it. ``said``: what the last command printed."""

    url: str
    folder: Path
    said: str = ""
    more: dict[str, str] = field(default_factory=dict)

    @property
    def env(self) -> dict[str, str]:
        kept = {"DATABASE_URL": self.url, "BACKUP_FOLDER": str(self.folder), "HTTPS": "false"}
        return clean_environment(**kept) | self.more

    def manage(self, *words: str, typed: str = "", **how: Any) -> int:
        done = subprocess.run(
            [sys.executable, "manage.py", *words],
            env=self.env, cwd=ROOT, capture_output=True, text=True, check=False, input=typed, **how,
        )  # fmt: skip
        self.said = done.stdout + done.stderr
        return done.returncode

    @property
    def is_sqlite(self) -> bool:
        return self.url.startswith("sqlite")

    def connect(self) -> Any:
        """The engine's own connection, each statement for itself; close it."""
        if self.is_sqlite:
            path = self.url.removeprefix("sqlite:///")
            return sqlite3.connect(path, timeout=20, isolation_level=None)
        return psycopg.connect(self.url, autocommit=True)

    def sql(self, statement: str) -> list[Any]:
        """Run one statement; the rows it gives."""
        with closing(self.connect()) as connection:
            found = connection.execute(statement)
            return list(found.fetchall()) if found.description else []

    def backups(self) -> list[Path]:
        return sorted(self.folder.glob("fairgap-*.zip"))

    def hire(self, name: str) -> None:
        """One more row, of a person who works here."""
        self.sql(HIRE.format(name=name))

    def people(self) -> list[str]:
        return [name for (name,) in self.sql("SELECT username FROM auth_user ORDER BY username")]


@pytest.fixture(scope="session")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    """A private PostgreSQL for these tests: its folder, and the address of its first database."""
    folder = tmp_path_factory.mktemp("cluster")
    for parent in folder.parents:  # PostgreSQL's own user must get through to its folder
        if parent.name.startswith(("pytest-", "popen-")) and parent.owner() == folder.owner():
            parent.chmod(parent.stat().st_mode | 0o011)
    server, url = start_postgres(folder)
    yield folder, url
    server.kill()


@pytest.fixture(scope="session")
def engine(request: pytest.FixtureRequest) -> str:
    """The engine of this run; its server is one of our own."""
    return str(request.config.getoption("--db"))


@pytest.fixture(scope="session")
def new_url(
    engine: str, request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Callable[..., str]:
    """``new_url("one", like="")``: the address of a new database, empty or like another one."""
    numbers = count(1)

    def new(name: str, like: str = "") -> str:
        if engine == "sqlite":
            made = tmp_path_factory.mktemp(name) / "desk.sqlite3"
            if like:
                shutil.copy(like.removeprefix("sqlite:///"), made)
            return f"sqlite:///{made}"
        _, first = request.getfixturevalue("cluster")
        name = f"{name}_{next(numbers)}"
        template = f"TEMPLATE {like.rpartition('/')[2]}" if like else ""
        Desk(first, Path()).sql(f"CREATE DATABASE {name} {template}")
        return str(first).replace("/postgres", f"/{name}")

    return new


@pytest.fixture(scope="session")
def born(new_url: Callable[..., str]) -> str:
    """The address of a database that was migrated, and has its groups. To be copied only."""
    desk = Desk(new_url("born"), Path())
    assert desk.manage("migrate", "-v", "0") == 0, desk.said
    assert desk.manage("make_groups") == 0, desk.said
    return desk.url


@pytest.fixture(scope="session")
def kept(born: str, new_url: Callable[..., str], tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """A desk with one person, and one backup of it."""
    desk = Desk(new_url("kept", like=born), tmp_path_factory.mktemp("backups"))
    desk.hire("maud")
    assert desk.manage("backup") == 0, desk.said
    return desk


@pytest.fixture
def another(new_url: Callable[..., str], tmp_path: Path) -> Desk:
    """A desk with an empty database."""
    return Desk(new_url("another"), tmp_path / "backups")


@pytest.fixture
def busy(born: str, new_url: Callable[..., str], tmp_path: Path) -> Desk:
    """A desk of this test's own, with its tables and groups and nothing else."""
    return Desk(new_url("busy", like=born), tmp_path / "backups")
