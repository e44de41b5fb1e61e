"""Reading what was typed of how it fitted: the tape's language, with doubts raised kindly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import cast

from django.utils.translation import gettext as _

from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError, Unit, read_length
from intake.domain.questions import QUESTIONS
from intake.limit_sets.selectors import current_limits
from intake.said import said
from quotes.models import Quote
from quotes.outcomes.models import FITTED, NOT_YET

LONGEST_WORDS = 1000
LATEST_AGAIN = timedelta(days=365)


class NotTold(Exception):
    """Something is missing or cannot be read. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(errors.values()))
        self.errors = errors


@dataclass(frozen=True, slots=True)
class Told:
    """An answer that can be stored. ``fitted`` "not_yet": ask again on ``ask_on``."""

    fitted: str
    gap: Length | None
    gap_typed: str
    different: str
    ask_on: date | None
    told_by: str


def read_told(
    typed: Mapping[str, str], quote: Quote, today: date, *, by_phone: bool = False
) -> Told:
    """What was told. Boxes: fitted, gap, sure, different, ask_on, told_by. Raises NotTold.

    ``sure``: the number of the gap once more, from who was asked whether it is right.
    """
    errors: dict[str, str] = {}
    fitted = typed.get("fitted", "")
    if fitted not in dict(FITTED) and fitted != NOT_YET[0]:
        errors["fitted"] = _("Please choose whether it fitted.")
    if by_phone and not typed.get("told_by", "").strip():
        errors["told_by"] = _("Write the name of the person who told you.")
    ask_on = _again(typed, today, errors) if fitted == NOT_YET[0] else None
    gap = _gap(typed, quote, errors) if fitted != NOT_YET[0] else None
    different = typed.get("different", "").strip()
    if fitted in ("no", "changed") and not different:
        errors["different"] = _("Please write in a few words what was different.")
    if errors:
        raise NotTold(errors)
    return Told(
        fitted=fitted,
        gap=gap,
        gap_typed=typed.get("gap", "").strip()[:40] if gap else "",
        different=different[:LONGEST_WORDS],
        ask_on=ask_on,
        told_by=" ".join(typed.get("told_by", "").split())[:200],
    )


def _again(typed: Mapping[str, str], today: date, errors: dict[str, str]) -> date | None:
    try:
        day = date.fromisoformat(typed.get("ask_on", "").strip())
    except ValueError:
        errors["ask_on"] = _("Please give a day on which we may ask again.")
        return None
    if not today < day <= today + LATEST_AGAIN:
        errors["ask_on"] = _("Please give a day after today, within a year.")
    return day


def _gap(typed: Mapping[str, str], quote: Quote, errors: dict[str, str]) -> Length | None:
    text = typed.get("gap", "").strip()
    if not text:
        return None
    unit = quote.sheet.body.get("tape_unit")
    tape = cast("Unit | None", unit if unit in ("in", "mm") else None)
    try:
        read = read_length(text, tape, QUESTIONS["gap_now"].widest)
    except LengthError as error:
        errors["gap"] = error.message
        return None
    doubts = [str(said(doubt)) for doubt in read.doubts] + _wide(read.length)
    if doubts and typed.get("sure", "").strip() != text:
        errors["sure"] = " ".join(doubts)
    return read.length


def _wide(gap: Length) -> list[str]:
    """A gap that is measured to another place is mostly a wide one."""
    if gap <= current_limits().gap_now_ask:
        return []
    words = _("%(gap)s is a wide gap. Is it from the metal of the strut to the propeller's hub?")
    return [words % {"gap": gap.both()}]
