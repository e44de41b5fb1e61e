"""Rows that the database makes of its own rows: one statement, however many."""

from __future__ import annotations

from typing import Any

from django.db import connection, models


def fill(model: type[models.Model], source: str, *, like: str = "", **columns: str) -> None:
    """INSERT … SELECT into the model's table, one row for each row of ``source`` (FROM and on).

    ``columns``: SQL by column. The others come from the row called ``like``, or are what a new row
    has by itself.
    """
    fields = [field for field in model._meta.concrete_fields if not field.primary_key]
    values, told = [], []
    for field in fields:
        sql = columns.get(field.column or "") or (f"{like}.{field.column}" if like else "%s")
        values.append(sql)
        if sql == "%s":
            told.append(_by_itself(field))
    names = ", ".join(field.column or "" for field in fields)
    into = f"INSERT INTO {model._meta.db_table} ({names})"
    with connection.cursor() as cursor:
        cursor.execute(f"{into} SELECT {', '.join(values)} FROM {source}", told)  # noqa: S608


def _by_itself(field: models.Field[Any, Any]) -> Any:
    return field.get_db_prep_save(field.get_default(), connection)
