"""Changing the catalogue: each change is one transaction, and moves the version with it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from uuid import uuid4

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalog.domain.stock import Kind, StockPart
from catalog.models import SIZES, WORDS, CatalogVersion, Part
from catalog.pieces.counting.services import recount
from catalog.prices.dating.services import NewPrice, store_prices
from catalog.prices.selectors import prices_on
from catalog.selectors import facts_today
from catalog.tables import Row, read_parts
from catalog.told import told, told_of_new
from staff.trail.services import States, note_change, note_changes

_CHANGEABLE = ["kind", *(word for word in WORDS if word != "code")]
_CHANGEABLE += [f"{size}_nm" for size in SIZES]
_BATCH = 500
TRAIL = "part"  # the trail's name for these records; the key is the code


@dataclass(frozen=True, slots=True)
class LoadReport:
    """What a load did: codes new, changed, and left as they were."""

    added: tuple[str, ...]
    changed: tuple[str, ...]
    unchanged: int


def load_catalog(
    table: str | Iterable[Row], *, by: User | None = None, why: str = "a table was loaded"
) -> LoadReport:
    """Take a catalogue table, whole or not at all. Loading it again changes nothing.

    Parts that are not in the table stay as they are. The trail gets one line for each part that
    is new or changed. Raises TableErrors, with every fault by row and column.
    """
    parts = read_parts(table)
    with transaction.atomic():
        known = {part.code: part for part in facts_today()}
        new = [part for part in parts if part.code not in known]
        changed = [part for part in parts if known.get(part.code, part) != part]
        if new or changed:
            next_version()
            _store([*new, *changed])
            _date_prices(known, [*new, *changed], by=by, why=why)
            _count_pieces(changed)
            _tell(known, new, changed, by=by, why=why)
    same = len(parts) - len(new) - len(changed)
    return LoadReport(_codes(new), _codes(changed), unchanged=same)


def _codes(parts: Iterable[StockPart]) -> tuple[str, ...]:
    return tuple(part.code for part in parts)


def _tell(
    known: Mapping[str, StockPart],
    new: Iterable[StockPart],
    changed: Iterable[StockPart],
    *,
    by: User | None,
    why: str,
) -> None:
    """One line for each part, in a few queries however many."""
    lines: list[tuple[object, States]] = [(part.code, ({}, told_of_new(part))) for part in new]
    lines += [(part.code, (told(known[part.code]), told(part))) for part in changed]
    note_changes(record=TRAIL, by=by, why=why, changes=lines)


def _store(parts: Iterable[StockPart]) -> None:
    Part.objects.bulk_create(
        [Part.from_fact(part) for part in parts],
        batch_size=_BATCH,
        update_conflicts=True,
        unique_fields=["code"],
        update_fields=_CHANGEABLE,
    )


def _date_prices(
    known: Mapping[str, StockPart], parts: Iterable[StockPart], *, by: User | None, why: str
) -> None:
    """A price that is another one from today on leaves its dated row."""
    today = timezone.localdate()
    moved = [
        NewPrice(part.code, part.price, today)
        for part in parts
        if part.code not in known or known[part.code].price != part.price
    ]
    if moved:
        store_prices(moved, by=by, why=why)


def _count_pieces(changed: Iterable[StockPart]) -> None:
    """What a table says is on hand holds for no part that is kept piece by piece."""
    codes = [part.code for part in changed if part.kind in (Kind.BAR, Kind.BLANK)]
    recount(Part.objects.filter(code__in=codes).values_list("pk", flat=True))


def next_version() -> None:
    """Move the version on, before the change it belongs to and in the same transaction.

    It is also the turn to change what stands on the shelf: who holds, takes or receives begins
    with it, so that two of them at once never wait for each other crosswise.
    """
    moved = CatalogVersion.objects.filter(pk=1).update(number=F("number") + 1, stamp=uuid4())
    if not moved:
        CatalogVersion.objects.create(pk=1, number=1, stamp=uuid4())


@transaction.atomic
def save_part(*, part: Part, by: User | None = None, why: str = "") -> Part:
    """Store one part as it is now; its trail says who changed what, and why.

    ``part.price`` is what it costs from today on: give it the price in force where that is not
    to be changed (``catalog.selectors.part_today``), not the one the row was stored with.
    """
    part.full_clean()
    next_version()
    old = Part.objects.select_for_update().filter(pk=part.pk).first() if part.pk else None
    part.held = old.held if old else 0  # whoever held some while it was edited still does
    known = _as_it_costs(old) if old else None
    part.save()
    recount([part.pk])
    stored = _stored(part)
    _date_prices(
        {stored.code: known} if known and known.code == stored.code else {},
        [stored],
        by=by,
        why=why,
    )
    # Another code is another part to whoever looks for it: the trail goes on under the new one.
    before = told(known) if known else {}
    note_change(record=TRAIL, key=part.code, by=by, why=why, before=before, after=told(stored))
    return part


def _as_it_costs(part: Part) -> StockPart:
    """The part with the price that is in force today, which may have been set long before."""
    price = prices_on(timezone.localdate(), [part.code]).get(part.code, part.price)
    return replace(part.as_fact(), price=price)


def _stored(part: Part) -> StockPart:
    """As the database keeps it: a price with its places."""
    part.refresh_from_db()
    return part.as_fact()


@transaction.atomic
def remove_part(*, part: Part, by: User | None = None, why: str = "") -> None:
    """Take one part out of the catalogue. Its trail stays, under its code."""
    next_version()
    note_change(record=TRAIL, key=part.code, by=by, why=why, before=told(part.as_fact()), after={})
    part.delete()
