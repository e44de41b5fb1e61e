"""The second reading on the customer's own page: its boxes, and what it came to, in words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from intake.domain.methods import METHOD_WORDS
from intake.domain.questions import QUESTIONS
from intake.models import SheetVersion
from intake.second_reading import SINGLE_ROUTE

AGAIN = ("start_mark", "text", "method")
_ASK = {
    "face_to_strut_aft": gettext_lazy(
        "Please take the long length once more, from the flange's face to the strut's metal end."
    ),
    "old_length_face_to_thread": gettext_lazy(
        "Please take the old shaft's length once more, from the coupling's face to the end of "
        "the thread."
    ),
}


@dataclass(frozen=True, slots=True)
class AgainForm:
    """What to read once more, and what stands in its boxes. The first number is not in it."""

    slug: str
    sheet: SheetVersion
    typed: Mapping[str, str]
    errors: Mapping[str, str]

    @property
    def ask(self) -> str | Promise:
        """What to do."""
        return _ASK.get(self.slug) or QUESTIONS[self.slug].ask

    @property
    def number(self) -> int:
        """The version of the sheet this is about."""
        return self.sheet.number

    @property
    def unit(self) -> str:
        """The tape's unit, for numbers written without one; "" where it is not known."""
        return self.sheet.body.get("tape_unit") or ""

    @property
    def text(self) -> str:
        """The number, as typed."""
        return self.typed.get("text", "")

    @property
    def start_mark(self) -> str:
        """The mark held, as typed."""
        return self.typed.get("start_mark", "")

    @property
    def text_error(self) -> str:
        """What is wrong with the number."""
        return self.errors.get("again.text", "")

    @property
    def mark_error(self) -> str:
        """What is wrong with the mark."""
        return self.errors.get("again.start_mark", "")

    @property
    def error(self) -> str:
        """What is wrong with the whole."""
        return self.errors.get("again.", "")

    @property
    def methods(self) -> list[tuple[str, str | Promise, bool]]:
        """The ways to measure it: code, words, chosen."""
        told = self.sheet.body["answers"].get(self.slug)
        before = told.get("method", "") if isinstance(told, dict) else ""
        chosen = self.typed.get("method") or before or QUESTIONS[self.slug].default_method
        ways = dict.fromkeys([*QUESTIONS[self.slug].methods, chosen])
        return [(way, METHOD_WORDS[way], way == chosen) for way in ways]


def what_happened(sheet: SheetVersion) -> str:
    """What the second reading came to, for the customer."""
    if sheet.verdict == "release":
        return _("Thank you. The two readings agree, and nothing is open any more.")
    checks = [f["check"] for f in sheet.outcome["findings"] if f["severity"] != "note"]
    if SINGLE_ROUTE in checks:
        return _(
            "Thank you. The two readings are further apart than measuring explains. We keep both "
            "and ring you, so that you need not guess which one is right."
        )
    return _("Thank you. The two readings agree. What is still open stands below.")


def what_now(sheet: SheetVersion) -> str:
    """What the answers given on the page came to, for the customer."""
    if sheet.verdict == "release":
        return _("Thank you. Your numbers agree now, and nothing is open any more.")
    return _("Thank you. Your answers are stored. What is still open stands below.")
