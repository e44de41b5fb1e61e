"""Which records are perhaps the same as those on a page: a few statements, however many there are.

Every customer is on some page of the list, newest first, so every pair is suggested once one of
the two has asked again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from intake.customers.models import Boat, Customer
from intake.domain.look_alikes import one_edit_apart

_MOST = 200  # rows of one kind that are looked at
_MOST_SHOWN = 8
_LAST_DIGITS = 4


@dataclass(frozen=True, slots=True)
class Alike:
    """Two records and why they are perhaps one. ``kind``: customer or boat."""

    kind: str
    one: Customer | Boat
    other: Customer | Boat
    why: str


def look_alikes(customers: Sequence[Customer]) -> list[Alike]:
    """Pairs of which at least one is among these customers, or is a boat of theirs."""
    if not customers:
        return []
    boats = _boats_of(customers)
    found = {
        (pair.kind, *sorted((pair.one.pk, pair.other.pk))): pair
        for pair in (*_same_boat(customers, boats), *_by_contact(customers), *_boat_names(boats))
    }
    return list(found.values())[:_MOST_SHOWN]


def _boats_of(customers: Iterable[Customer]) -> list[Boat]:
    theirs = Boat.objects.filter(customer__in=[one.pk for one in customers], merged_into=None)
    return list(theirs.select_related("customer").order_by("-pk")[:_MOST])


def _by_contact(customers: Sequence[Customer]) -> Iterator[Alike]:
    """The same end of a number, or the same address."""
    alive = Customer.objects.filter(merged_into=None)
    tails = {one.phone_tail for one in customers if one.phone_tail}
    mails = {one.email_key for one in customers if one.email_key}
    for column, why, keys in (
        ("phone_tail", "the same number, written another way", tails),
        ("email_key", "the same e-mail address", mails),
    ):
        rows = list(alive.filter(**{f"{column}__in": keys}).order_by("pk")[:_MOST]) if keys else []
        by_key: dict[str, list[Customer]] = defaultdict(list)
        for row in rows:
            by_key[getattr(row, column)].append(row)
        for same in by_key.values():
            yield from (Alike("customer", a, b, why) for a, b in combinations(same, 2))


def _boat_names(boats: Sequence[Boat]) -> Iterator[Alike]:
    """Boats of one customer and one side whose names are a slip of the pen apart."""
    by_owner: dict[tuple[int, str], list[Boat]] = defaultdict(list)
    for boat in boats:
        by_owner[boat.customer_id, boat.station].append(boat)
    for theirs in by_owner.values():
        for one, other in combinations(sorted(theirs, key=lambda boat: boat.pk), 2):
            if one_edit_apart(one.boat_key, other.boat_key):
                yield Alike("boat", one, other, "names one letter apart")


def _same_boat(customers: Sequence[Customer], boats: Sequence[Boat]) -> Iterator[Alike]:
    """The same boat of two customers whose numbers end alike: a digit was heard wrong."""
    ours = {one.pk: one for one in customers}
    keys = {boat.boat_key for boat in boats}
    named = Boat.objects.filter(boat_key__in=keys, merged_into=None).select_related("customer")
    by_name: dict[str, list[Boat]] = defaultdict(list)
    for boat in named.order_by("pk")[:_MOST]:
        by_name[boat.boat_key].append(boat)
    for same in by_name.values():
        for one, other in combinations(same, 2):
            if ours.keys().isdisjoint((one.customer_id, other.customer_id)):
                continue
            if one.customer_id != other.customer_id and _end_alike(one.customer, other.customer):
                why = f"both have a boat {one.name}, and their numbers end alike"
                yield Alike("customer", one.customer, other.customer, why)


def _end_alike(one: Customer, other: Customer) -> bool:
    ends = one.phone_key[-_LAST_DIGITS:], other.phone_key[-_LAST_DIGITS:]
    return len(ends[0]) == _LAST_DIGITS and ends[0] == ends[1]
