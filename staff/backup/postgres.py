"""PostgreSQL: a dump of one moment with PostgreSQL's own programs, and back in one transaction.

Who we are to the server travels in the programs' environment; a command line is for all to read.
"""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.backends.postgresql.client import DatabaseClient

from staff.backup.archive import Manifest
from staff.backup.errors import BackupError
from staff.backup.state import Cursor, count_rows, migrations_in

Counts = dict[str, int]
Migrations = dict[str, list[str]]
_PATH = "/usr/local/bin:/usr/bin:/bin"
_SETTINGS = {"HOST": "PGHOST", "PORT": "PGPORT", "USER": "PGUSER", "NAME": "PGDATABASE"}
# Nobody may look at the tables while they are changed; who still works there is waited for so long.
_BEGIN = """\
\\set ON_ERROR_STOP on
BEGIN;
SET LOCAL lock_timeout = '20s';
SELECT pg_catalog.format(
    'DROP SCHEMA %1$I CASCADE; CREATE SCHEMA %1$I; GRANT USAGE ON SCHEMA %1$I TO PUBLIC',
    pg_catalog.current_schema()) \\gexec
"""
_COUNT = """\
DO $check$ BEGIN
  IF (SELECT count(*) FROM "{schema}"."{table}") <> {rows} THEN
    RAISE EXCEPTION '{table} does not hold {rows} rows';
  END IF;
END $check$;
"""


def table_names(cursor: Cursor) -> list[str]:
    """Every table of ours."""
    cursor.execute("SELECT tablename FROM pg_tables WHERE schemaname = current_schema()")
    return [name for (name,) in cursor.fetchall()]


def dump(connection: BaseDatabaseWrapper, into: Path) -> tuple[Counts, Migrations]:
    """Dump the database as it is at one moment, and count its rows at the very same one."""
    with _one_moment(connection) as (cursor, snapshot):
        told = count_rows(cursor, table_names(cursor)), migrations_in(cursor)
        _run(
            connection,
            ["pg_dump", "--format=custom", "--no-owner", "--no-privileges", "--no-comments",
             f"--snapshot={snapshot}", f"--file={into}", "--no-password"],
        )  # fmt: skip
    return told


def put_back(connection: BaseDatabaseWrapper, payload: Path, manifest: Manifest) -> None:
    """Replace everything by what the dump holds, count it, and only then commit.

    The script opens the transaction and ends it itself: a program that is killed on the way, ours
    or PostgreSQL's, leaves the database as it was.
    """
    schema = _schema(connection)
    connection.close()
    read = [_program("psql"), "--no-psqlrc", "--quiet", "--no-password", "--output=/dev/null"]
    with (payload.parent / "said").open("w+b") as said:
        psql = subprocess.Popen(  # noqa: S603 - PostgreSQL's own program, no shell
            read, stdin=subprocess.PIPE, stderr=said, env=_environment(connection)
        )
        sent = _send(psql, payload, _checks(schema, manifest.counts), connection)
        if psql.wait() or sent:
            said.seek(0)
            raise BackupError(f"Nothing was restored. {_kindly(_first_error(said.read()) or sent)}")


def _send(
    psql: subprocess.Popen[bytes], payload: Path, checks: str, connection: BaseDatabaseWrapper
) -> str:
    """Hand the script on; says what was wrong with the dump. Without its last line it is undone."""
    command = [_program("pg_restore"), "--no-owner", "--no-privileges", "--file=-", str(payload)]
    assert psql.stdin is not None  # noqa: S101 - it is a pipe
    with suppress(BrokenPipeError), psql.stdin as script:
        script.write(_BEGIN.encode())
        script.flush()
        wrote = subprocess.run(  # noqa: S603 - PostgreSQL's own program, no shell
            command,
            stdout=script,
            stderr=subprocess.PIPE,
            env=_environment(connection),
            check=False,
        )
        if wrote.returncode:
            return _first_error(wrote.stderr) or "pg_restore was ended."
        script.write(checks.encode())
    return ""


def _checks(schema: str, counts: Mapping[str, int]) -> str:
    each = (_COUNT.format(schema=schema, table=name, rows=rows) for name, rows in counts.items())
    return "".join([*each, "COMMIT;\n"])


def _schema(connection: BaseDatabaseWrapper) -> str:
    with connection.cursor() as cursor:
        cursor.execute("SELECT current_schema()")
        return str(cursor.fetchone()[0])


@contextmanager
def _one_moment(connection: BaseDatabaseWrapper) -> Iterator[tuple[Any, str]]:
    """A cursor that sees one moment, and the name by which others may see the same."""
    own = connection.copy()
    try:
        own.set_autocommit(False)
        with own.cursor() as cursor:
            cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
            cursor.execute("SELECT pg_export_snapshot()")
            yield cursor, str(cursor.fetchone()[0])
    finally:
        own.close()


def _run(connection: BaseDatabaseWrapper, command: Sequence[str]) -> None:
    program, *rest = command
    done = subprocess.run(  # noqa: S603 - PostgreSQL's own program, no shell
        [_program(program), *rest], env=_environment(connection), capture_output=True, check=False
    )
    if done.returncode:
        raise BackupError(f"{program} could not do it: {_first_error(done.stderr)}")


def _environment(connection: BaseDatabaseWrapper) -> dict[str, str]:
    """What a program of PostgreSQL needs to be let in, and nothing of our own."""
    settings = connection.settings_dict
    _, secrets = DatabaseClient.settings_to_cmd_args_env(settings, [])
    named = {_SETTINGS[key]: str(settings[key]) for key in _SETTINGS if settings.get(key)}
    return {"PATH": _PATH, "PGCONNECT_TIMEOUT": "20", **named, **(secrets or {})}


def _program(name: str) -> str:
    """Where one of PostgreSQL's programs is: the newest, which reads what older ones wrote."""
    newest = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), key=_version)
    found = newest[-1] if newest else shutil.which(name)
    if not found:
        raise BackupError(
            f"{name} is not on this machine. Install PostgreSQL's programs, not older than the "
            "server (Debian: apt-get install postgresql-client)."
        )
    return str(found)


def _version(path: Path) -> int:
    number = path.parent.parent.name
    return int(number) if number.isdigit() else 0


def _kindly(said: str) -> str:
    return f"Somebody is at work: stop the site first. ({said})" if "lock timeout" in said else said


def _first_error(said: bytes) -> str:
    """The line that tells, without the program's name and the place in the script."""
    lines = said.decode(errors="replace").strip().splitlines()
    wrong = [line for line in lines if "ERROR" in line or "FATAL" in line or "error:" in line]
    return (wrong or lines or [""])[0]
