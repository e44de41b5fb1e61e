"""Two records that are the same become one, and can be parted again.

Whatever moves is written down by its key, so that parting puts back exactly that, and leaves with
the kept record what came to it later. A record that is merged points at one that is not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from django.contrib.auth.models import User
from django.db import models, transaction
from django.db.models import F
from django.utils import timezone

from intake.customers.models import Boat, Customer, Merge
from intake.finding import services as finding
from intake.models import Submission
from intake.records.models import ShaftFitted
from staff.trail.services import note_change

LONGEST_WHY = 400
_AT_ONCE = 500  # keys in one statement


class MergeRefused(Exception):
    """These records are not merged, or not parted; the words say why and what to do."""


class LookAgain(MergeRefused):
    """Somebody else changed one of the records since they were looked at."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed one of these records a moment ago, so nothing was done. "
            "Please look at them as they are now."
        )


@transaction.atomic
def merge_customers(*, keep: Customer, gone: Customer, by: User, why: str) -> Merge:
    """Everything of ``gone`` belongs to ``keep`` from now on, as they were when looked at.

    Boats of one name and side become one too. Raises MergeRefused, or LookAgain where either has
    changed since.
    """
    why = _why(why)
    if keep.pk == gone.pk:
        raise MergeRefused("This is one record already.")
    for one in sorted((keep, gone), key=lambda row: row.pk):  # in one order: nobody waits in a ring
        _hold(one)
    merge = _written("customer", keep.pk, gone.pk, by, why)
    there = {(boat.boat_key, boat.station): boat for boat in keep.boats.all()}
    boats: list[int] = []
    for boat in gone.boats.order_by("pk"):
        twin = there.get((boat.boat_key, boat.station))
        if twin is None:
            boats.append(boat.pk)
        elif boat.merged_into_id is None:
            _one_boat(twin.merged_into_id or twin.pk, boat.pk, by, why, part_of=merge.pk)
    moved = {
        "customers": _keys(Customer.objects.filter(merged_into=gone)),
        "submissions": _keys(Submission.objects.filter(customer=gone)),
        "boats": boats,
    }
    _move(Customer, moved["customers"], merged_into=keep.pk)
    _move(Submission, moved["submissions"], customer=keep.pk)
    _move(Boat, moved["boats"], customer=keep.pk)
    Customer.objects.filter(pk=gone.pk).update(merged_into=keep)
    newest = max(keep.active_at, gone.active_at)
    Customer.objects.filter(pk=keep.pk, active_at__lt=newest).update(active_at=newest)
    finding.look_again_at([keep.pk])
    _trail("customer", keep.pk, gone.pk, by, why)
    return _finished(merge, moved)


@transaction.atomic
def merge_boats(*, keep: Boat, gone: Boat, by: User, why: str) -> Merge:
    """The requests and shafts of ``gone`` belong to ``keep`` from now on.

    ``keep.customer`` is as it was looked at. Raises MergeRefused, or LookAgain.
    """
    why = _why(why)
    if keep.pk == gone.pk:
        raise MergeRefused("This is one record already.")
    if keep.customer_id != gone.customer_id:
        raise MergeRefused(
            "These boats belong to two customers. Merge the customers first, if they are one."
        )
    _hold(keep.customer)
    finding.look_again_at([keep.customer_id])
    if Boat.objects.filter(pk__in=(keep.pk, gone.pk), merged_into=None).count() != 2:
        raise LookAgain
    return _one_boat(keep.pk, gone.pk, by, why)


@transaction.atomic
def part(*, merge: Merge, by: User) -> Merge:
    """Put back what this merge moved. Raises MergeRefused where something later rests on it."""
    free = Merge.objects.filter(pk=merge.pk, undone_at=None)
    if not free.update(undone_at=timezone.now(), undone_by=by):
        raise MergeRefused("These records are parted already.")
    merge.refresh_from_db()
    if "part_of" in merge.moved:
        raise MergeRefused("These boats became one with their customers: part the customers.")
    if merge.kind == "boat":
        _hold_for_parting(Customer.objects.filter(boats__in=(merge.kept, merge.gone)))
        _part_boats(merge, by)
    else:
        _hold_for_parting(Customer.objects.filter(pk__in=(merge.kept, merge.gone)))
        _part_customers(merge, by)
    return merge


# --- The steps ------------------------------------------------------------------------


def _hold(customer: Customer) -> None:
    """Lock a customer as they were looked at, and let everybody else who looked look again."""
    mine = Customer.objects.filter(
        pk=customer.pk, revision=customer.revision, merged_into=None, erased_at=None
    )
    if not mine.update(revision=F("revision") + 1):
        raise LookAgain


def _hold_for_parting(customers: models.QuerySet[Customer]) -> None:
    for pk in sorted(set(customers.order_by().values_list("pk", flat=True))):
        alive = Customer.objects.filter(pk=pk, erased_at=None)
        if not alive.update(revision=F("revision") + 1):
            raise MergeRefused("What told who this was has been erased, so nothing can be parted.")
        finding.look_again_at([pk])


def _one_boat(keep: int, gone: int, by: User, why: str, part_of: int = 0) -> Merge:
    merge = _written("boat", keep, gone, by, why)
    moved: dict[str, Any] = {
        "boats": _keys(Boat.objects.filter(merged_into=gone)),
        "submissions": _keys(Submission.objects.filter(boat=gone)),
        "fitted": _keys(ShaftFitted.objects.filter(boat=gone)),
    }
    _move(Boat, moved["boats"], merged_into=keep)
    _move(Submission, moved["submissions"], boat=keep)
    _move(ShaftFitted, moved["fitted"], boat=keep)
    Boat.objects.filter(pk=gone).update(merged_into=keep)
    _trail("boat", keep, gone, by, why)
    return _finished(merge, {**moved, "part_of": part_of} if part_of else moved)


def _part_boats(merge: Merge, by: User) -> None:
    kept = Boat.objects.get(pk=merge.kept)
    gone = Boat.objects.select_related("customer").get(pk=merge.gone)
    if kept.merged_into_id is not None or gone.merged_into_id != kept.pk:
        raise MergeRefused("The boat that was kept was merged again later: part that first.")
    if gone.customer.merged_into_id is not None:
        raise MergeRefused("Their customers were merged later: part the customers first.")
    moved = merge.moved
    Boat.objects.filter(pk=gone.pk).update(merged_into=None)
    _move(Boat, moved["boats"], only={"merged_into": kept.pk}, merged_into=gone.pk)
    _move(Submission, moved["submissions"], only={"boat": kept.pk}, boat=gone.pk)
    _move(ShaftFitted, moved["fitted"], only={"boat": kept.pk}, boat=gone.pk)
    _trail("boat", kept.pk, gone.pk, by, "parted again", apart=True)


def _part_customers(merge: Merge, by: User) -> None:
    kept = Customer.objects.get(pk=merge.kept)
    gone = Customer.objects.get(pk=merge.gone)
    if kept.merged_into_id is not None or gone.merged_into_id != kept.pk:
        raise MergeRefused("The customer who was kept was merged again later: part that first.")
    moved, inside = merge.moved, list(_inside(merge))
    _require_no_later_boats(merge, moved["boats"] + [one.gone for one in inside], inside)
    Customer.objects.filter(pk=gone.pk).update(merged_into=None)
    _move(Customer, moved["customers"], only={"merged_into": kept.pk}, merged_into=gone.pk)
    _move(Submission, moved["submissions"], only={"customer": kept.pk}, customer=gone.pk)
    _move(Boat, moved["boats"], only={"customer": kept.pk}, customer=gone.pk)
    for one in inside:
        _part_boats(one, by)
        Merge.objects.filter(pk=one.pk).update(undone_at=merge.undone_at, undone_by=by)
    _trail("customer", kept.pk, gone.pk, by, "parted again", apart=True)


def _inside(merge: Merge) -> Iterator[Merge]:
    """The boats that became one with their customers."""
    later = Merge.objects.filter(kind="boat", undone_at=None, pk__gt=merge.pk)
    for one in later.filter(gone__in=Boat.objects.filter(customer=merge.gone)).order_by("pk"):
        if one.moved.get("part_of") == merge.pk:
            yield one


def _require_no_later_boats(merge: Merge, boats: Sequence[int], inside: Sequence[Merge]) -> None:
    later = Merge.objects.filter(kind="boat", undone_at=None, pk__gt=merge.pk)
    theirs = later.filter(models.Q(kept__in=boats) | models.Q(gone__in=boats))
    again = theirs.exclude(pk__in=[one.pk for one in inside]).first()
    if again is not None:
        boat = Boat.objects.get(pk=again.kept)
        raise MergeRefused(f"The boat {boat} was merged again later: part that first.")


# --- Small ones -----------------------------------------------------------------------


def _why(why: str) -> str:
    why = " ".join(why.split())[:LONGEST_WHY]
    if not why:
        raise MergeRefused("Please write in a few words how you know that they are the same.")
    return why


def _keys(rows: models.QuerySet[Any]) -> list[int]:
    return list(rows.order_by("pk").values_list("pk", flat=True))


def _move(
    model: type[models.Model], keys: Sequence[int], *, only: dict[str, int] | None = None, **to: int
) -> None:
    """Point rows elsewhere; ``only`` those that still are where they were moved to."""
    for some in _chunks(keys):
        rows = model._default_manager.filter(pk__in=some, **(only or {}))
        rows.update(**{f"{name}_id": value for name, value in to.items()})


def _chunks(keys: Sequence[int]) -> Iterable[Sequence[int]]:
    return (keys[start : start + _AT_ONCE] for start in range(0, len(keys), _AT_ONCE))


def _written(kind: str, keep: int, gone: int, by: User, why: str) -> Merge:
    return Merge.objects.create(kind=kind, kept=keep, gone=gone, by=by, why=why)


def _finished(merge: Merge, moved: dict[str, Any]) -> Merge:
    merge.moved = moved
    merge.save(update_fields=["moved"])
    return merge


def _trail(kind: str, keep: int, gone: int, by: User, why: str, *, apart: bool = False) -> None:
    """On both records: which other one it was merged with, or parted from."""
    for key, name, other in ((keep, "holds", gone), (gone, "merged into", keep)):
        told = {name: f"{kind} {other}"}, {name: ""}
        before, after = told if apart else told[::-1]
        note_change(record=kind, key=key, by=by, why=why, before=before, after=after)
