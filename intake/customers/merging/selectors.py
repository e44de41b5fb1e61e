"""What would move if a record became part of another one."""

from __future__ import annotations

from dataclasses import dataclass

from intake.customers.models import Boat, Customer
from intake.models import Submission
from intake.records.models import ShaftFitted

_MOST = 12  # boats that are named


@dataclass(frozen=True, slots=True)
class Moves:
    """How many requests and shafts, and the boats by name."""

    requests: int
    shafts: int
    boats: tuple[str, ...] = ()


def what_moves(customer: Customer) -> Moves:
    """All that belongs to a customer."""
    boats = Boat.objects.filter(customer=customer, merged_into=None).order_by("boat_key", "pk")
    return Moves(
        Submission.objects.filter(customer=customer).count(),
        ShaftFitted.objects.filter(boat__customer=customer).values("submission").distinct().count(),
        tuple(_named(boat) for boat in boats[:_MOST]),
    )


def boat_moves(boat: Boat) -> Moves:
    """All that belongs to a boat."""
    return Moves(
        Submission.objects.filter(boat=boat).count(),
        ShaftFitted.objects.filter(boat=boat).values("submission").distinct().count(),
    )


def _named(boat: Boat) -> str:
    side = f", {boat.station}" if boat.station and boat.station != "single" else ""
    return f"{boat.name}{side}"
