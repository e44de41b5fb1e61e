"""Awaiting a customer's own part, taking it in once, giving it back. Each is one whole step."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.inserts import insert
from quotes.cases.models import Case
from quotes.making import order_of
from quotes.models import Quote
from quotes.receiving import selectors
from quotes.receiving.models import COUPLING, WHATS, OwnPart


class NotReceived(Exception):
    """It cannot be written down as it was typed. ``errors``: box -> sentence."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


@dataclass(frozen=True, slots=True)
class Arrival:
    """What came in: from whom, in what state, where it lies now, and on which day."""

    day: date
    sender: str
    condition: str
    place: str


def await_own_parts(quote: Quote) -> None:
    """An order was accepted: if the customer sends their coupling, wait for it from today.

    In the caller's transaction; asking again changes nothing.
    """
    if order_of(quote).coupling_comes:
        await_part(quote=quote, what=COUPLING)


def await_part(*, quote: Quote, what: str, case: Case | None = None) -> OwnPart:
    """Wait for one part, once for an order or a case. In the caller's transaction."""
    row = OwnPart(quote=quote, case=case, what=what, awaited_since=timezone.localdate())
    if insert(row, unless_there=True):
        return row
    return selectors.part_of(quote, what, case)


@transaction.atomic
def receive(*, part: OwnPart, arrival: Arrival, by: User) -> bool:
    """A part is here. Once: False where it was taken in already. Raises NotReceived."""
    _require(arrival)
    waiting = OwnPart.objects.filter(pk=part.pk, received_on=None)
    return bool(
        waiting.update(
            received_on=arrival.day,
            received_from=arrival.sender[:200],
            condition=arrival.condition[:1000],
            place=arrival.place[:80],
            received_by=by,
            not_coming="",
        )
    )


@transaction.atomic
def receive_unasked(*, quote: Quote, what: str, arrival: Arrival, by: User) -> OwnPart:
    """Something came that nobody waited for; what was awaited is taken in as such.

    Raises NotReceived, also where such a part of this order was taken in already.
    """
    if what not in dict(WHATS):
        raise NotReceived({"what": "Choose what has come."})
    _require(arrival)
    part = await_part(quote=quote, what=what)
    if not receive(part=part, arrival=arrival, by=by):
        words = f"A {dict(WHATS)[what]} of this order was taken in already; see below."
        raise NotReceived({"what": words})
    return part


def _require(arrival: Arrival) -> None:
    errors = {}
    if arrival.day > timezone.localdate():
        errors["day"] = "That day is still to come. Give the day it arrived."
    if not arrival.sender:
        errors["sender"] = "Write from whom it came."
    if not arrival.condition:
        errors["condition"] = "Write in a few words what state it is in: it will be asked later."
    if not arrival.place:
        errors["place"] = "Write where it lies now, so that the shop finds it."
    if errors:
        raise NotReceived(errors)


@transaction.atomic
def stop_waiting(*, part: OwnPart, why: str) -> bool:
    """It does not come after all. Once: False where it is here. Raises NotReceived."""
    if not why:
        raise NotReceived({"not_coming": "Write why it does not come."})
    waiting = OwnPart.objects.filter(pk=part.pk, received_on=None)
    return bool(waiting.update(not_coming=why[:200]))


@transaction.atomic
def give_back(*, part: OwnPart, how: str, by: User | None, day: date | None = None) -> bool:
    """It goes back to its owner. Once: False where it is not here. ``by`` None: with the parcel."""
    here = OwnPart.objects.filter(pk=part.pk, returned_on=None).exclude(received_on=None)
    return bool(
        here.update(returned_on=day or timezone.localdate(), returned_how=how[:200], returned_by=by)
    )


def returned_with_parcel(*, quote: Quote, day: date) -> int:
    """The shaft has left: what was here of this order went with it. In the caller's transaction."""
    here = OwnPart.objects.filter(quote=quote, case=None, returned_on=None)
    return here.exclude(received_on=None).update(
        returned_on=day, returned_how="with the shaft's parcel"
    )
