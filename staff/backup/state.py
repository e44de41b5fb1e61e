"""What stands in a database: its tables, how full they are, and how far it was migrated."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any, Protocol

from django.db.migrations.loader import MigrationLoader

from staff.backup.errors import BackupError

# What `migrate` and `make_groups` write by themselves: a database with no more is a new one.
BORN_WITH = frozenset(
    {
        "django_migrations",
        "django_content_type",
        "auth_permission",
        "auth_group",
        "auth_group_permissions",
    }
)
Migrations = Mapping[str, list[str]]


class Cursor(Protocol):
    """As much of a cursor as is used: SQLite's own and Django's are one."""

    def execute(self, sql: str, /) -> Any: ...
    def fetchone(self) -> Any: ...
    def fetchall(self) -> list[Any]: ...


def count_rows(cursor: Cursor, tables: Iterable[str]) -> dict[str, int]:
    """How many rows each of these tables has."""
    found = {}
    for table in sorted(tables):
        cursor.execute(f'SELECT count(*) FROM "{table}"')  # noqa: S608 - names of our own tables
        found[table] = int(cursor.fetchone()[0])
    return found


def migrations_in(cursor: Cursor) -> dict[str, list[str]]:
    """The migrations a database has seen, by app."""
    cursor.execute("SELECT app, name FROM django_migrations ORDER BY app, name")
    found: defaultdict[str, list[str]] = defaultdict(list)
    for app, name in cursor.fetchall():
        found[app].append(name)
    return dict(found)


def filled(cursor: Cursor, tables: Iterable[str]) -> list[str]:
    """The tables in which somebody's work stands; none in a new database."""
    found = []
    for table in sorted(set(tables) - BORN_WITH):
        cursor.execute(f'SELECT 1 FROM "{table}" LIMIT 1')  # noqa: S608 - names of our own tables
        if cursor.fetchone():
            found.append(table)
    return found


def refuse_newer(migrations: Migrations) -> None:
    """Raise BackupError where the backup was made by a version newer than this one."""
    new = sorted(_pairs(migrations) - _known())
    if new:
        names = ", ".join(f"{app} {name}" for app, name in new)
        raise BackupError(
            "This backup was made by a newer version of Fairgap. Install the version that knows "
            f"{names}, then restore. Nothing was restored."
        )


def is_older(migrations: Migrations) -> bool:
    """True where this version has migrations that the backup has not seen."""
    return not set(_loader().disk_migrations) <= _pairs(migrations)


def _pairs(migrations: Migrations) -> set[tuple[str, str]]:
    return {(app, name) for app, names in migrations.items() for name in names}


def _known() -> set[tuple[str, str]]:
    """Every migration on the disk, and those that one of them stands for."""
    on_disk = _loader().disk_migrations
    return set(on_disk).union(*(migration.replaces for migration in on_disk.values()))


def _loader() -> MigrationLoader:
    return MigrationLoader(None, ignore_no_migrations=True)
