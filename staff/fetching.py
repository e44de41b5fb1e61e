"""Rows by statements that are written once: for what every request of the staff asks.

There the mapper's building of the query and of its rows costs ten times the answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any, TypeVar

from django.db import connection
from django.db.models import Model

_M = TypeVar("_M", bound=Model)


def columns(model: type[Model], table: str) -> str:
    """All columns of a model in its own order, as a statement selects them from ``table``."""
    return ", ".join(f"{table}.{field.column}" for field in model._meta.concrete_fields)


def width(model: type[Model]) -> int:
    """How many columns those are."""
    return len(model._meta.concrete_fields)


def built(model: type[_M], row: Sequence[Any]) -> _M:
    """A row of those columns as its model, each value as its field would give it."""
    values = list(row)
    for at, expression, convert in _converters(model, connection.vendor):
        values[at] = convert(values[at], expression, connection)
    return model.from_db(connection.alias, _names(model), values)


@cache
def _names(model: type[Model]) -> tuple[str, ...]:
    return tuple(field.attname for field in model._meta.concrete_fields)


@cache
def _converters(model: type[Model], vendor: str) -> list[tuple[int, Any, Callable[..., Any]]]:
    """Place, column and converter of each that needs one (SQLite keeps moments as text)."""
    return [
        (at, field.cached_col, convert)
        for at, field in enumerate(model._meta.concrete_fields)
        for convert in (
            *connection.ops.get_db_converters(field.cached_col),
            *field.cached_col.get_db_converters(connection),
        )
    ]
