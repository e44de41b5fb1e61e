"""Putting a customer's record right, with a reason, in the trail."""

from __future__ import annotations

from collections.abc import Mapping

from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.db.models import F

from intake.customers.models import Customer
from intake.customers.selectors import with_number_or_address
from intake.domain.known_by import email_key, phone_key, phone_tail
from intake.finding import services as finding
from staff.trail.services import note_change

EDITED = ("name", "phone", "email", "role")


class EditRefused(Exception):
    """Nothing was changed; the words say why. ``other``: whose number it is, to be merged."""

    def __init__(self, words: str, other: Customer | None = None) -> None:
        super().__init__(words)
        self.other = other


def edit_customer(
    *, customer: Customer, changed: Mapping[str, str], by: User, why: str
) -> Customer:
    """Change name, phone, e-mail or role of a record as it was looked at.

    Requests keep what was typed with them. Raises EditRefused: no reason, nothing left to know
    them by, another record has this number, or somebody else changed it meanwhile.
    """
    why = " ".join(why.split())
    if not why:
        raise EditRefused("Please write in a few words why.")
    columns = _columns(changed)
    try:
        with transaction.atomic():
            mine = Customer.objects.filter(
                pk=customer.pk, revision=customer.revision, merged_into=None, erased_at=None
            )
            if not mine.update(revision=F("revision") + 1, **columns):
                raise EditRefused(
                    "Somebody else changed this record a moment ago. Nothing is stored; please "
                    "look at it as it is now."
                )
            before = {name: getattr(customer, name) for name in EDITED}
            note_change(
                record="customer",
                key=customer.pk,
                by=by,
                why=why,
                before=before,
                after={name: columns[name] for name in EDITED},
            )
            finding.look_again_at([customer.pk])
    except IntegrityError as error:
        other = with_number_or_address(columns["phone"] or columns["email"])
        raise EditRefused(
            "Another record is known by this number. Are they one? Then merge the two.", other
        ) from error
    customer.refresh_from_db()
    return customer


def _columns(changed: Mapping[str, str]) -> dict[str, str]:
    told = {name: " ".join(changed.get(name, "").split()) for name in EDITED}
    phone, email = phone_key(told["phone"])[:64], email_key(told["email"])
    if not phone and not email:
        raise EditRefused("A number or an address is needed, or nobody finds this record again.")
    told |= {"phone_key": phone, "email_key": email, "phone_tail": phone_tail(phone)}
    return {**told, "known_by": phone or email}
