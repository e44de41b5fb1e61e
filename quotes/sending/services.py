"""A shaft leaves us, once: its tube, its weight, who carries it."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal, InvalidOperation

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone, translation

from catalog.domain.lengths import Length
from intake.domain.reading import read_sheet
from intake.inserts import insert
from intake.said import said
from quotes.domain.cut_words import small_end, stored_chain
from quotes.domain.fitting import (
    CAUTIONS,
    STEPS,
    FittingFacts,
    alignment_rows,
    gap_lines,
    left_long_steps,
)
from quotes.domain.order import alloy_words
from quotes.domain.packing import (
    PackingFacts,
    PackingRow,
    packing_facts,
    pounds,
    ship_to,
    tube_length,
)
from quotes.domain.paper_facts import boat_words
from quotes.domain.shop_stages import Stage
from quotes.domain.words import both
from quotes.inspecting.selectors import made_length, may_not_leave, newest, predicted_gap
from quotes.inspecting.services import promised
from quotes.making import order_of
from quotes.models import Quote
from quotes.passport.selectors import passport_of
from quotes.passport.tags import address_of
from quotes.said_facts import said_boat
from quotes.selectors import rates
from quotes.sending.models import Shipment
from quotes.shop.services import Stopped, hold, step
from quotes.shop.signals import shipped

LONGEST = 80
_EARLIEST = timedelta(days=14)  # a shipment is written down within a fortnight
_HEAVIEST = Decimal(2000)


class NotSent(ValueError):
    """Something is missing or cannot be read. ``errors``: box -> sentence."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


def facts_of(quote: Quote) -> PackingFacts:
    """What the packing list of an accepted quote says."""
    order, sheet = order_of(quote), read_sheet(quote.sheet.body)
    made = stored_chain(quote.sheet.body, quote.sheet.outcome)
    if order.shaft is None or made is None:
        raise ValueError("no shaft is ordered")
    last = newest(quote)
    row = PackingRow(
        shop=rates().name,
        number=quote.number,
        version=quote.version,
        reference=quote.submission.reference,
        boat=boat_words(sheet),
        job=sheet.job,
        customer=sheet.contact.name,
        ship_to=ship_to(quote.sheet.body),
        lines=quote.lines,
    )
    length = Length(last.length_nm) if last else order.shaft.sent
    return packing_facts(row, order, made, small_end(order.shaft), rates(), length)


def packing_list(quote: Quote) -> bytes:
    """The packing list of an accepted quote as a paper."""
    from quotes.paper.packing import packing_pdf  # here: a start needs no printer

    return packing_pdf(facts_of(quote))


def fitting_facts(quote: Quote) -> FittingFacts:
    """What the fitting card of an accepted quote says."""
    order, sheet = order_of(quote), read_sheet(quote.sheet.body)
    if order.shaft is None:
        raise ValueError("no shaft is ordered")
    wanted, made = promised(quote), predicted_gap(quote)
    gap, u = made or (wanted.gap, None)
    length = made_length(quote) or order.shaft.sent
    sizes = (both(one, order.shaft.system) for one in (order.shaft.diameter, length))
    size, long = map(said, sizes)
    passport = passport_of(quote)
    return FittingFacts(
        shop=rates().name,
        number=quote.number,
        version=quote.version,
        reference=quote.submission.reference,
        boat=said_boat(boat_words(sheet)),
        shaft=f"{size}, {alloy_words(order.shaft.alloy)}, {long}",
        address=address_of(passport) if passport else "",
        gap=gap_lines(gap, u, wanted.band, order.shaft.system),
        steps=(*left_long_steps(order.shaft), *STEPS),
        alignment=alignment_rows(sheet.length("flange_od")),
        cautions=CAUTIONS,
    )


def fitting_card(quote: Quote) -> bytes:
    """The fitting card as a paper, in the customer's language."""
    from quotes.paper.fitting import fitting_pdf

    language = quote.submission.language or settings.LANGUAGE_CODE
    with translation.override(language):
        return fitting_pdf(fitting_facts(quote), say=said, language=language)


def reckoned(quote: Quote) -> tuple[Length, Decimal]:
    """The tube's length and the shaft's weight in pounds, as worked out."""
    order = order_of(quote)
    made = stored_chain(quote.sheet.body, quote.sheet.outcome)
    if order.shaft is None or made is None:
        raise ValueError("no shaft is ordered")
    weight = pounds(order.shaft, made, small_end(order.shaft))
    return tube_length(order.shaft, rates()), weight.quantize(Decimal("0.1"))


def send(
    *, quote: Quote, by: User, day: str, carrier: str, tracking: str = "", weight: str = ""
) -> bool:
    """The shaft has gone. Told twice it is stored once: False the second time.

    ``day`` as 2026-11-26; ``weight`` in pounds as weighed, empty: as worked out. Raises NotSent,
    Stopped where it may not go, Overtaken where it is not packed.
    """
    errors: dict[str, str] = {}
    on, heavy = read_day(day, errors), read_weight(weight, errors)
    if not carrier.strip():
        errors["carrier"] = "Please write who carries it, or that it was fetched."
    if errors or on is None:
        raise NotSent(errors)
    tube, worked_out = reckoned(quote)
    with transaction.atomic():
        hold(quote)
        if missing := may_not_leave(quote):
            raise Stopped(*missing)
        if not step(quote, Stage.PACKED, Stage.SHIPPED, by):
            return False
        row = Shipment(
            quote=quote,
            day=on,
            tube_nm=tube.nm,
            weight_lb=heavy or worked_out,
            carrier=carrier.strip()[:LONGEST],
            tracking=tracking.strip()[:LONGEST],
            by=by,
        )
        insert(row, unless_there=True)
        shipped.send(sender=Shipment, quote=quote, day=on)
    return True


def read_day(text: str, errors: dict[str, str]) -> date | None:
    """The day it went, as 2026-11-26, today where nothing is typed; None with an error."""
    today = timezone.localdate()
    try:
        day = date.fromisoformat(text.strip() or today.isoformat())
    except ValueError:
        errors["day"] = "Please write the day like 2026-11-26."
        return None
    if not today - _EARLIEST <= day <= today:
        errors["day"] = "The day must be today, or within the last two weeks."
    return day


def read_weight(text: str, errors: dict[str, str]) -> Decimal | None:
    """Pounds as weighed; None where nothing is typed, or with an error."""
    text = text.strip().removesuffix("lb").strip().replace(",", ".")
    if not text:
        return None
    try:
        weight = Decimal(text)
    except InvalidOperation:
        weight = Decimal(-1)
    if not weight.is_finite() or not 0 < weight < _HEAVIEST:
        errors["weight"] = "Please write the weight in pounds, like 14.5."
        return None
    return weight.quantize(Decimal("0.1"))
