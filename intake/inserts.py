"""Inserting one row with a statement that is built once, not once a row.

A request stores four rows, and building the same four statements anew costs more than executing
them. Values pass through their fields, so both databases get what they always get; only numbers
and plain text, which no field changes, go straight. Signals of saving are not sent: nothing here
listens to them.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from operator import attrgetter
from typing import Any

from django.db import DEFAULT_DB_ALIAS, connections, models
from django.db.models.sql import InsertQuery

Value = Callable[[models.Model], Any]

_AS_THEY_ARE = (
    models.CharField,
    models.TextField,
    models.IntegerField,
    models.BooleanField,
    models.FloatField,
    models.ForeignKey,
)


def insert(row: models.Model, *, unless_there: bool = False) -> bool:
    """Insert a new row and give it its key, inside the caller's transaction.

    ``unless_there``: a row that a unique key forbids is left out, and the answer is False.
    """
    connection = connections[DEFAULT_DB_ALIAS]
    statement, values = _statement(type(row), connection.vendor, unless_there)
    with connection.cursor() as cursor:
        cursor.execute(statement, [value(row) for value in values])
        stored = cursor.fetchone()
    if stored is None:
        return False
    (row.pk,) = stored
    row._state.adding = False
    row._state.db = DEFAULT_DB_ALIAS
    return True


@cache
def _statement(
    model: type[models.Model], vendor: str, unless_there: bool
) -> tuple[str, tuple[Value, ...]]:
    """Django's own INSERT for this table, what gives its values, and the new key returned."""
    meta = model._meta
    fields = [field for field in meta.concrete_fields if not field.primary_key]
    query = InsertQuery(model)
    query.insert_values(fields, [model()])
    ((statement, _),) = query.get_compiler(connection=connections[DEFAULT_DB_ALIAS]).as_sql()
    quiet = " ON CONFLICT DO NOTHING" if unless_there else ""
    key = connections[DEFAULT_DB_ALIAS].ops.quote_name(meta.pk.attname)
    return f"{statement}{quiet} RETURNING {key}", tuple(map(_value, fields))


def _value(field: models.Field[Any, Any]) -> Value:
    """What gives a field's value of a row, as the database wants it."""
    if type(field) in _AS_THEY_ARE or type(field).__base__ is models.IntegerField:
        return attrgetter(field.attname)
    return lambda row: field.get_db_prep_save(
        field.pre_save(row, True), connections[DEFAULT_DB_ALIAS]
    )
