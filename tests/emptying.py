"""An empty database after each test that commits, without making the tables anew.

Django's own way truncates every table, however empty, and asks every room for its permissions
again: half a second for each of some hundred tests. Here only what has rows is emptied, and the
kinds of rows and their permissions, which the migrations made and no test changes, stay.
"""

from __future__ import annotations

import time

from django.db import IntegrityError, connections, transaction
from django.db.backends.base.base import BaseDatabaseWrapper
from django.test.testcases import TransactionTestCase

STAY = frozenset({"django_content_type", "auth_permission"})


def empty_what_has_rows(database: BaseDatabaseWrapper) -> None:
    """Delete every row of every model's table but those that stay; all or nothing."""
    tables = database.introspection.django_table_names(only_existing=True, include_views=False)
    quote = database.ops.quote_name
    with transaction.atomic(using=database.alias), database.cursor() as cursor:
        filled = []
        for some in _in_batches(sorted(set(tables) - STAY)):
            asked = " UNION ALL ".join(
                f"SELECT '{name}' WHERE EXISTS (SELECT 1 FROM {quote(name)})"  # noqa: S608
                for name in some
            )
            cursor.execute(asked)
            filled += [name for (name,) in cursor.fetchall()]
        for name in filled:
            cursor.execute(f"DELETE FROM {quote(name)}")  # noqa: S608


def _in_batches(names: list[str], size: int = 100) -> list[list[str]]:
    """SQLite takes a few hundred parts of one question and no more."""
    return [names[at : at + size] for at in range(0, len(names), size)]


TRIES = 5


def _fixture_teardown(self: TransactionTestCase) -> None:
    for name in self._databases_names(include_mirrors=False):  # type: ignore[attr-defined]
        _empty(connections[name])


def _empty(database: BaseDatabaseWrapper) -> None:
    """A page that was closed a moment ago may still be writing: then it is looked once more."""
    for go in range(TRIES):
        try:
            empty_what_has_rows(database)
        except IntegrityError:
            if go == TRIES - 1:
                raise
            time.sleep(0.2)
        else:
            return


def use_it() -> None:
    """From now on, in this process."""
    setattr(TransactionTestCase, "_fixture_teardown", _fixture_teardown)  # noqa: B010
