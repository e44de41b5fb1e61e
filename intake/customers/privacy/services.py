"""Erasing who a customer was, and forgetting what is due. What was measured stays and counts."""

from __future__ import annotations

import secrets
from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from django.contrib.auth.models import User
from django.db import models, transaction
from django.db.models import F, Q
from django.utils import timezone

from intake.customers.models import Boat, Customer, Merge
from intake.customers.privacy import selectors
from intake.customers.privacy.traces import selectors as traces
from intake.desk_drafts.models import DeskDraft
from intake.domain.forgetting import Telling, without_person
from intake.domain.lifecycle import OPEN, Status
from intake.finding import services as finding
from intake.hand_over.models import HandedDraft
from intake.models import BlindReading, CallRecord, Event, Job, SheetVersion, Submission
from intake.photos.models import Photo
from intake.records.models import ShaftFitted
from intake.second_reading import SAID_BY
from intake.services import Overtaken, move
from intake.signals import customer_erased
from staff.security import tell
from staff.trail.services import FORGOTTEN, forget_values, note_change

_CONTACT = ("name", "phone", "email")
_AT_ONCE = 20  # of one kind in one go of the sweep: each is a short transaction
_AGAIN_AFTER = timedelta(days=30)


class EraseRefused(Exception):
    """Nothing was erased; the words say why. ``orders``: what stands in the way."""

    def __init__(self, words: str, orders: Sequence[str] = ()) -> None:
        super().__init__(words)
        self.orders = tuple(orders)


@transaction.atomic
def note_handing_out(*, customer: Customer, by: User, why: str) -> None:
    """That everything kept of a customer was handed out, in the trail."""
    today = f"{timezone.localdate()}"
    note_change(
        record="customer",
        key=customer.pk,
        by=by,
        why=why,
        before={"handed out": ""},
        after={"handed out": today},
    )
    tell("customer-handed-out", by=by.pk, customer=customer.pk)


@transaction.atomic
def erase_customer(*, customer: Customer, by: User | None, why: str) -> None:
    """Blank for good who this was, on everything that is kept, also by the rooms to the right.

    Numbers, causes, findings and months stay, so that what the desk has learned stays true. Open
    requests are withdrawn. Raises EraseRefused: an accepted order is not finished, somebody else
    was faster, or no reason is given. Cannot be undone.
    """
    why = " ".join(why.split())
    if not why:
        raise EraseRefused("Please write in a few words how it was asked for.")
    alive = Customer.objects.filter(pk=customer.pk, merged_into=None, erased_at=None)
    if not alive.update(revision=F("revision") + 1):
        raise EraseRefused("This record is erased already, or has become part of another one.")
    people = selectors.family(customer)
    submissions = list(selectors.submissions_of(people))
    keys = [one.pk for one in submissions]
    if orders := selectors.open_orders(keys):
        named = ", ".join(orders)
        raise EraseRefused(f"An accepted order is not finished yet: {named}.", orders)
    telling = traces.telling_of(people, submissions)
    if telling.stands_in(why):
        raise EraseRefused(
            "The reason names who is to be erased, and it is kept. Please write it without the "
            "name, number, address or boat."
        )
    finding.forget(keys)
    _withdraw(submissions, by)
    _forget_drafts(people, keys)
    boats = list(Boat.objects.filter(customer__in=people).values_list("pk", flat=True))
    for submission in submissions:
        _blank_request(submission, telling)
    _blank_errors(people, submissions)
    _blank_boats(boats)
    _blank_people(people, boats)
    customer_erased.send(sender=Customer, submissions=keys)
    note_change(
        record="customer",
        key=customer.pk,
        by=by,
        why=why,
        before={"erased": ""},
        after={"erased": f"{timezone.localdate()}"},
    )
    tell("customer-erased", by=by.pk if by else "-", customer=customer.pk)


def _withdraw(submissions: Sequence[Submission], by: User | None) -> None:
    """Nobody can be asked or sent anything any more. Also the lock: who accepts now is too late."""
    for submission in submissions:
        if Status(submission.status) in OPEN - {Status.RECEIVED}:
            try:
                move(submission, Status.WITHDRAWN, reason=FORGOTTEN, by=by)
            except Overtaken as error:
                raise EraseRefused(
                    f"{submission.reference} changed a moment ago, so nothing was erased. "
                    "Please look at it, then try again."
                ) from error


def _forget_drafts(people: Sequence[Customer], submissions: Sequence[int]) -> None:
    DeskDraft.objects.filter(pk__in=traces.drafts_of(people, submissions)).delete()
    HandedDraft.objects.filter(pk__in=traces.handed_drafts_of(people)).delete()


def _blank_request(submission: Submission, telling: Telling) -> None:
    """One request: its columns, its sheets as typed, free words, photos, what it is found by.

    The key under which it was sent stays, so that sending it once more cannot bring it back; the
    digest of what was sent goes, so it is not answered either.
    """
    for sheet in SheetVersion.objects.filter(submission=submission).defer("outcome", "readings"):
        by_hand = "" if sheet.said_by != SAID_BY else SAID_BY
        body = without_person(sheet.body, telling)
        SheetVersion.objects.filter(pk=sheet.pk).update(body=body, said_by=by_hand)
    CallRecord.objects.filter(submission=submission).update(
        said_by="", note="", question_as_asked=""
    )
    Event.objects.filter(submission=submission).update(reason="")
    # What was no length may be any words.
    unread = BlindReading.objects.filter(submission=submission, difference_nm=None)
    unread.update(first="", second="")
    Photo.objects.filter(submission=submission).delete()
    ShaftFitted.objects.filter(submission=submission).update(phone_key="", email_key="")
    Submission.objects.filter(pk=submission.pk).update(
        token=secrets.token_urlsafe(32),  # nobody knows it
        contact_name="",
        contact_phone="",
        contact_email="",
        boat_name="",
        boat_key="",
        job="",
        body_digest="",
        erased_at=timezone.now(),
    )


def _blank_errors(people: Sequence[Customer], submissions: Sequence[Submission]) -> None:
    """A mail server that refuses says whom it refused, and a job keeps what it said."""
    addresses = {one.email for one in people} | {one.contact_email for one in submissions}
    for address in filter(None, addresses):
        Job.objects.filter(error__icontains=address).update(error=FORGOTTEN)


def _blank_boats(boats: Sequence[int]) -> None:
    """Each is still another boat than the rest, so that sisters are counted as before."""
    for pk in boats:
        key = f"{FORGOTTEN} {pk}"
        Boat.objects.filter(pk=pk).update(name="", boat_key=key)
        forget_values(record="boat", key=pk, names=_CONTACT)
    for pk, boat in ShaftFitted.objects.filter(boat__in=boats).values_list("pk", "boat"):
        ShaftFitted.objects.filter(pk=pk).update(boat_key=f"{FORGOTTEN} {boat}")


def _blank_people(people: Sequence[Customer], boats: Sequence[int]) -> None:
    for one in people:
        Customer.objects.filter(pk=one.pk).update(
            name="",
            phone="",
            email="",
            phone_key="",
            email_key="",
            phone_tail="",
            known_by=None,
            erased_at=timezone.now(),
        )
        forget_values(record="customer", key=one.pk, names=_CONTACT)
    keys = [one.pk for one in people]
    of_people = Q(kind="customer", gone__in=keys)
    Merge.objects.filter(of_people | Q(kind="boat", gone__in=list(boats))).update(why="")


# --- What is due ----------------------------------------------------------------------


def forget_what_is_due() -> int:
    """A little of each kind that has been kept for long enough; say how much went.

    Customers with an order that is not finished are left for later.
    """
    gone = _delete(Photo, selectors.photos_due(_AT_ONCE))
    gone += _delete(DeskDraft, selectors.drafts_due(_AT_ONCE))
    for pk in selectors.customers_due(_AT_ONCE):
        gone += _forget_customer(pk)
    return gone


def _forget_customer(pk: int) -> int:
    try:
        erase_customer(
            customer=Customer.objects.get(pk=pk), by=None, why="kept for as long as we keep it"
        )
    except EraseRefused:
        # An order of theirs is not finished: they are looked at again in a month.
        later = timezone.now() - timedelta(days=selectors.keep_days()) + _AGAIN_AFTER
        Customer.objects.filter(pk=pk).update(active_at=later)
        return 0
    return 1


@transaction.atomic
def _delete(model: type[models.Model], keys: Sequence[int]) -> int:
    rows: Any = model._default_manager.filter(pk__in=list(keys))
    return int(rows.delete()[0])
