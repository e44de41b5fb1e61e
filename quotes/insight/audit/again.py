"""The numbers of a sheet asked once more, without the first being seen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.http import QueryDict

from intake.calling.blind import Compared, has_first, unit_of
from intake.calling.selectors import blind_readings
from intake.calling.services import read_blind
from intake.calling.show import label_of
from intake.desk_fields import Field, answer_field, can_be_typed, is_measured
from intake.domain.sheet import SheetErrors
from intake.forms import body_from_post
from intake.models import SheetVersion, Submission


@dataclass(frozen=True, slots=True)
class AgainRow:
    """One number: its boxes, and both readings once the second is typed."""

    field: Field
    slug: str
    compared: Compared | None = None


def rows(sheet: SheetVersion, compared: Mapping[str, Compared] | None = None) -> list[AgainRow]:
    """Every measured number the sheet has, with empty boxes: nothing leads whoever asks."""
    told = compared or {}
    return [
        AgainRow(answer_field(slug, {}, {}), slug, told.get(slug))
        for slug in sheet.body.get("answers") or {}
        if is_measured(slug) and can_be_typed(slug) and has_first(sheet, slug)
    ]


def compare(
    submission: Submission, sheet: SheetVersion, data: QueryDict, by: User
) -> dict[str, Compared]:
    """Keep every number that was typed, and give each beside its first.

    Raises Overtaken where the sheet has changed since.
    """
    typed = body_from_post(data)["answers"]
    asked = [row.slug for row in rows(sheet) if typed.get(row.slug)]
    return {slug: _compare(submission, sheet, slug, typed[slug], by) for slug in asked}


def _compare(
    submission: Submission, sheet: SheetVersion, slug: str, now: object, by: User
) -> Compared:
    try:
        kept = read_blind(
            submission=submission,
            sheet_number=sheet.number,
            by=by,
            answer=slug,
            now=now,
            known=max(len(blind_readings(sheet, slug)) - 1, 0),
        )
    except SheetErrors as refused:
        said = [each for sentences in refused.errors.values() for each in sentences]
        return Compared(slug, label_of(slug), unit_of(sheet, slug), (), said)
    return Compared(slug, label_of(slug), unit_of(sheet, slug), kept)
