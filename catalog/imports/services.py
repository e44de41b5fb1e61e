"""A table is kept as it came, taken whole or not at all, and may be taken back."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import ProtectedError
from django.utils import timezone

from catalog import services as catalog
from catalog.domain.stock import StockPart
from catalog.editing.services import cells_of
from catalog.editing.touched import what_rests_on
from catalog.imports import selectors
from catalog.imports.models import SENT, TAKEN, UNDONE, PartImport
from catalog.imports.plan import Plan, plan, proposed
from catalog.models import Part
from catalog.selectors import facts_today
from catalog.spreadsheet.reading import read_table
from catalog.tables import read_parts

MOST_ROWS = 20_000  # more would keep somebody at the counter waiting
LONGEST_WHY = 400


class ImportRefused(ValueError):
    """It cannot be done as things stand; the words say why and what to do."""


def send(*, name: str, content: bytes, by: User) -> PartImport:
    """Keep a table as it came, its columns matched where that can be told.

    Raises NotATable, ImportRefused (too many rows).
    """
    table = read_table(content)
    if len(table.rows) > MOST_ROWS:
        raise ImportRefused(
            f"The table has {len(table.rows)} rows; send at most {MOST_ROWS} at a time."
        )
    return PartImport.objects.create(
        name=name[:200] or "table",
        sha256=hashlib.sha256(content).hexdigest(),
        content=content,
        columns=proposed(table.columns),
        by=by,
    )


def match(*, table: PartImport, columns: Mapping[str, str], whole: bool) -> None:
    """Say which of its columns is which of ours, and whether it is the whole list."""
    clean = {ours: theirs for ours, theirs in columns.items() if theirs}
    PartImport.objects.filter(pk=table.pk, state=SENT).update(columns=clean, whole=whole)
    table.columns, table.whole = clean, whole


def preview(table: PartImport) -> Plan:
    """What taking it would do now."""
    read = read_table(bytes(table.content))
    return plan(read, table.columns, facts_today(), whole=table.whole)


@transaction.atomic
def take(*, table: PartImport, seen: str, why: str, by: User) -> Plan:
    """Take it, all or nothing. ``seen``: the catalogue's version the preview was made with.

    Raises ImportRefused: it was taken before, the catalogue has changed since, it has faults, it
    changes nothing, or something rests on what it would take out.
    """
    why = why.replace("\x00", "").strip()[:LONGEST_WHY]
    if not why:
        raise ImportRefused("Please write why, in a few words for whoever reads it next year.")
    if not PartImport.objects.filter(pk=table.pk, state=SENT).update(
        state=TAKEN, taken_at=timezone.now(), why=why
    ):
        raise ImportRefused("This table was taken already.")
    if selectors.version_now() != seen:
        raise ImportRefused(
            "The catalogue has changed since this was looked at. Look at the preview again."
        )
    made = preview(table)
    if made.faults:
        raise ImportRefused("There is something to mend in the table first.")
    if made.is_nothing:
        raise ImportRefused("Nothing would be changed by it.")
    _require_free(made.removed)
    before = {code: cells_of(known_part) for code, known_part in _known(made)}
    catalog.load_catalog(made.rows, by=by, why=why)
    _take_out(made.removed, by=by, why=why)
    PartImport.objects.filter(pk=table.pk).update(did=_did(made, before))
    return made


def _known(made: Plan) -> Iterable[tuple[str, StockPart]]:
    wanted = {one.code for one in made.changed} | set(made.removed)
    return [(part.code, part) for part in facts_today() if part.code in wanted]


def _did(made: Plan, before: Mapping[str, Mapping[str, str]]) -> dict[str, object]:
    after = {row["code"]: row for row in made.rows}
    return {
        "added": {code: after[code] for code in made.added},
        "changed": {one.code: [before[one.code], after[one.code]] for one in made.changed},
        "removed": [before[code] for code in made.removed],
    }


def _require_free(codes: Iterable[str]) -> None:
    for code in codes:
        bound = [one.words for one in what_rests_on(code) if one.binds]
        if bound:
            raise ImportRefused(f"{code} cannot go yet: {bound[0]}.")


def _take_out(codes: Iterable[str], *, by: User, why: str) -> None:
    for part in Part.objects.filter(code__in=list(codes)):
        try:
            with transaction.atomic():
                catalog.remove_part(part=part, by=by, why=why)
        except ProtectedError as error:
            raise ImportRefused(
                f"{part.code} cannot go: there are pieces of it in the rack or in the books."
            ) from error


@transaction.atomic
def undo(*, table: PartImport, by: User) -> None:
    """Take the last import back: every part is as it was. Raises ImportRefused where a part of it
    was changed since, where something rests on what it added, or another was taken after it."""
    catalog.next_version()
    last = selectors.last_taken()
    if last is None or last.pk != table.pk:
        raise ImportRefused("Only the last import can be taken back, and it once.")
    did = PartImport.objects.get(pk=table.pk).did
    _require_untouched(did)
    _require_free(did["added"])
    why = f"the import “{table.name}” was taken back"[:LONGEST_WHY]
    rows = [before for before, _after in did["changed"].values()] + did["removed"]
    if rows:
        catalog.load_catalog(rows, by=by, why=why)
    _take_out(did["added"], by=by, why=why)
    PartImport.objects.filter(pk=table.pk).update(
        state=UNDONE, undone_by=by, undone_at=timezone.now()
    )


def _require_untouched(did: Mapping[str, Any]) -> None:
    left = did["added"] | {code: after for code, (_before, after) in did["changed"].items()}
    parts = {part.code: part for part in facts_today()}
    for code, cells in left.items():
        part = parts.get(code)
        if part is None or read_parts([cells])[0] != part:
            raise ImportRefused(f"{code} was changed since; change it by hand, or leave it so.")
