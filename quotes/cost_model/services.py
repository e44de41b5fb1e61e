"""Changing costs and targets from a day on: a new row, never an edit."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction

from quotes.cost_model import selectors
from quotes.cost_model.models import CostSet
from quotes.domain.cost_fields import FIELDS, CostErrors, model_from, read_changes, shown
from staff.trail.services import note_change

TRAIL = "costs"
LONGEST_NAME, LONGEST_REASON = 40, 400


class CostsOvertaken(Exception):
    """Somebody else changed costs first. Look at theirs, then decide."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed costs or targets a moment ago. Nothing of yours is stored; "
            "please look at theirs, then send yours again if they are still needed."
        )


def adopt_costs(
    *,
    name: str,
    reason: str,
    from_day: date | None,
    by: User,
    typed: Mapping[str, str],
    based_on: int | None = None,
) -> CostSet:
    """Reckon with other figures from a day on. ``typed``: boxes by field, empty ones keep theirs.

    A day that is over may be given: it corrects what is reckoned, no price. Raises CostErrors (a
    sentence for each box, "name", "reason", "from_day" and "values" among them), CostsOvertaken
    where ``based_on`` is no longer the number of the newest set.
    """
    newest = selectors.newest_number()
    if based_on is not None and based_on != newest:
        raise CostsOvertaken
    name, reason = " ".join(name.replace("\x00", "").split()), reason.replace("\x00", "").strip()
    errors = _entry_errors(name, reason, from_day)
    now = selectors.costs_on(from_day)
    values: dict[str, str] = {}
    try:
        values = read_changes({key: text.replace("\x00", "") for key, text in typed.items()}, now)
        if not values:
            errors.setdefault("values", "Nothing is changed by this; change a figure first.")
    except CostErrors as refused:
        errors |= refused.errors
    if errors or from_day is None:
        raise CostErrors(errors)
    row = CostSet(
        number=newest + 1, name=name, reason=reason, from_day=from_day, adopted_by=by, values=values
    )
    return _added(row)


def _added(row: CostSet) -> CostSet:
    now, new = selectors.costs_on(row.from_day), model_from(row.values)
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            before = {
                FIELDS[key].words: shown(FIELDS[key], getattr(now, key)) for key in row.values
            }
            after = {FIELDS[key].words: shown(FIELDS[key], getattr(new, key)) for key in row.values}
            note_change(
                record=TRAIL,
                key=row.number,
                by=row.adopted_by,
                why=row.reason,
                before=before,
                after={**after, "from": row.from_day.isoformat()},
            )
    except IntegrityError as error:
        raise CostsOvertaken from error  # two at once: the numbers follow each other
    return row


def _entry_errors(name: str, reason: str, from_day: date | None) -> dict[str, str]:
    errors: dict[str, str] = {}
    if not name:
        errors["name"] = "Please give the change a name, like spring 2027."
    elif len(name) > LONGEST_NAME:
        errors["name"] = f"Please keep the name under {LONGEST_NAME} characters."
    elif selectors.name_is_taken(name):
        errors["name"] = "This name was used before; please choose another."
    if not reason:
        errors["reason"] = "Please write why, in a sentence for whoever reads it next year."
    elif len(reason) > LONGEST_REASON:
        errors["reason"] = f"Please keep the reason under {LONGEST_REASON} characters."
    if from_day is None:
        errors["from_day"] = "Please give the first day, like 2027-01-01."
    return errors
