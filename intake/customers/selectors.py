"""Reading customers, boats and jobs: a constant number of statements each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from django.db.models import OuterRef, Prefetch, Q, QuerySet, Subquery

from intake.customers.models import Boat, Customer, Merge
from intake.domain.known_by import email_key, phone_key
from intake.domain.lifecycle import Status
from intake.models import SheetVersion, Submission
from intake.records.models import ShaftFitted

PAGE = 25
_MOST_REQUESTS = 50
_MOST_OF_A_JOB = 200
_MOST_MERGES = 50
_READY = (Status.READY, Status.QUOTED, Status.ACCEPTED)
_HOLDS = (Status.RECEIVED, Status.NEEDS_CALL)


def find_customer(pk: int) -> Customer:
    """A customer's record, merged or not. Raises Customer.DoesNotExist."""
    return Customer.objects.select_related("merged_into").get(pk=pk)


def find_boat(pk: int) -> Boat:
    """A boat's record with her customer, merged or not. Raises Boat.DoesNotExist."""
    return Boat.objects.select_related("customer", "merged_into").get(pk=pk)


def two_boats(one: int, other: int) -> list[Boat]:
    """Both records, each with her customer; fewer where one of them is not there."""
    both = Boat.objects.select_related("customer", "merged_into").in_bulk([one, other])
    return [both[key] for key in (one, other) if key in both]


def find_merge(pk: int) -> Merge:
    """One merge. Raises Merge.DoesNotExist."""
    return Merge.objects.get(pk=pk)


def customer_of(submission: Submission) -> Customer | None:
    """Whose request it is at this moment."""
    return Customer.objects.filter(submissions=submission).first()


def with_number_or_address(text: str) -> Customer | None:
    """Who is known by exactly this number or address, or has this number of record."""
    phone, email = phone_key(text), email_key(text)
    if "@" in email:
        return Customer.objects.filter(email_key=email).order_by("pk").first()
    if not phone:
        return None
    return Customer.objects.filter(Q(phone_key=phone) | Q(pk=_as_pk(phone))).order_by("pk").first()


def _as_pk(digits: str) -> int:
    return int(digits) if len(digits) < 10 else 0


# --- The list -------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Listed:
    """A customer with boats and the newest request, as the list shows them."""

    customer: Customer
    boats: tuple[Boat, ...]
    newest: Submission | None


def customers_page(after: tuple[datetime, int] | None = None) -> tuple[list[Listed], bool]:
    """A page of customers, newest activity first, and whether there are more.

    ``after``: activity and key of the last one of the page before.
    """
    newest = Submission.objects.filter(customer=OuterRef("pk")).order_by("-pk")
    rows = Customer.objects.filter(merged_into=None).order_by("-active_at", "-pk")
    if after is not None:
        at, pk = after
        rows = rows.filter(Q(active_at__lt=at) | Q(active_at=at, pk__lt=pk), active_at__lte=at)
    found = list(rows.annotate(newest_pk=Subquery(newest.values("pk")[:1]))[: PAGE + 1])
    shown = found[:PAGE]
    return _listed(shown), len(found) > PAGE


def _listed(customers: Sequence[Customer]) -> list[Listed]:
    keys = [getattr(one, "newest_pk", None) for one in customers]
    newest = Submission.objects.in_bulk([key for key in keys if key])
    boats = Boat.objects.filter(customer__in=customers, merged_into=None).order_by("boat_key", "pk")
    by_customer: dict[int, list[Boat]] = {}
    for boat in boats[: PAGE * 20]:
        by_customer.setdefault(boat.customer_id, []).append(boat)
    return [
        Listed(one, tuple(by_customer.get(one.pk, ())), newest.get(key) if key else None)
        for one, key in zip(customers, keys, strict=True)
    ]


# --- One customer, one boat, one job ---------------------------------------------------


def boats_of(customer: Customer) -> list[Boat]:
    """The boats that count, by name and side."""
    boats = Boat.objects.filter(customer=customer, merged_into=None)
    return list(boats.order_by("boat_key", "station", "pk"))


def requests_of(*, customer: Customer | None = None, boat: Boat | None = None) -> list[Submission]:
    """The newest requests of a customer, or of a boat."""
    mine = Q(customer=customer) if customer else Q(boat=boat)
    return list(Submission.objects.filter(mine).order_by("-pk")[:_MOST_REQUESTS])


def jobs_of(requests: Sequence[Submission]) -> list[str]:
    """The order numbers among these requests, newest first, each once."""
    return list(dict.fromkeys(one.job for one in requests if one.job))


def merges_of(kind: str, pk: int) -> list[Merge]:
    """What became one with this record, and is one now or was parted again."""
    own = Merge.objects.filter(Q(kept=pk) | Q(gone=pk), kind=kind)
    return list(own.select_related("by", "undone_by").order_by("-pk")[:_MOST_MERGES])


def shafts_of(boat: Boat) -> list[ShaftFitted]:
    """What was supplied for this boat and side, newest first; of each what was learned last."""
    newest: dict[int, ShaftFitted] = {}
    rows = ShaftFitted.objects.filter(boat=boat).select_related("submission")
    for row in rows.order_by("-at", "-pk"):
        newest.setdefault(row.submission_id, row)
    return list(newest.values())


def other_sides(boat: Boat) -> list[Boat]:
    """The same boat's other shafts."""
    same = Boat.objects.filter(
        customer=boat.customer_id, boat_key=boat.boat_key, merged_into=None
    ).exclude(pk=boat.pk)
    return list(same.order_by("station", "pk"))


@dataclass(frozen=True, slots=True)
class Job:
    """Everything under one order number. Nothing of one boat waits for another."""

    requests: list[Submission]

    @property
    def ready(self) -> int:
        """How many may go on."""
        return sum(one.status in _READY for one in self.requests)

    @property
    def on_hold(self) -> int:
        """How many wait for somebody to be asked."""
        return sum(one.status in _HOLDS for one in self.requests)

    @property
    def over(self) -> int:
        """How many are declined, lapsed or withdrawn."""
        return len(self.requests) - self.ready - self.on_hold


def job_of(customer: Customer, job: str) -> Job:
    """All requests of one customer's order number, each with its current sheet: two statements."""
    current = Prefetch(
        "sheets",
        queryset=SheetVersion.objects.filter(is_current=True).defer("body", "readings"),
        to_attr="current_sheets",
    )
    rows: QuerySet[Submission] = Submission.objects.filter(customer=customer, job=job)
    ordered = rows.order_by("boat_key", "station", "pk").prefetch_related(current)  # type: ignore[no-redef]
    return Job(list(ordered[:_MOST_OF_A_JOB]))


# --- For the call page ----------------------------------------------------------------


def boxes_for(*, customer: object = "", boat: object = "") -> dict[str, str]:
    """What stands in the call page's boxes for a known customer or boat, by the boxes' names.

    Keys of records as they stand in an address; empty where there is none, or what it told was
    erased.
    """
    found = _boat_at(str(boat))
    who = found.customer if found else _customer_at(str(customer))
    boxes: dict[str, str] = {}
    if who is not None:
        boxes = {f"contact.{name}": getattr(who, name) for name in _CONTACT}
    if found is not None:
        boxes[f"{_NAMED}.name"], boxes[f"{_NAMED}.station"] = found.name, found.station
    return {name: text for name, text in boxes.items() if text}


_CONTACT = ("name", "phone", "email", "role")
_NAMED = "answers.boat_name_and_station"


def _boat_at(key: str) -> Boat | None:
    if not _is_key(key):
        return None
    boat = Boat.objects.select_related("customer", "merged_into__customer").filter(pk=key).first()
    return boat.merged_into or boat if boat else None


def _customer_at(key: str) -> Customer | None:
    if not _is_key(key):
        return None
    who = Customer.objects.select_related("merged_into").filter(pk=key).first()
    return who.merged_into or who if who else None


def _is_key(key: str) -> bool:
    return key.isascii() and key.isdigit() and len(key) < 18
