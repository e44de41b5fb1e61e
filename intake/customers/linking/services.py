"""Whose request this is: one record for each customer, and for each boat and side of hers.

Looked up with the history, in one statement; made here, in the transaction that stores the request.
"""

from __future__ import annotations

from typing import Any

from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from intake.customers.models import Boat, Customer
from intake.domain.known_by import boat_key, contact_keys, email_key, phone_key, phone_tail
from intake.domain.sheet import Sheet
from intake.inserts import insert
from intake.models import Submission
from intake.records.selectors import Known, who_asks
from staff.trail.services import note_change

_TRIES = 5
# Conditional, so that it is the lock too: whoever merges these records waits for us, or was first.
_TOUCH = f"""
    UPDATE {Customer._meta.db_table} SET active_at = %s
    WHERE id = %s AND revision = %s AND merged_into_id IS NULL
"""  # noqa: S608


def link(submission: Submission, sheet: Sheet, known: Known) -> None:
    """Set the customer and the boat of a request that is about to be stored.

    By the number first, then by the address; whoever is not known gets a record. A request that
    names nobody, or no boat, gets none. ``known`` is what was found a moment ago: where somebody
    has merged or made these records since, it is looked up again.
    """
    submission.customer_id, submission.boat_id = _found(submission, sheet, known)


def linked_anew(submission: Submission, sheet: Sheet, known: Known) -> dict[str, Any]:
    """The columns to change for a new version of the sheet; none where it names the same.

    As long as the contact is the same the request stays with its customer, whatever the record was
    corrected to since.
    """
    same_contact = contact_keys(sheet.contact.phone, sheet.contact.email) == contact_keys(
        submission.contact_phone, submission.contact_email
    )
    key, station = boat_key(sheet.boat_name), sheet.station or ""
    if same_contact and (key, station) == (submission.boat_key, submission.station):
        return {}
    if same_contact and submission.customer_id:
        known = _as_it_is(submission.customer_id, key, station)
    customer, boat = _found(submission, sheet, known)
    return {"customer_id": customer, "boat_id": boat}


def _found(submission: Submission, sheet: Sheet, known: Known) -> tuple[int | None, int | None]:
    if not contact_keys(sheet.contact.phone, sheet.contact.email):
        return None, None
    for _ in range(_TRIES):
        if known.customer is None:
            customer = _new_customer(sheet)
        else:
            customer = known.customer if _touch(known, sheet, submission.reference) else None
        if customer is not None:
            return customer, known.boat or _boat(customer, sheet)
        known = who_asks(sheet)  # somebody made or merged this record a moment ago
    raise RuntimeError("the customer's record is never the same twice")


def _new_customer(sheet: Sheet) -> int | None:
    """A record for somebody new; None where another request of theirs was first."""
    contact, now = sheet.contact, timezone.now()
    phone = phone_key(contact.phone)[:64]
    row = Customer(
        name=contact.name or "",
        phone=contact.phone or "",
        email=contact.email or "",
        role=contact.role or "",
        phone_key=phone,
        email_key=email_key(contact.email),
        known_by=phone or email_key(contact.email),
        phone_tail=phone_tail(phone),
        made_at=now,
        active_at=now,
    )
    return row.pk if insert(row, unless_there=True) else None


def _boat(customer: int, sheet: Sheet) -> int | None:
    key, station = boat_key(sheet.boat_name), sheet.station or ""
    if not key:
        return None
    row = Boat(customer_id=customer, name=sheet.boat_name or "", station=station, boat_key=key)
    if insert(row, unless_there=True):
        return row.pk
    there = Boat.objects.get(customer=customer, boat_key=key, station=station)
    return there.merged_into_id or there.pk


def _touch(known: Known, sheet: Sheet, reference: str) -> bool:
    """Hold the record as it was looked at, and say that something happened; False: it changed."""
    now = connection.ops.adapt_datetimefield_value(timezone.now())
    with connection.cursor() as cursor:
        cursor.execute(_TOUCH, (now, known.customer, known.revision))
        held = bool(cursor.rowcount)
    if held and known.learns:
        _learn(known, sheet, reference)
    return held


def _learn(known: Known, sheet: Sheet, reference: str) -> None:
    """A name, number or address that this record did not have yet. The trail says where from."""
    contact = sheet.contact
    told = {name: getattr(contact, name) or "" for name in sorted(known.learns)}
    columns = dict(told)
    if "phone" in told:
        key = phone_key(told["phone"])[:64]
        columns |= {"phone_key": key, "known_by": key, "phone_tail": phone_tail(key)}
    if "email" in told:
        columns["email_key"] = email_key(told["email"])
    try:
        with transaction.atomic():
            Customer.objects.filter(pk=known.customer or 0).update(**columns)
    except IntegrityError:
        return  # another record has this number: the desk is shown both, and decides
    note_change(
        record="customer",
        key=known.customer,
        by=None,
        why=f"told with {reference}",
        before=dict.fromkeys(told, ""),
        after=told,
    )


def _as_it_is(customer_id: int, key: str, station: str) -> Known:
    customer = Customer.objects.select_related("merged_into").get(pk=customer_id)
    root = customer.merged_into or customer
    boat = Boat.objects.filter(customer=root, boat_key=key, station=station).first()
    found = (boat.merged_into_id or boat.pk) if boat else None
    return Known(root.pk, root.revision, found)
