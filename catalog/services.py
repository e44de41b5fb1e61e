"""Changing the catalogue: each change is one transaction, and moves the version with it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from uuid import uuid4

from django.db import transaction
from django.db.models import F

from catalog.domain.stock import StockPart
from catalog.models import SIZES, WORDS, CatalogVersion, Part
from catalog.tables import Row, read_parts

_CHANGEABLE = ["kind", *(word for word in WORDS if word != "code")]
_CHANGEABLE += [f"{size}_nm" for size in SIZES]
_BATCH = 500


@dataclass(frozen=True, slots=True)
class LoadReport:
    """What a load did: codes new, changed, and left as they were."""

    added: tuple[str, ...]
    changed: tuple[str, ...]
    unchanged: int


def load_catalog(table: str | Iterable[Row]) -> LoadReport:
    """Take a catalogue table, whole or not at all. Loading it again changes nothing.

    Parts that are not in the table stay as they are. Raises TableErrors, with every fault by
    row and column.
    """
    parts = read_parts(table)
    with transaction.atomic():
        known = {part.code: part.as_fact() for part in Part.objects.all()}
        new = [part for part in parts if part.code not in known]
        changed = [part for part in parts if known.get(part.code, part) != part]
        if new or changed:
            _store([*new, *changed])
            _next_version()
    same = len(parts) - len(new) - len(changed)
    return LoadReport(_codes(new), _codes(changed), unchanged=same)


def _codes(parts: Iterable[StockPart]) -> tuple[str, ...]:
    return tuple(part.code for part in parts)


def _store(parts: Iterable[StockPart]) -> None:
    Part.objects.bulk_create(
        [Part.from_fact(part) for part in parts],
        batch_size=_BATCH,
        update_conflicts=True,
        unique_fields=["code"],
        update_fields=_CHANGEABLE,
    )


def _next_version() -> None:
    """Move the version on; with the change it belongs to, in the same transaction."""
    moved = CatalogVersion.objects.filter(pk=1).update(number=F("number") + 1, stamp=uuid4())
    if not moved:
        CatalogVersion.objects.create(pk=1, number=1, stamp=uuid4())


@transaction.atomic
def save_part(*, part: Part) -> Part:
    """Store one part as it is now."""
    part.full_clean()
    part.save()
    _next_version()
    return part


@transaction.atomic
def remove_part(*, part: Part) -> None:
    """Take one part out of the catalogue."""
    part.delete()
    _next_version()
