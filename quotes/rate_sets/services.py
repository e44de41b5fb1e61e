"""Changing rates from a day on: a new row, never an edit."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from quotes.domain.rate_fields import FIELDS, value_of
from quotes.domain.rate_values import RateErrors, from_text, read_changes, shown
from quotes.domain.rates import Rates
from quotes.models import RateSet
from quotes.rate_sets import selectors
from staff.trail.services import note_change

TRAIL = "rates"
LONGEST_NAME, LONGEST_REASON = 40, 400


class RatesOvertaken(Exception):
    """Somebody else changed rates first. Look at theirs, then decide."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed the rates a moment ago. Nothing of yours is stored; please look "
            "at theirs, then send yours again if they are still needed."
        )


def adopt_rates(
    *,
    name: str,
    reason: str,
    from_day: date | None,
    by: User,
    typed: Mapping[str, str],
    based_on: int | None = None,
) -> RateSet:
    """Go by changed rates from a day on, today at the earliest. ``typed``: boxes by field, an
    empty one keeps what is in force on that day.

    Raises RateErrors (a sentence for each box, "name", "reason", "from_day" and "values" among
    them), and RatesOvertaken where ``based_on`` is no longer the number of the newest set.
    """
    newest = selectors.newest_number()
    if based_on is not None and based_on != newest:
        raise RatesOvertaken
    name, reason = " ".join(name.replace("\x00", "").split()), reason.replace("\x00", "").strip()
    errors = _entry_errors(name, reason, from_day)
    day = from_day or timezone.localdate()
    now = selectors.fresh_rates(day)
    values = _values(typed, now, errors)
    if errors:
        if selectors.newest_number() != newest:  # what is wrong may be that the other one was first
            raise RatesOvertaken
        raise RateErrors(errors)
    row = RateSet(
        number=newest + 1, name=name, reason=reason, from_day=day, adopted_by=by, values=values
    )
    return _added(row, now)


def _values(typed: Mapping[str, str], now: Rates, errors: dict[str, str]) -> dict[str, str]:
    try:
        clean = {name: text.replace("\x00", "") for name, text in typed.items()}
        values = read_changes(clean, now, selectors.rates_on())
    except RateErrors as refused:
        errors |= refused.errors
        return {}
    if not values and not errors:
        errors["values"] = "Nothing is changed by this; change a rate first."
    return values


def _added(row: RateSet, now: Rates) -> RateSet:
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            before = {FIELDS[name].words: _now(name, now) for name in row.values}
            after = {FIELDS[name].words: _new(name, row) for name in row.values}
            after["from"] = row.from_day.isoformat()
            note_change(
                record=TRAIL,
                key=row.number,
                by=row.adopted_by,
                why=row.reason,
                before=before,
                after=after,
            )
    except IntegrityError as error:
        raise RatesOvertaken from error  # two at once: the numbers follow each other
    selectors.forget_what_was_asked()
    return row


def _now(name: str, rates: Rates) -> str:
    return shown(FIELDS[name], value_of(rates, name))


def _new(name: str, row: RateSet) -> str:
    return shown(FIELDS[name], from_text(FIELDS[name], row.values[name]))


def _entry_errors(name: str, reason: str, from_day: date | None) -> dict[str, str]:
    errors: dict[str, str] = {}
    if not name:
        errors["name"] = "Please give the new rates a name, like autumn 2027."
    elif len(name) > LONGEST_NAME:
        errors["name"] = f"Please keep the name under {LONGEST_NAME} characters."
    elif selectors.name_is_taken(name):
        errors["name"] = "These rates have a name that was used before; please choose another."
    if not reason:
        errors["reason"] = "Please write why, in a sentence for whoever reads it next year."
    elif len(reason) > LONGEST_REASON:
        errors["reason"] = f"Please keep the reason under {LONGEST_REASON} characters."
    if from_day is None:
        errors["from_day"] = "Please give the first day, like 2027-01-01."
    elif from_day < timezone.localdate():
        errors["from_day"] = "That day is over; quotes of that day keep their rates. Use today."
    return errors
