"""Asking for a replay, taking in what a step found, cancelling, adopting: each a whole step."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.domain.limit_values import LimitErrors, changed_values, read_values
from intake.inserts import insert
from intake.jobs import enqueue
from intake.limit_sets.selectors import current_limits
from intake.limit_sets.services import adopt_kept
from intake.models import LimitSet
from quotes.cost_model.selectors import costs_on
from quotes.domain.replay import Tally, tally_of
from quotes.replay import selectors
from quotes.replay.models import (
    CANCELLED,
    DONE,
    FAILED,
    GOES_ON,
    RUNNING,
    WAITING,
    Replay,
    ReplaySheet,
)

KIND = "replay"
LONGEST_NAME, LONGEST_NOTE = 60, 400


class ReplayRefused(Exception):
    """It cannot be done with this replay now; the message says why."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked for. ``typed``: limits and rules by name, as typed; "" is left alone."""

    name: str
    first_day: date | None
    last_day: date | None
    typed: Mapping[str, str]
    note: str = ""


def ask_replay(*, asked: Asked, by: User, ask_key: str, base: str | None = None) -> Replay:
    """Judge a period again under changed limits, as work for later. One form asks once.

    Raises LimitErrors: a sentence for each limit, and for "name", "first_day", "last_day", "note".
    """
    limits = current_limits()
    errors = _entry_errors(asked)
    if base is not None and base != limits.name:
        errors["values"] = (
            "Somebody else changed the limits a moment ago. Please look at what is in force now, "
            "then ask again."
        )
    try:
        kept = read_values(asked.typed, limits)
    except LimitErrors as refused:
        raise LimitErrors(errors | refused.errors) from refused
    if errors:
        raise LimitErrors(errors)
    before = changed_values(limits)
    return _asked(
        Replay(
            name=_one_line(asked.name) or f"{asked.first_day} to {asked.last_day}",
            first_day=asked.first_day or date.min,
            last_day=asked.last_day or date.min,
            changes={
                name: kept.get(name, "")
                for name in (*kept, *(one for one in before if one not in kept))
                if kept.get(name, "") != before.get(name, "")
            },
            base_name=limits.name,
            base_values=before,
            base_counts=dict(limits.cause_counts),
            note=asked.note.replace("\x00", "").strip(),
            by=by,
            ask_key=ask_key[:43],
            call_cost=costs_on(timezone.localdate()).call,
        )
    )


@transaction.atomic
def _asked(replay: Replay) -> Replay:
    if not insert(replay, unless_there=True):
        return selectors.by_key(replay.ask_key)
    _go_on(replay)
    return replay


def _entry_errors(asked: Asked) -> dict[str, str]:
    errors: dict[str, str] = {}
    if len(_one_line(asked.name)) > LONGEST_NAME:
        errors["name"] = f"Please keep the name under {LONGEST_NAME} characters."
    if len(asked.note.strip()) > LONGEST_NOTE:
        errors["note"] = f"Please keep the note under {LONGEST_NOTE} characters."
    for field, day in (("first_day", asked.first_day), ("last_day", asked.last_day)):
        if day is None:
            errors[field] = "Please give a day, like 2026-04-01."
    if asked.first_day and asked.last_day and asked.last_day < asked.first_day:
        errors["last_day"] = "The last day lies before the first."
    return errors


def _one_line(text: str) -> str:
    return " ".join(text.replace("\x00", "").split())


def _go_on(replay: Replay) -> None:
    key = selectors.step_key(replay)
    enqueue(kind=KIND, payload={"replay": replay.pk, "step": key}, key=key)


# --- Steps: called inside the job's own short transaction ----------------------------------


def begin(replay: Replay, extent: selectors.Extent) -> None:
    """Its requests are counted: go on with the first of them, or end where there are none."""
    now = timezone.now()
    mine = Replay.objects.filter(pk=replay.pk, state=WAITING)
    state = RUNNING if extent.total else DONE
    if mine.update(
        state=state,
        started_at=now,
        ended_at=None if extent.total else now,
        total=extent.total,
        upto=max(extent.first - 1, 0),
        last=extent.last,
        result=Tally().as_json(),
    ):
        replay.state, replay.upto = state, max(extent.first - 1, 0)
        if extent.total:
            _go_on(replay)


def take_in(replay: Replay, upto: int, part: Tally, rows: Iterable[ReplaySheet]) -> None:
    """What a step found. Whoever comes second, or after a cancel, changes nothing.

    ``replay``: as the step found it; ``upto``: the last request it judged, or the end.
    """
    whole = tally_of(replay.result).plus(part)
    is_last = upto >= replay.last
    mine = Replay.objects.filter(pk=replay.pk, state=RUNNING, upto=replay.upto)
    if not mine.update(
        upto=upto,
        done=whole.sheets + whole.unread,
        result=whole.as_json(),
        state=DONE if is_last else RUNNING,
        ended_at=timezone.now() if is_last else None,
    ):
        return
    ReplaySheet.objects.bulk_create(rows, batch_size=500)
    if not is_last:
        replay.upto = upto
        _go_on(replay)


def cancel(*, replay: Replay) -> bool:
    """Stop it; what it has found so far stays to be read. False where it had ended already."""
    mine = Replay.objects.filter(pk=replay.pk, state__in=GOES_ON)
    return bool(mine.update(state=CANCELLED, ended_at=timezone.now()))


def fail_what_is_given_up() -> None:
    """Where a step was tried too often, the replay says so."""
    for replay, error in selectors.given_up():
        last = error.strip().splitlines()[-1:] or ["no reason was kept"]
        note = f"{replay.note} It stopped: {last[0]}".strip()[:LONGEST_NOTE]
        Replay.objects.filter(pk=replay.pk, state__in=GOES_ON).update(
            state=FAILED, ended_at=timezone.now(), note=note
        )


# --- Adopting ------------------------------------------------------------------------------


@transaction.atomic
def adopt(*, replay: Replay, name: str, reason: str, by: User) -> LimitSet:
    """Go by the changed limits from now on.

    Raises ReplayRefused (it has no end yet, or changes nothing), LimitErrors (name, reason), and
    LimitsOvertaken where other limits are in force than it was compared with.
    """
    if replay.state != DONE:
        raise ReplayRefused("Only a replay that has come to its end can be adopted.")
    if not replay.changes:
        raise ReplayRefused("This replay changes no limit, so there is nothing to adopt.")
    values = selectors.changed_values_of(replay)
    row = adopt_kept(name=name, reason=reason, by=by, values=values, based_on=replay.base_name)
    Replay.objects.filter(pk=replay.pk).update(adopted_as=row.name)
    replay.adopted_as = row.name
    return row
