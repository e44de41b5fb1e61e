"""What is looked for, in the words of the database that looks."""

from __future__ import annotations

from django.db import connection

from intake.domain.search_query import Group, Query, Term, Way

# Our words are of a–z and 0–9 alone, so nothing in them means anything to either database.
_SQLITE = """SELECT rowid FROM intake_requestwords WHERE intake_requestwords MATCH %s{beyond}
    {order} LIMIT %s"""
_POSTGRESQL = """SELECT submission_id FROM intake_requestline WHERE lexemes @@ %s::tsquery{beyond}
    {order} LIMIT %s"""
# A word that is on every other request is met among the next few, whatever the rest holds.
_NEAREST = """SELECT submission_id FROM (
    SELECT submission_id, lexemes FROM intake_requestline{beyond} {order} LIMIT 400) AS nearest
    WHERE lexemes @@ %s::tsquery {order} LIMIT %s"""
_ANY = "SELECT intake_lines_with(%s::tsquery, %s)"
# So many are looked up by their words and sorted here; where there are more, PostgreSQL walks from
# the newest on and meets one soon.
_SORTED_HERE = 3000


def matching(
    query: Query, *, limit: int, beyond: int | None = None, newest: bool | None = True
) -> list[int]:
    """Keys of at most so many requests that match, after the one ``beyond``.

    ``newest``: newest first; False: oldest first; None: in no order, to find out how many.
    """
    if not query:
        return []
    if connection.vendor == "sqlite":
        return _in_order(_SQLITE, "rowid", query, limit, beyond, newest)
    if newest is None:
        return _keys(_ANY, [said(query), limit])
    keys = _nearest(query, limit, beyond, newest)
    if len(keys) == limit:
        return keys
    keys = _keys(_ANY, [said(query), _SORTED_HERE])
    if len(keys) == _SORTED_HERE:
        return _in_order(_POSTGRESQL, "submission_id", query, limit, beyond, newest)
    keys.sort(reverse=newest)
    if beyond is not None:
        keys = [key for key in keys if (key < beyond if newest else key > beyond)]
    return keys[:limit]


def _nearest(query: Query, limit: int, beyond: int | None, newest: bool) -> list[int]:
    order = f"ORDER BY submission_id{' DESC' if newest else ''}"
    after = f" WHERE submission_id {'<' if newest else '>'} %s" if beyond is not None else ""
    told: list[str | int] = [*([] if beyond is None else [beyond]), said(query), limit]
    return _keys(_NEAREST.format(beyond=after, order=order), told)


def _in_order(
    statement: str,
    key: str,
    query: Query,
    limit: int,
    beyond: int | None,
    newest: bool | None,
) -> list[int]:
    order = {True: f"ORDER BY {key} DESC", False: f"ORDER BY {key}", None: ""}[newest]
    after = f" AND {key} {'<' if newest else '>'} %s" if beyond is not None else ""
    told: list[str | int] = [said(query), *([] if beyond is None else [beyond]), limit]
    return _keys(statement.format(beyond=after, order=order), told)


def _keys(statement: str, told: list[str | int]) -> list[int]:
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
