"""Reading for a replay: the sheets of its period in the order they came, and its results."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from decimal import Decimal
from json import loads
from typing import Any, NamedTuple

from django.db.models import Count, Func, Max, Min, QuerySet, TextField
from django.db.models.functions import Cast
from django.utils import timezone

from catalog.selectors import stock
from intake.domain.kept_history import KEY
from intake.models import FindingRecord, Job, SheetVersion, Submission
from quotes.cost_model.selectors import costs_on
from quotes.domain.replay import Judged, Tally, cost_if_let_through, is_of_the_sheet, tally_of
from quotes.insight.models import MismatchFact
from quotes.replay.judging import Given, Rules, Task
from quotes.replay.models import DONE, GOES_ON, WAITING, Replay, ReplaySheet

BATCH = 400  # sheets read at once
PAGE = 50


class Beside(Func):
    """What was known beside a sheet, as text, without the rest of what is stored of it."""

    output_field = TextField()

    def as_sqlite(self, compiler: Any, connection: Any, **kwargs: Any) -> Any:
        """SQLite reads it out of its text."""
        template = f"JSON_EXTRACT(%(expressions)s, '$.{KEY}')"
        return super().as_sql(compiler, connection, template=template, **kwargs)

    def as_postgresql(self, compiler: Any, connection: Any, **kwargs: Any) -> Any:
        """PostgreSQL too."""
        template = f"((%(expressions)s) -> '{KEY}')::text"
        return super().as_sql(compiler, connection, template=template, **kwargs)


class Extent(NamedTuple):
    """How many requests a period has, and the keys of its first and last."""

    total: int
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Read:
    """One sheet to be judged again, with what is known today of its numbers."""

    submission: int
    given: Given
    wrong: bool
    cost: Decimal


def extent(replay: Replay) -> Extent:
    """The requests of the period, counted once."""
    told = _of_period(replay).aggregate(total=Count("pk"), first=Min("pk"), last=Max("pk"))
    return Extent(told["total"], told["first"] or 0, told["last"] or 0)


def _of_period(replay: Replay) -> QuerySet[Submission]:
    start, end = period(replay)
    return Submission.objects.filter(received_at__gte=start, received_at__lt=end)


def period(replay: Replay) -> tuple[datetime, datetime]:
    """From the first moment of its first day to that of the day after its last."""
    after = replay.last_day + timedelta(days=1)
    start, end = (datetime.combine(day, time()) for day in (replay.first_day, after))
    return timezone.make_aware(start), timezone.make_aware(end)


def task_of(replay: Replay) -> Task:
    """What it judges by: today's stock, its base and what it changes."""
    name, counts = replay.base_name, replay.base_counts
    base = Rules(name, replay.base_values, counts)
    return Task(stock(), base, Rules("replay", changed_values_of(replay), counts))


def changed_values_of(replay: Replay) -> dict[str, str]:
    """The values of the changed set, whole."""
    values = {**replay.base_values, **replay.changes}
    return {name: text for name, text in values.items() if text}


# --- Sheets ------------------------------------------------------------------------------


def sheets_after(replay: Replay, upto: int, most: int) -> Iterator[list[Read]]:
    """First sheets of the period after a request, batch by batch, at most about so many."""
    while most > 0:
        batch = _batch(replay, upto)
        if not batch:
            return
        yield batch
        upto, most = batch[-1].submission, most - len(batch)


_COLUMNS = ("pk", "submission_id", "text", "beside", "verdict", "rules_version")


def _batch(replay: Replay, upto: int) -> list[Read]:
    start, end = period(replay)
    rows = list(
        SheetVersion.objects.filter(
            number=1,
            submission_id__gt=upto,
            submission_id__lte=replay.last,
            submission__received_at__gte=start,
            submission__received_at__lt=end,
        )
        .annotate(text=Cast("body", TextField()), beside=Beside("outcome"))
        .order_by("submission_id")
        .values_list(*_COLUMNS, "submission__erased_at")[:BATCH]
    )
    holding = _holding([row[0] for row in rows])
    wrong = _wrong(rows[0][1], rows[-1][1]) if rows else {}
    sides = _other_sides([row[3] for row in rows])
    days = _days([row[0] for row in rows if not row[3]])
    return [
        Read(
            row[1],
            _given(row, holding.get(row[0], ()), sides, days, replay.base_name),
            row[1] in wrong,
            wrong.get(row[1], Decimal(0)),
        )
        for row in rows
    ]


def _given(
    row: tuple[Any, ...],
    holding: Sequence[tuple[str, str]],
    sides: dict[str, str],
    days: dict[int, str],
    base: str,
) -> Given:
    key, _submission, body, beside, verdict, rules, erased_at = row
    beside = beside or ""
    return Given(
        body=body,
        beside=beside,
        other_side=sides.get(beside, ""),
        day=days.get(key, ""),
        erased=erased_at is not None,
        stored=Judged(verdict, tuple(sorted(set(holding)))),
        as_base=rules == base,
    )


def _days(sheets: Sequence[int]) -> dict[int, str]:
    """The day each was judged, of sheets from before that was kept with them."""
    if not sheets:
        return {}
    made = SheetVersion.objects.filter(pk__in=sheets).order_by().values_list("pk", "made_at")
    return {key: timezone.localdate(at).isoformat() for key, at in made}


def _holding(sheets: Sequence[int]) -> dict[int, list[tuple[str, str]]]:
    rows = FindingRecord.objects.filter(sheet_id__in=sheets).exclude(severity="note").order_by()
    found: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for sheet, check, severity in rows.values_list("sheet_id", "check_id", "severity"):
        found[sheet].append((check, severity))
    return found


def _wrong(first: int, last: int) -> dict[int, Decimal]:
    """Requests whose numbers are known to have been wrong, and what each costs if let through."""
    costs, booked = costs_on(timezone.localdate()), defaultdict[int, Decimal](Decimal)
    wanted: dict[int, str] = {}
    rows = MismatchFact.objects.filter(fact_id__gte=first, fact_id__lte=last).order_by()
    for fact, cause, found, cost, parts in rows.values_list(
        "fact_id", "cause", "found", "cost", "parts"
    ):
        if is_of_the_sheet(cause):
            wanted[fact] = parts
            booked[fact] += cost if found != "before_quote" else 0
    return {fact: cost_if_let_through(booked[fact], parts, costs) for fact, parts in wanted.items()}


def _other_sides(besides: Sequence[str | None]) -> dict[str, str]:
    """The body of the other side's sheet, by the facts that name it; as it stands today."""
    named = {told: loads(told).get("sister") for told in besides if told and '"sister"' in told}
    bodies = dict(
        SheetVersion.objects.filter(pk__in=[key for key in named.values() if key])
        .annotate(text=Cast("body", TextField()))
        .values_list("pk", "text")
        if named
        else ()
    )
    return {told: bodies[key] for told, key in named.items() if key in bodies}


# --- Replays -----------------------------------------------------------------------------


def by_key(ask_key: str) -> Replay:
    """The replay that a form asked for."""
    return Replay.objects.get(ask_key=ask_key)


def replay_of(key: int) -> Replay | None:
    """One replay as it is now, with who asked for it."""
    return Replay.objects.select_related("by").filter(pk=key).first()


def some_replays(before: int | None = None) -> list[Replay]:
    """A page of replays and one more, newest first."""
    rows = Replay.objects.select_related("by").order_by("-pk")
    rows = rows.filter(pk__lt=before) if before else rows
    return list(rows[: PAGE + 1])


def done_replays() -> list[Replay]:
    """The newest that have an end to compare."""
    return list(Replay.objects.filter(state=DONE).order_by("-pk")[:PAGE])


def tally(replay: Replay) -> Tally:
    """Its counts as far as it is."""
    return tally_of(replay.result)


def changed_sheets(
    replay: Replay, after: int = 0, *, only: str = "", most: int = PAGE + 1
) -> list[ReplaySheet]:
    """A page of sheets that the change moves, and one more, in the order they came.

    ``only``: "held" (let go before, held now), "let" (the other way), "wrong" (known wrong).
    """
    rows = ReplaySheet.objects.filter(replay=replay, submission__gt=after)
    if only == "held":
        rows = rows.filter(before="release").exclude(after="release")
    elif only == "let":
        rows = rows.filter(after="release").exclude(before="release")
    elif only == "wrong":
        rows = rows.filter(wrong=True)
    return list(rows.select_related("submission").order_by("submission_id")[:most])


def given_up() -> list[tuple[Replay, str]]:
    """Replays whose next step was tried too often, with what it said last."""
    going = {step_key(replay): replay for replay in Replay.objects.filter(state__in=GOES_ON)}
    dead = Job.objects.filter(key__in=going, dead=True).values_list("key", "error")
    return [(going[key], error) for key, error in dead]


def step_key(replay: Replay) -> str:
    """The name of its next step; each step is work of its own, done once."""
    place = "first" if replay.state == WAITING else replay.upto
    return f"replay:{replay.pk}:{place}"
