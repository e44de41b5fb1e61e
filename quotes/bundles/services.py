"""Issuing a bundle, accepting from it. Each function is one whole step."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from intake.customers.models import Customer
from intake.services import Overtaken
from quotes.answering.services import accept_as_read, require_confirmed
from quotes.bundles import selectors
from quotes.bundles.making import paper, sums_of
from quotes.bundles.models import Bundle, BundleMember, new_token
from quotes.domain.bundle import BundleSums
from quotes.domain.lifecycle import NotConfirmed, QuoteError, QuoteStatus
from quotes.links.services import ask_for_mail
from quotes.models import Quote

_TRIES = 5


# --- Issuing --------------------------------------------------------------------------


def issue_bundle(*, customer: Customer, job: str, keys: Sequence[int], by: User) -> Bundle:
    """One quote for several boats of a yard under one order number, from their own quotes.

    Of an order number there is one bundle; another choice of quotes, or one of them replaced,
    makes its next version. The same quotes again give the one that stands. Raises QuoteError
    (fewer than two, not one currency), Overtaken where one was answered or replaced meanwhile.
    """
    for _ in range(_TRIES):
        quotes = selectors.quotes_to_bundle(customer, job, keys)
        _require_bundle(quotes, keys)
        before = selectors.standing_bundle(customer, job)
        if before and [one.pk for one in selectors.members(before)] == [one.pk for one in quotes]:
            return before
        made = _made(quotes, before)
        try:
            return _store(made, customer, job, before, by)
        except IntegrityError:
            continue  # somebody else took the number, or made the version: look again
    raise Overtaken


def _require_bundle(quotes: Sequence[Quote], keys: Sequence[int]) -> None:
    if len(set(keys)) < 2:
        raise QuoteError("Choose two boats at least; one alone has its own quote.")
    if len(quotes) < len(set(keys)):
        raise QuoteError("One of these quotes no longer holds. Look at the list as it is now.")
    if len({quote.currency for quote in quotes}) > 1:
        raise QuoteError("These quotes are in more than one currency, so they have no one total.")


@dataclass(frozen=True, slots=True)
class _Made:
    quotes: Sequence[Quote]
    number: str
    version: int
    valid_until: date
    sums: BundleSums
    pdf: bytes


def _made(quotes: Sequence[Quote], before: Bundle | None) -> _Made:
    number = before.number if before else _next_number()
    version = before.version + 1 if before else 1
    open_days = [one.valid_until for one in selectors.waiting(quotes) if one.valid_until]
    valid_until = min(open_days, default=timezone.localdate())
    pdf = paper(quotes, number, version, valid_until)
    return _Made(quotes, number, version, valid_until, sums_of(quotes), pdf)


def _next_number() -> str:
    year = timezone.localdate().year
    last = selectors.last_number(year)
    return f"B-{year}-{int(last[-6:] or 0) + 1:06d}"


@transaction.atomic
def _store(made: _Made, customer: Customer, job: str, before: Bundle | None, by: User) -> Bundle:
    """Quotes are locked by ascending key, as everywhere: each must still be what was printed."""
    for quote in sorted(made.quotes, key=lambda one: one.pk):
        same = Quote.objects.filter(pk=quote.pk, status=quote.status)
        if not same.update(status=F("status")):
            raise Overtaken
    if before is not None:
        Bundle.objects.filter(pk=before.pk).update(current=False)
    sums = made.sums
    bundle = Bundle.objects.create(
        customer=customer, job=job, number=made.number, version=made.version,
        token=before.token if before else new_token(), goods=sums.goods, freight=sums.freight,
        freight_words=sums.freight_words, tax=sums.tax, total=sums.total,
        currency=made.quotes[0].currency, valid_until=made.valid_until, issued_by=by,
        content=made.pdf, sha256=hashlib.sha256(made.pdf).hexdigest(),
    )  # fmt: skip
    BundleMember.objects.bulk_create(
        BundleMember(bundle=bundle, quote=quote, place=place)
        for place, quote in enumerate(made.quotes, start=1)
    )
    key, first = f"bundle:{bundle.pk}", made.quotes[0].submission
    ask_for_mail(submission=first, kind="bundle", key=key, bundle=bundle)
    return bundle


# --- The yard's answer ----------------------------------------------------------------


class NotAllConfirmed(QuoteError):
    """Something is missing before boats can be accepted. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(dict.fromkeys(errors.values())))
        self.errors = errors


def accept_from_bundle(
    *, bundle: Bundle, name: str, ticked: Mapping[int, list[str]], told_from: str = ""
) -> list[Quote]:
    """Accept some boats of a bundle, or all, each with its own statements; the rest wait.

    ``ticked``: statements by the quote's key, for each boat that is accepted. All of these or none
    is written. Accepted once more, nothing changes. Raises NotAllConfirmed, or QuoteError where
    one of them can no longer be accepted.
    """
    mine = {one.pk: one for one in selectors.members(bundle)}
    chosen = [mine[pk] for pk in sorted(ticked) if pk in mine]
    _require_all(chosen, name, ticked)
    accepted = []
    with transaction.atomic():
        for quote in chosen:  # by ascending key, so that two at once wait for each other
            try:
                done = accept_as_read(
                    quote=quote,
                    name=name,
                    confirmations=ticked[quote.pk],
                    told_from=told_from,
                )
            except QuoteError as error:
                boat = quote.submission.boat_name or quote.submission.reference
                raise QuoteError(f"{boat}: {error}") from error
            accepted.append(done)
    return accepted


def _require_all(chosen: Sequence[Quote], name: str, ticked: Mapping[int, list[str]]) -> None:
    errors: dict[str, str] = {}
    if not chosen:
        errors["boats"] = "Please choose the boats you accept."
    for quote in chosen:
        if quote.status == QuoteStatus.ACCEPTED:
            continue
        try:
            require_confirmed(quote, name.strip(), ticked[quote.pk])
        except NotConfirmed as missing:
            if "name" in missing.errors:
                errors["name"] = missing.errors.pop("name")
            if missing.errors:
                errors[f"boat-{quote.pk}"] = next(iter(missing.errors.values()))
    if errors:
        raise NotAllConfirmed(errors)


def note_bundle_opened(*, bundle: Bundle) -> None:
    """The yard sees this version, and with it its quotes, for the first time."""
    now = timezone.now()
    if Bundle.objects.filter(pk=bundle.pk, opened_at=None).update(opened_at=now):
        unseen = Quote.objects.filter(in_bundles__bundle=bundle, opened_at=None)
        unseen.filter(status=QuoteStatus.ISSUED).update(opened_at=now)


@transaction.atomic
def renew_bundle_link(*, bundle: Bundle) -> Bundle:
    """A new link takes the old one's place, and goes out by mail."""
    token = new_token()
    if Bundle.objects.filter(pk=bundle.pk, token=bundle.token).update(
        token=token, issued_at=timezone.now()
    ):
        bundle.token = token
        first = selectors.members(bundle)[0].submission
        ask_for_mail(
            submission=first, kind="bundle", key=f"bundle:{bundle.pk}:{token[:16]}", bundle=bundle
        )
    return bundle


# --- Erasing --------------------------------------------------------------------------


def forget_bundles(submissions: Sequence[int]) -> None:
    """Papers and order numbers of bundles with one of these requests go; sums and dates stay."""
    mine = Bundle.objects.filter(members__quote__submission__in=submissions)
    keys = set(mine.order_by().values_list("pk", flat=True))
    Bundle.objects.filter(pk__in=keys).update(content=None, job="")
