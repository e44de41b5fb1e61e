"""Writing down money. Rows are added; a mistake is answered by another row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from intake.inserts import insert
from quotes.bundles.models import Bundle, BundleMember
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.money import PriceError, money_text, read_price
from quotes.domain.payments import NO_CARDS, Kind, PaymentErrors, looks_like_a_card
from quotes.models import Quote
from quotes.payments.models import Payment
from quotes.payments.selectors import paid, paid_for_bundles

LONGEST = {"how": 80, "note": 300}


@transaction.atomic
def record_payment(
    *, quote: Quote, typed: Mapping[str, str], nonce: str, by: User, bundle: Bundle | None = None
) -> bool:
    """Write down a deposit, a payment or a refund: for the quote, or for its bundle where one is
    given. ``typed``: kind, amount, day (ISO), how, note. False where this form was sent before.

    Raises PaymentErrors, box by box.
    """
    quote = Quote.objects.select_for_update().get(pk=quote.pk)  # whoever pays back waits here
    row = _row(quote, bundle, typed)
    row.nonce, row.by = nonce, by
    return insert(row, unless_there=True)


def _row(quote: Quote, bundle: Bundle | None, typed: Mapping[str, str]) -> Payment:
    errors: dict[str, str] = {}
    row = Payment(
        quote=None if bundle else quote,
        bundle=bundle,
        kind=typed.get("kind", ""),
        amount=_amount(typed.get("amount", ""), errors),
        day=_day(typed.get("day", ""), errors),
        how=_words("how", typed, errors),
        note=_words("note", typed, errors),
    )
    if row.kind not in list(Kind):
        errors["kind"] = "Please choose what it is: deposit, payment or paid back."
    if not row.how:
        errors.setdefault("how", "Please say how it came: by bank transfer, in cash, by cheque.")
    if quote.status == QuoteStatus.DRAFTED:
        errors["amount"] = "This quote is not issued yet, so nothing can be paid for it."
    if not errors and row.kind == Kind.REFUND:
        _enough(row, quote, bundle, errors)
    if errors:
        raise PaymentErrors(errors)
    return row


def _amount(text: str, errors: dict[str, str]) -> Decimal:
    try:
        amount = read_price(text)
    except PriceError:
        errors["amount"] = "Please give an amount like 348.54."
        return Decimal(0)
    if amount <= 0 or amount != amount.quantize(Decimal("0.01")):
        errors["amount"] = "Please give an amount over nothing, in whole cents: 348.54."
    return amount


def _day(text: str, errors: dict[str, str]) -> date:
    today = timezone.localdate()
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        errors["day"] = "Please give the day it came in, like 2026-12-24."
        return today
    if day > today:
        errors["day"] = "That day is still to come. Write a payment down once it is in."
    return day


def _words(box: str, typed: Mapping[str, str], errors: dict[str, str]) -> str:
    text = " ".join(typed.get(box, "").replace("\x00", "").split())
    if len(text) > LONGEST[box]:
        errors[box] = f"Please keep this under {LONGEST[box]} characters."
    if looks_like_a_card(text):
        errors[box] = NO_CARDS
    return text


def _enough(row: Payment, quote: Quote, bundle: Bundle | None, errors: dict[str, str]) -> None:
    """Nothing is paid back that never came in."""
    came = paid_for_bundles([bundle.number])[bundle.number] if bundle else paid(quote)
    if row.amount > came:
        paid_in = money_text(came, quote.currency)
        errors["amount"] = f"Only {paid_in} came in, so no more can be paid back."


def forget_payments(submissions: Sequence[int]) -> None:
    """Who paid is forgotten, since words may name them; amounts, days and kinds stay."""
    bundles = BundleMember.objects.filter(quote__submission__in=submissions).values("bundle")
    own = Payment.objects.filter(Q(quote__submission__in=submissions) | Q(bundle__in=bundles))
    own.update(how="", note="")
