"""A parcel of parts goes its short way: waiting, packed, gone; each step once."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.db import transaction

from intake.domain.reading import read_sheet
from intake.inserts import insert
from quotes.domain.packing import PackingFacts, PackingRow, parcel_facts, ship_to
from quotes.domain.paper_facts import boat_words
from quotes.domain.shop_stages import PARCEL, PARCEL_WORDS, Stage, step_back
from quotes.making import order_of
from quotes.models import Quote
from quotes.selectors import rates
from quotes.sending.models import Shipment
from quotes.sending.services import LONGEST, NotSent, read_day, read_weight
from quotes.shop.selectors import stage_of
from quotes.shop.services import Stopped, hold_parts, step
from quotes.shop.signals import shipped
from quotes.shop.waiting import not_on_the_shelf
from quotes.stock import services as stock


@transaction.atomic
def pack(*, quote: Quote, by: User) -> bool:
    """Everything is in the parcel. Pressed twice it is written once: False the second time.

    Raises Stopped where the acceptance no longer stands or a part is on no shelf, Overtaken where
    the order was sent or called off meanwhile.
    """
    hold_parts(quote)
    missing = stock.still_missing(quote)
    if missing:
        raise Stopped(*not_on_the_shelf(missing))
    return step(quote, Stage.WAITING, Stage.PACKED, by)


@transaction.atomic
def open_again(*, quote: Quote, by: User, why: str) -> bool:
    """A parcel that was packed by mistake is open again, with its reason. Raises Stopped."""
    to = step_back(Stage.PACKED, PARCEL)
    if to is None or not why.strip():
        raise Stopped("Please write why the step is taken back.")
    hold_parts(quote)
    return step(quote, Stage.PACKED, to, by, why)


def send_parcel(
    *, quote: Quote, by: User, day: str, carrier: str, tracking: str = "", weight: str = ""
) -> bool:
    """The parcel has gone, and its parts have left the shelf. Told twice it is stored once.

    ``weight`` in pounds as weighed: nobody can work it out. Raises NotSent, Stopped where the
    acceptance no longer stands, Overtaken where it is not packed.
    """
    errors: dict[str, str] = {}
    on, heavy = read_day(day, errors), read_weight(weight, errors)
    if heavy is None and "weight" not in errors:
        errors["weight"] = "Please weigh the parcel: in pounds, like 4.5."
    if not carrier.strip():
        errors["carrier"] = "Please write who carries it, or that it was fetched."
    if errors or on is None or heavy is None:
        raise NotSent(errors)
    row = Shipment(
        quote=quote,
        day=on,
        weight_lb=heavy,
        carrier=carrier.strip()[:LONGEST],
        tracking=tracking.strip()[:LONGEST],
        by=by,
    )
    return _gone(row, by)


@transaction.atomic
def _gone(row: Shipment, by: User) -> bool:
    hold_parts(row.quote)
    if not step(row.quote, Stage.PACKED, Stage.SHIPPED, by):
        return False
    stock.take(row.quote, by)
    insert(row, unless_there=True)
    shipped.send(sender=Shipment, quote=row.quote, day=row.day)
    return True


def facts_of(quote: Quote) -> PackingFacts:
    """What the packing list of an accepted order of parts says."""
    sheet = read_sheet(quote.sheet.body)
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
    return parcel_facts(row, order_of(quote))


def packing_list(quote: Quote) -> bytes:
    """The packing list as a paper."""
    from quotes.paper.packing import packing_pdf  # here: a start needs no printer

    return packing_pdf(facts_of(quote))


def stage_now(quote: Quote) -> str:
    """Where a parcel stands, in words."""
    return PARCEL_WORDS[stage_of(quote)]
