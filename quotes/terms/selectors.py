"""What was agreed with whom."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.db.models import F, Q, QuerySet
from django.utils import timezone

from intake.customers.models import Customer
from intake.models import Submission
from quotes.domain.terms import NO_TERMS, Terms
from quotes.terms.models import CustomerTerms


def terms_of(submission: Submission) -> Terms:
    """The terms in force today for the customer behind this request: one query at most."""
    if submission.customer_id is None:
        return NO_TERMS
    return terms_on(submission.customer_id, timezone.localdate())


def terms_on(customer: int, day: date) -> Terms:
    """The terms in force on a day for a customer's record, merged or not.

    A record's own terms come first; where it has none, those of a record that has become one with
    it, so that a discount is not lost when two records of one yard are put together.
    """
    row = _theirs(customer).filter(from_day__lte=day).first()
    return NO_TERMS if row is None else as_terms(row)


def as_terms(row: CustomerTerms) -> Terms:
    """The row as the value a price is made with."""
    return Terms(row.discount, row.deposit_part, row.deposit_over)


def _theirs(customer: int) -> QuerySet[CustomerTerms]:
    """Of this record, of the one it was merged into, and of those merged with it: best first."""
    mine = (
        Q(customer=customer)
        | Q(customer__merged_into=customer)
        | Q(customer__in=Customer.objects.filter(merged=customer))
    )
    # Whoever was merged into none comes first: that is the record that counts.
    return CustomerTerms.objects.filter(mine).order_by(
        F("customer__merged_into_id").asc(nulls_first=True), "-from_day", "-number"
    )


def terms_of_customer(customer: Customer) -> list[CustomerTerms]:
    """Every row of a customer and of the records merged into it, the latest day first."""
    rows = CustomerTerms.objects.filter(Q(customer=customer) | Q(customer__merged_into=customer))
    return list(rows.select_related("by", "customer").order_by("-from_day", "-number"))


def newest_number(customer: int) -> int:
    """The number of the newest row of one record; 0 where there is none."""
    rows = CustomerTerms.objects.filter(customer=customer).order_by("-number")
    return rows.values_list("number", flat=True).first() or 0


def terms_behind(submissions: Sequence[int]) -> QuerySet[CustomerTerms]:
    """What was ever agreed with whoever made these requests, under any of their records."""
    people = Customer.objects.filter(submissions__in=submissions)
    return CustomerTerms.objects.filter(
        Q(customer__in=people) | Q(customer__merged_into__in=people)
    )


def terms_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """The same, for whoever asks what is kept of them."""
    return [
        {"terms_from": row.from_day, "discount": row.discount, "why": row.why}
        for row in terms_behind(submissions).order_by("pk")
    ]
