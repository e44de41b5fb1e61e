"""One page of a list, whatever it is sorted and filtered by, at the price of its rows.

No list is counted and none is read from its top: a page begins after a row (keyset). A filter or a
word that leaves few is looked up first and the few are sorted; where it leaves many, the order's
own index is walked, and the next that fits is never far.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db.models import Case, QuerySet, Value, When

from intake.finding.lists.asked import Asked
from intake.finding.match import matching
from intake.finding.models import RequestLine
from intake.models import Submission

FEW = 500
Lines = QuerySet[RequestLine] | QuerySet[Submission]


@dataclass(frozen=True, slots=True)
class Page:
    """Some rows of a list, and whether there are more on either side."""

    keys: Sequence[int]
    is_first: bool
    has_more: bool
    too_many: bool = False  # they are shown newest first: too many to be sorted otherwise


def page_of(asked: Asked, size: int) -> Page:
    """One page of the list, from where it was asked for."""
    back = asked.before is not None
    start = asked.before if back else asked.after
    keys, too_many = _walk(asked, start, back=back, limit=size + 1)
    more = len(keys) > size
    if back:
        return Page(keys[:size][::-1], not more, True, too_many)
    return Page(keys[:size], start is None, more, too_many)


def neighbours(asked: Asked, key: int) -> tuple[int | None, int | None]:
    """The requests before and after this one in that list."""
    before, _ = _walk(asked, key, back=True, limit=1)
    after, _ = _walk(asked, key, back=False, limit=1)
    return next(iter(before), None), next(iter(after), None)


def all_of(asked: Asked, *, most: int, at_once: int) -> Iterator[list[Submission]]:
    """The list from its top, chunk by chunk, at most so many rows."""
    after, left = None, most
    while left > 0:
        keys, _ = _walk(asked, after, back=False, limit=min(at_once, left))
        if not keys:
            return
        yield rows_of(keys)
        after, left = keys[-1], left - len(keys)


def rows_of(keys: Sequence[int]) -> list[Submission]:
    """These requests in this order, with all that a row shows: one query."""
    wanted = Submission.objects.filter(pk__in=keys).order_by()
    wanted = wanted.select_related("line__last_by", "claim__by").defer("line__words")
    found = {row.pk: row for row in wanted}
    return [found[key] for key in keys if key in found]


def people() -> list[User]:
    """Who may have made a last change: whoever works here."""
    return list(User.objects.filter(is_active=True).order_by("username")[:100])


# --- Walking ------------------------------------------------------------------------------


def _walk(asked: Asked, start: int | None, *, back: bool, limit: int) -> tuple[list[int], bool]:
    """Keys after ``start`` in the list's order (back: before it, nearest first)."""
    newest = asked.sort.newest_first != back
    if asked.text and not asked.words:  # signs alone: nobody is found by them
        return [], False
    if asked.words and not asked.sort.column:
        return matching(asked.query, limit=limit, beyond=start, newest=newest), False
    lines = _filtered(asked)
    if asked.words or len(asked.filters) > 1 or (asked.filters and asked.sort.column):
        few = _some(asked, FEW + 1)
        if len(few) <= FEW:
            lines = RequestLine.objects.filter(pk__in=few)
        elif asked.words:
            return matching(asked.query, limit=limit, beyond=start, newest=not back), True
    if asked.sort.column:
        return _by_column(lines, asked.sort.column, start, newest, back, limit), False
    if not asked.query:  # all of them: also those that came this very moment
        return _by_age(Submission.objects.all(), start, newest, limit), False
    return _by_age(lines, start, newest, limit), False


def _some(asked: Asked, limit: int) -> list[int]:
    """At most so many that fit, whichever: to find out whether they are few."""
    if asked.words or len(asked.filters) > 1:
        return matching(asked.query, limit=limit, newest=None)
    return _by_age(RequestLine.objects.filter(**asked.columns), None, newest=True, limit=limit)


def _filtered(asked: Asked) -> QuerySet[RequestLine]:
    """The filters, one of them by its index: the month, else the status, else that of the order.

    The others are written as cases: no index fits one, or a planner without statistics would take
    the first best; and PostgreSQL expects half of all rows to fit one, so that it walks the order's
    index instead of sorting the whole table.
    """
    columns = asked.columns
    by_index = "month" if "month" in columns else "status"
    if not asked.sort.column and len(columns) == 1:
        by_index = next(iter(columns))
    lines = RequestLine.objects.all()
    for column, value in columns.items():
        if column == by_index:
            lines = lines.filter(**{column: value})
        else:
            fits = When(**{column: value}, then=Value(True))
            lines = lines.filter(Case(fits, default=Value(False)))
    return lines


def _by_age(lines: Lines, start: int | None, newest: bool, limit: int) -> list[int]:
    if start is not None:
        lines = lines.filter(**{"pk__lt" if newest else "pk__gt": start})
    return list(lines.order_by("-pk" if newest else "pk").values_list("pk", flat=True)[:limit])


def _by_column(
    lines: QuerySet[RequestLine],
    column: str,
    start: int | None,
    newest: bool,
    back: bool,
    limit: int,
) -> list[int]:
    """First what is left beside ``start``, then what comes beyond: each from one index."""
    if start is None:
        return _in_order(lines, column, newest, back, limit)
    here = RequestLine.objects.filter(pk=start).values_list(column, flat=True).first()
    if here is None:
        return []
    keys = _by_age(lines.filter(**{column: here}), start, newest, limit)
    if len(keys) < limit:
        beyond = lines.filter(**{f"{column}__{'lt' if back else 'gt'}": here})
        keys += _in_order(beyond, column, newest, back, limit - len(keys))
    return keys


def _in_order(lines: Lines, column: str, newest: bool, back: bool, limit: int) -> list[int]:
    order = (f"-{column}" if back else column, "-pk" if newest else "pk")
    return list(lines.order_by(*order).values_list("pk", flat=True)[:limit])
