"""Agreeing terms with a customer: a new row, never an edit."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from intake.customers.models import Customer
from quotes.domain.tax import percent
from quotes.models import CustomerTerms
from quotes.rate_sets.selectors import rates_on
from quotes.terms import selectors
from staff.trail.services import forget_values, note_change

TRAIL = "terms"  # the trail's name for these records; the key is the customer's
LONGEST_WHY = 400


class TermsRefused(ValueError):
    """What cannot be agreed, as a sentence. ``field``: the box it is about."""

    def __init__(self, field: str, words: str) -> None:
        super().__init__(words)
        self.field = field


class TermsOvertaken(Exception):
    """Somebody else has agreed other terms with the same customer meanwhile."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed these terms a moment ago. Nothing of yours is stored; please "
            "look at theirs, then send yours again if they are still needed."
        )


def agree_terms(
    *,
    customer: Customer,
    discount: Decimal,
    deposit_part: Decimal | None,
    deposit_over: Decimal | None,
    from_day: date,
    why: str,
    by: User,
    seen: int | None = None,
) -> CustomerTerms:
    """From a day on, today at the earliest, these terms hold. Fractions, not per cent.

    ``seen``: the number of the newest row when they were looked at. Raises TermsRefused and
    TermsOvertaken.
    """
    why = why.replace("\x00", "").strip()
    _hold(customer, discount, from_day, why)
    number = selectors.newest_number(customer.pk)
    if seen is not None and seen != number:
        raise TermsOvertaken
    row = CustomerTerms(
        customer=customer,
        number=number + 1,
        from_day=from_day,
        discount=discount,
        deposit_part=deposit_part,
        deposit_over=deposit_over,
        why=why,
        by=by,
    )
    return _added(row)


def _hold(customer: Customer, discount: Decimal, from_day: date, why: str) -> None:
    limit = rates_on(max(from_day, timezone.localdate())).discount_limit
    if customer.merged_into_id or customer.erased_at:
        raise TermsRefused("", "This record is no longer in use; nothing can be agreed with it.")
    if not 0 <= discount <= limit:
        raise TermsRefused(
            "discount", f"The desk gives at most {percent(limit)} %; the rates say so."
        )
    if from_day < timezone.localdate():
        raise TermsRefused(
            "from_day", "That day is over; quotes of that day keep their terms. Use today."
        )
    if not why or len(why) > LONGEST_WHY:
        raise TermsRefused("why", f"Please write why, in {LONGEST_WHY} characters at most.")


def _added(row: CustomerTerms) -> CustomerTerms:
    before = selectors.terms_on(row.customer_id, row.from_day)
    try:
        with transaction.atomic():
            row.save(force_insert=True)
            note_change(
                record=TRAIL,
                key=row.customer_id,
                by=row.by,
                why=row.why,
                before=_told(before.discount, before.deposit_part, before.deposit_over),
                after=_told(row.discount, row.deposit_part, row.deposit_over)
                | {"from": row.from_day.isoformat()},
            )
    except IntegrityError as error:
        raise TermsOvertaken from error  # two at once: the numbers follow each other
    return row


def _told(
    discount: Decimal, deposit_part: Decimal | None, deposit_over: Decimal | None
) -> dict[str, str]:
    said = {"discount": f"{percent(discount)} %"}
    if deposit_part is not None:
        said["deposit"] = f"{percent(deposit_part)} %"
    if deposit_over is not None:
        said["deposit over"] = f"{deposit_over:.2f}"
    return said


def forget_terms(submissions: Sequence[int]) -> None:
    """Why something was agreed may name somebody: forgotten with them. In the caller's
    transaction; what was agreed stays, since quotes were made by it.
    """
    keys = set(selectors.terms_behind(submissions).values_list("customer_id", flat=True))
    CustomerTerms.objects.filter(customer__in=keys).update(why="")
    for key in keys:
        forget_values(record=TRAIL, key=key, names=())
