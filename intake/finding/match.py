"""What is looked for, in the words of the database that looks."""

from __future__ import annotations

from django.db import connection

from intake.domain.search_query import Group, Query, Term, Way

# Our words are of a–z and 0–9 alone, so nothing in them means anything to either database.
_SQLITE = """SELECT rowid FROM intake_requestwords WHERE intake_requestwords MATCH %s{beyond}
    {order} LIMIT %s"""
_POSTGRESQL = """SELECT submission_id FROM intake_requestline WHERE lexemes @@ %s::tsquery{beyond}
    {order} LIMIT %s"""


def matching(
    query: Query, *, limit: int, beyond: int | None = None, newest: bool | None = True
) -> list[int]:
    """Keys of at most so many requests that match, after the one ``beyond``.

    ``newest``: newest first; False: oldest first; None: in no order, to find out how many.
    """
    if not query:
        return []
    key = "rowid" if connection.vendor == "sqlite" else "submission_id"
    order = {True: f"ORDER BY {key} DESC", False: f"ORDER BY {key}", None: ""}[newest]
    after = f" AND {key} {'<' if newest else '>'} %s" if beyond is not None else ""
    statement = (_SQLITE if connection.vendor == "sqlite" else _POSTGRESQL).format(
        beyond=after, order=order
    )
    told: list[str | int] = [said(query), *([] if beyond is None else [beyond]), limit]
    with connection.cursor() as cursor:
        cursor.execute(statement, told)
        return [key for (key,) in cursor.fetchall()]


def said(query: Query) -> str:
    """The query as this database reads it."""
    return _joined(" AND ", " & ").join(f"({_group(group)})" for group in query.groups)


def _group(group: Group) -> str:
    return _joined(" OR ", " | ").join(f"({_way(way)})" for way in group)


def _way(way: Way) -> str:
    return _joined(" AND ", " & ").join(map(_term, way))


def _term(term: Term) -> str:
    if connection.vendor == "sqlite":
        return f'"{term.word}"*' if term.begins else f'"{term.word}"'
    return f"'{term.word}':*" if term.begins else f"'{term.word}'"


def _joined(sqlite: str, postgresql: str) -> str:
    return sqlite if connection.vendor == "sqlite" else postgresql
