"""Facts are made anew from the records, some requests at a time; safe to repeat."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from django.db import transaction
from django.db.models import F, Min

from intake.models import Submission
from quotes.cost_model.selectors import costs_on
from quotes.domain.happened.mistakes import AGAIN_DAYS, Seen, repeats
from quotes.insight.counting.services import month_is_behind
from quotes.insight.gathering.facts import Facts, facts_of
from quotes.insight.gathering.selectors import records_of
from quotes.insight.models import BarFact, CountedUpTo, FlagFact, MismatchFact, RequestFact

CHUNK = 200
_TURN = "turn"  # the row whoever writes facts holds


def gather(submissions: Iterable[int]) -> int:
    """Make the facts of these requests anew, with what came back, and note which months change.

    Says how many. Two processes at once come to the same facts.
    """
    done, earliest = 0, date.max
    for keys in _chunks(sorted(set(submissions)), CHUNK):
        done += _gather(keys)
        found = MismatchFact.objects.filter(fact__in=keys).aggregate(first=Min("on"))
        earliest = min(earliest, found["first"] or date.max)
    if earliest < date.max:
        mark_repeats(earliest)
    return done


def gather_all() -> Iterator[int]:
    """Every request there is, chunk by chunk; yields how many are done so far."""
    last, done = 0, 0
    while keys := list(
        Submission.objects.filter(pk__gt=last).order_by("pk").values_list("pk", flat=True)[:CHUNK]
    ):
        done += _gather(keys)
        last = keys[-1]
        yield done


def _gather(keys: Sequence[int]) -> int:
    costs = costs_on()
    found = [facts_of(records, costs) for records in records_of(keys)]
    with transaction.atomic():
        _take_turn()
        months = _months_of(keys)
        RequestFact.objects.filter(pk__in=keys).delete()
        _store(found)
        month_is_behind(months | _months_of(keys))
    return len(found)


def _take_turn() -> None:
    """One process writes facts at a time: two that make the same anew would both insert them."""
    turn = CountedUpTo.objects.filter(pk=_TURN)
    if not turn.update(key=F("key") + 1):  # the first time ever
        CountedUpTo.objects.bulk_create([CountedUpTo(record=_TURN)], ignore_conflicts=True)
        turn.update(key=F("key") + 1)


def _store(found: Sequence[Facts]) -> None:
    RequestFact.objects.bulk_create([one.request for one in found])
    FlagFact.objects.bulk_create([row for one in found for row in one.flags])
    MismatchFact.objects.bulk_create([row for one in found for row in one.mismatches])
    BarFact.objects.bulk_create([row for one in found for row in one.bars])


def _months_of(keys: Sequence[int]) -> set[str]:
    """Every month some facts count in."""
    months = set()
    for came, left in RequestFact.objects.filter(pk__in=keys).values_list("month", "shipped_month"):
        months |= {came, left}
    for rows in (
        MismatchFact.objects.filter(fact__in=keys),
        BarFact.objects.filter(fact__in=keys),
    ):
        months |= set(rows.order_by().values_list("month", flat=True))
    calls = Submission.objects.filter(pk__in=keys, calls__isnull=False).order_by()
    months |= set(calls.values_list("calls__month", flat=True))
    return months - {""}


def mark_repeats(first: date | None = None) -> None:
    """Find what came back, from a day on; None: from the beginning."""
    rows = MismatchFact.objects.order_by().select_related("fact")
    if first is not None:
        rows = rows.filter(on__gte=first - timedelta(days=AGAIN_DAYS))
    found = {row.pk: row for row in rows}
    letters = repeats(map(_seen, found.values()))
    changed = [
        row
        for row in found.values()
        if letters[row.pk] != row.again and (first is None or row.on >= first)
    ]
    _mark({row.pk: letters[row.pk] for row in changed}, {row.month for row in changed})


def _seen(row: MismatchFact) -> Seen:
    fact = row.fact
    return Seen(row.pk, row.on, row.cause, fact.customer, fact.family, row.answer)


def _mark(changed: dict[int, str], months: set[str]) -> None:
    by_letters: dict[str, list[int]] = {}
    for key, letters in changed.items():
        by_letters.setdefault(letters, []).append(key)
    with transaction.atomic():
        _take_turn()
        for letters, keys in by_letters.items():
            for some in _chunks(keys, 500):
                MismatchFact.objects.filter(pk__in=some).update(again=letters)
        month_is_behind(months)


def _chunks(keys: Sequence[int], size: int) -> Iterator[Sequence[int]]:
    for at in range(0, len(keys), size):
        yield keys[at : at + size]
