"""Changing one part: the same readers, trail and prices as for a table, for one row."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import ProtectedError

from catalog import services
from catalog.domain.stock import StockPart
from catalog.editing.touched import what_rests_on
from catalog.models import Part
from catalog.selectors import facts_today
from catalog.services import next_version
from catalog.tables import COLUMNS, TableErrors, plain_cell, read_parts

LONGEST_WHY = 400


class PartErrors(ValueError):
    """What cannot be stored: one sentence for each box."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(", ".join(errors))
        self.errors = dict(errors)


class PartOvertaken(Exception):
    """Somebody else changed this part first."""

    def __init__(self) -> None:
        super().__init__(
            "Somebody else changed this part a moment ago. Nothing of yours is stored; their "
            "values stand beside yours, please choose."
        )


def cells_of(part: StockPart | None) -> dict[str, str]:
    """A part as the boxes show it; empty boxes for none."""
    if part is None:
        return dict.fromkeys(COLUMNS, "")
    return {name: plain_cell(getattr(part, name)).removeprefix("'") for name in COLUMNS}


def mark_of(part: StockPart | None) -> str:
    """A short mark of a part as it was shown, to be compared when it is stored."""
    return hashlib.sha256(repr(sorted(cells_of(part).items())).encode()).hexdigest()[:16]


def known(code: str) -> StockPart | None:
    """The part of this code as it is today."""
    return next((part for part in facts_today() if part.code == code), None)


@transaction.atomic
def store_part(*, cells: Mapping[str, str], why: str, by: User, seen: str, is_new: bool) -> bool:
    """Store one part as typed; False where nothing is changed by it.

    ``seen``: the mark of what the page showed. Raises PartErrors by box, PartOvertaken.
    """
    errors: dict[str, str] = {}
    why = why.replace("\x00", "").strip()
    if not why:
        errors["why"] = "Please write why, in a few words for whoever reads it next year."
    elif len(why) > LONGEST_WHY:
        errors["why"] = f"Please keep the reason under {LONGEST_WHY} characters."
    row = {name: cells.get(name, "").replace("\x00", "").strip() for name in COLUMNS}
    try:
        read_parts([row])
    except TableErrors as refused:
        errors |= {one.column: one.message for one in reversed(refused.errors)}
    next_version()  # the catalogue's turn: of two at once the second sees what the first stored
    now = known(row["code"])
    if is_new and now is not None:
        errors["code"] = "There is a part of this code already; open that one to change it."
    if errors:
        raise PartErrors(errors)
    if not is_new and mark_of(now) != seen:
        raise PartOvertaken
    report = services.load_catalog([row], by=by, why=why)
    return bool(report.added or report.changed)


def take_out(*, code: str, why: str, by: User) -> None:
    """Take a part out of the catalogue. Raises PartErrors ("why", "code") where it may not go."""
    if not why.strip():
        raise PartErrors({"why": "Please write why it goes."})
    binding = [one.words for one in what_rests_on(code) if one.binds]
    if binding:
        raise PartErrors({"code": f"It cannot go yet: {'; '.join(binding[:5])}."})
    part = Part.objects.filter(code=code).first()
    if part is None:
        return  # somebody was quicker
    try:
        with transaction.atomic():
            services.remove_part(part=part, by=by, why=why.strip()[:LONGEST_WHY])
    except ProtectedError as error:
        words = "There are pieces of it in the rack or in the books; it cannot go while they stand."
        raise PartErrors({"code": words}) from error
