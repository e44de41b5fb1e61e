"""Adopting limits: a new row, never an edit. Each function is one whole step."""

from __future__ import annotations

from collections.abc import Mapping

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from intake.domain.limit_values import (
    LONGEST_NAME,
    LimitErrors,
    changed_values,
    limits_from,
    read_values,
)
from intake.limit_rows import is_known, kept_words, words_of
from intake.limit_sets import selectors
from intake.models import LimitSet
from staff.trail.services import note_change

TRAIL = "limits"
LONGEST_REASON = 400


class LimitsOvertaken(Exception):
    """Somebody else adopted limits first. Look at theirs, then decide."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed the limits a moment ago. Nothing of yours is stored; please "
            "look at theirs, then enter yours again if they are still needed."
        )


def adopt_limits(
    *, name: str, reason: str, by: User, values: Mapping[str, str], based_on: str | None = None
) -> LimitSet:
    """Go by changed limits from now on. ``values`` as typed, by field; "" takes the default back.

    What earlier sets changed stays changed, and the causes learned stay learned. Raises
    LimitErrors (a sentence for each field, "name" and "reason" among them) and LimitsOvertaken
    where ``based_on`` is no longer the name of the set in force.
    """
    row, errors = _next(name, reason, by, based_on), {}
    limits = limits_from(row.name, row.values, row.cause_counts)
    try:
        row.values = read_values(values, limits)
    except LimitErrors as refused:
        errors = refused.errors
    if not errors and row.values == changed_values(limits):
        errors["values"] = "Nothing is changed by this; change a limit first."
    return _adopt(row, errors)


def adopt_kept(
    *, name: str, reason: str, by: User, values: Mapping[str, str], based_on: str
) -> LimitSet:
    """Go by values that were read before, as a set keeps them, whole: they take the place of all.

    Raises LimitErrors and LimitsOvertaken as ``adopt_limits`` does.
    """
    row, errors = _next(name, reason, by, based_on), {}
    limits = limits_from(row.name, values, row.cause_counts)
    if (kept := changed_values(limits)) == row.values:
        errors["values"] = "Nothing is changed by this: these limits are in force already."
    row.values = kept
    return _adopt(row, errors)


def learn_causes(*, by: User, reason: str, name: str = "", based_on: str | None = None) -> LimitSet:
    """Weigh slips by what the desk itself has recorded; every other limit stays as it is.

    Raises LimitErrors and LimitsOvertaken as ``adopt_limits`` does.
    """
    row, errors = _next(name or next_name(), reason, by, based_on), {}
    counts = selectors.cause_counts()
    if counts == row.cause_counts:
        errors["values"] = "There is nothing new to take over."
    row.cause_counts = counts
    return _adopt(row, errors)


def next_name() -> str:
    """A name nobody has taken: "desk 1", "desk 2" ... by the number of the set."""
    newest = selectors.newest_set()
    number = newest.number + 1 if newest else 1
    while selectors.name_is_taken(f"desk {number}"):
        number += 1
    return f"desk {number}"


def _next(name: str, reason: str, by: User, based_on: str | None) -> LimitSet:
    """The row after the newest one, still saying what that one says."""
    now = selectors.newest_set()
    if based_on is not None and based_on != selectors.current_limits().name:
        raise LimitsOvertaken
    return LimitSet(
        number=now.number + 1 if now else 1,
        name=" ".join(name.replace("\x00", "").split()),
        reason=reason.replace("\x00", "").strip(),
        adopted_by=by,
        values=now.values if now else {},
        cause_counts=now.cause_counts if now else {},
    )


def _adopt(row: LimitSet, errors: dict[str, str]) -> LimitSet:
    errors |= _entry_errors(row)
    if errors:
        raise LimitErrors(errors)
    was = selectors.newest_set()
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            _note(row, was)
    except IntegrityError as error:
        raise LimitsOvertaken from error  # two at once: the numbers follow each other
    return row


def _note(row: LimitSet, was: LimitSet | None) -> None:
    """The line in the trail: each limit that changed, in words."""
    old = was.values if was else {}
    names = [name for name in {**old, **row.values} if old.get(name) != row.values.get(name)]
    before = {words_of(name): kept_words(name, old) for name in names if is_known(name)}
    after = {words_of(name): kept_words(name, row.values) for name in names if is_known(name)}
    learned = sum(row.cause_counts.values())
    if row.cause_counts != (was.cause_counts if was else {}):
        after["causes learned from sheets"] = learned
    note_change(
        record=TRAIL, key=row.number, by=row.adopted_by, why=row.reason, before=before, after=after
    )


def _entry_errors(row: LimitSet) -> dict[str, str]:
    errors: dict[str, str] = {}
    if not row.name:
        errors["name"] = "Please give the new limits a name, like 2026.2."
    elif len(row.name) > LONGEST_NAME:
        errors["name"] = f"Please keep the name under {LONGEST_NAME} characters."
    elif selectors.name_is_taken(row.name):
        errors["name"] = "These limits have a name that was used before; please choose another."
    if not row.reason:
        errors["reason"] = "Please write why, in a sentence for whoever reads it next year."
    elif len(row.reason) > LONGEST_REASON:
        errors["reason"] = f"Please keep the reason under {LONGEST_REASON} characters."
    return errors
