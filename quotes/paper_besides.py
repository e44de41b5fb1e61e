"""What a quote's paper says besides the sheet and the price, gathered from who knows it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from django.conf import settings
from django.urls import reverse
from django.utils.formats import date_format

from intake.desk_show import label_for
from intake.models import SheetVersion
from intake.said import language_now
from quotes import selectors
from quotes.calendar.selectors import leaves_if_accepted
from quotes.choosing.selectors import on_offer
from quotes.domain.besides import Besides
from quotes.domain.facts import PhotoFact
from quotes.domain.kept_choice import kept_choice
from quotes.domain.quoted_order import quoted_order
from quotes.domain.remake_price import kept_remake
from quotes.terms.selectors import terms_of


def besides_of(
    sheet: SheetVersion, inputs: Mapping[str, Any], today: date, valid_until: date
) -> Besides:
    """For a quote that is made today from these inputs, in the language of the moment.

    A remake is the shaft as it was: nothing is offered with it.
    """
    choice, submission = kept_choice(inputs), sheet.submission
    order = quoted_order(sheet.body, sheet.outcome, inputs)
    given = {code: Decimal(text) for code, text in inputs.get("prices_by_hand", {}).items()}
    shown = None if kept_remake(inputs) else on_offer(sheet, given, inputs)
    return Besides(
        address=_address(submission.token),
        choice=choice,
        terms=terms_of(submission),
        alloys=shown.columns(choice) if shown else (),
        offers=shown.offers(choice) if shown else (),
        photos=_photos(submission.pk),
        leaves=leaves_if_accepted(order, sheet.outcome, today, valid_until),
        say_day=lambda day: date_format(day, "DATE_FORMAT"),
        language=language_now(),
    )


def _address(token: str) -> str:
    """The status page as it is scanned from paper."""
    return str(settings.SITE_URL).rstrip("/") + reverse("status", args=[token])


def _photos(submission_id: int) -> tuple[PhotoFact, ...]:
    return tuple(
        PhotoFact(small, str(label_for(question)) if question else "")
        for small, question in selectors.small_photos(submission_id)
    )
