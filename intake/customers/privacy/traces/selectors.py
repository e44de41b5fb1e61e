"""Finding what tells of a customer, whatever way it was typed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.db.models import Q

from intake.customers.models import Boat, Customer
from intake.desk_drafts.merging import texts_of
from intake.desk_drafts.models import DeskDraft
from intake.domain.forgetting import Telling, tells_of
from intake.domain.known_by import boat_key, contact_keys, phone_key, phone_tail
from intake.hand_over.models import HandedDraft
from intake.models import Submission


def telling_of(people: Iterable[Customer], submissions: Iterable[Submission]) -> Telling:
    """What these people and their boats are called by, on their records and on each request."""
    customers, requests = list(people), list(submissions)
    boats = Boat.objects.filter(customer__in=customers).values_list("name", flat=True)
    return Telling(
        names=[
            *(one.name for one in customers),
            *(one.contact_name for one in requests),
            *(one.boat_name for one in requests),
            *boats,
        ],
        phones=[one.phone for one in customers] + [one.contact_phone for one in requests],
        emails=[one.email for one in customers] + [one.contact_email for one in requests],
    )


def drafts_of(customers: Iterable[Customer], submissions: Iterable[int]) -> list[int]:
    """Calls that were typed for these people: of their requests, or with their number in them.

    Or, where no number was typed yet, with their name and the name of one of their boats.
    """
    own, customers = list(submissions), list(customers)
    linked = DeskDraft.objects.filter(Q(submission__in=own) | Q(saved_as__in=own))
    found = set(linked.values_list("pk", flat=True))
    keys, pairs = _keys(customers), _names_with_boats(customers)
    loose = DeskDraft.objects.filter(submission=None, saved_as=None)
    for pk, boxes in loose.values_list("pk", "boxes").iterator():
        if tells_of(boxes, keys, _keys_in) or _pair_in(boxes) in pairs:
            found.add(pk)
    return sorted(found)


def _names_with_boats(customers: Iterable[Customer]) -> set[tuple[str, str]]:
    named = [one for one in customers if one.name]
    boats = Boat.objects.filter(customer__in=list(customers)).values_list("name", flat=True)
    return {(boat_key(one.name), boat_key(boat)) for one in named for boat in boats if boat}


def _pair_in(boxes: Mapping[str, Any]) -> tuple[str, str]:
    texts = texts_of(boxes)
    name, boat = texts.get("contact.name", ""), texts.get("answers.boat_name_and_station.name", "")
    return boat_key(name), boat_key(boat)


def handed_drafts_of(customers: Iterable[Customer]) -> list[int]:
    """Sheets that went from phone to phone with their number in them; each lasts a day."""
    keys = _keys(customers)
    rows = HandedDraft.objects.values_list("pk", "draft").iterator()
    return [pk for pk, draft in rows if tells_of(draft, keys, _keys_in)]


def _keys(customers: Iterable[Customer]) -> frozenset[str]:
    return frozenset().union(*(_known_by(one.phone, one.email) for one in customers))


def _keys_in(text: str) -> set[str]:
    return _known_by(text, text)


def _known_by(phone: str, email: str) -> set[str]:
    """The keys of a contact, and the end of its number: it may be typed without the country."""
    keys = contact_keys(phone, email)
    tail = phone_tail(phone_key(phone))
    return keys | {tail} if tail else keys
