"""The customer's own page: what we have, what we still ask, the quote. No account needed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, cast

from django.utils.safestring import SafeString, mark_safe

from intake.domain.drawing import drive_line, gap_picture
from intake.domain.lifecycle import Status
from intake.domain.reading import read_sheet
from intake.domain.shapes import Drawing
from intake.domain.sheet import Sheet, SheetErrors
from intake.domain.svg import to_svg
from intake.likely import Doubts
from intake.models import SheetVersion
from intake.photos.selectors import Photos, photos_of
from intake.review_page import own_numbers
from intake.said import drawing_words, with_local_numbers
from intake.second_reading import asked_again
from intake.selectors import measured_afresh
from quotes.domain.facts import Measured
from quotes.domain.order import read_order
from quotes.domain.paper_facts import measured, notes
from quotes.domain.texts import LABELS
from quotes.domain.words import both, gap_words, rounding_words
from quotes.second_reading import AgainForm
from quotes.status_asks import Asks
from quotes.status_quote import QuoteSide
from quotes.status_quote import Typed as Typed
from quotes.status_words import ANSWER_HERE, BY_HAND, CALL_OF, ONCE_MORE, STATE, Words


@dataclass(frozen=True)
class StatusPage(QuoteSide):
    """Everything the page says of one submission; the quote's side of it is a file of its own."""

    @property
    def outcome(self) -> Mapping[str, Any]:
        return cast("Mapping[str, Any]", self.sheet.outcome)

    @property
    def stack(self) -> Mapping[str, Any]:
        return self.outcome.get("stack") or {}

    @property
    def call(self) -> str:
        """release, ask or stop: the shape and hue beside the word."""
        return CALL_OF.get(self.status, str(self.sheet.verdict))

    @property
    def word(self) -> Words:
        return STATE[self.status][0]

    @property
    def sentence(self) -> Words:
        """What happens next."""
        if self.again and not self.questions.first and not self.asks.here:
            return ONCE_MORE
        if self.asks.here and not self.questions.first:
            return ANSWER_HERE
        if self.status == Status.READY and self.is_draft:
            return BY_HAND
        return self.how_far or STATE[self.status][1]

    @property
    def waiting(self) -> bool:
        """The quote comes in a moment by itself."""
        return self.status == Status.READY and not self.is_draft

    @cached_property
    def asks(self) -> Asks:
        """What is still open: what can be answered here, and what a person has to ask."""
        if self.status not in (Status.NEEDS_CALL, Status.RECEIVED):
            return Asks(SheetVersion(outcome={}, body={}))
        again = measured_afresh(self.submission)
        return Asks(self.sheet, again, self.typed.answers, self.typed.answer_errors)

    @property
    def questions(self) -> Doubts:
        """What we ring about: each open question once, dearest first."""
        return Doubts(self.asks.by_call)

    @property
    def can_ring(self) -> bool:
        """Whether a phone number was left."""
        return bool(self.submission.contact_phone)

    @cached_property
    def again(self) -> AgainForm | None:
        """The second reading that the customer can take now, without a call."""
        slug = asked_again(self.sheet) if self.status == Status.NEEDS_CALL else ""
        return AgainForm(slug, self.sheet, self.typed.again, self.typed.errors) if slug else None

    @property
    def rows(self) -> list[Measured]:
        """The customer's own numbers in both systems, and what was taken for granted.

        A length that is to be read once more is left out: the second reading is taken blind.
        """
        stack = self.stack if self.sheet.verdict == "release" else {}
        found = measured(self._own, stack) if self._own else ()
        hidden = {LABELS.get(slug) for slug in self._hidden}
        return [row for row in found if row.label not in hidden]

    @property
    def _hidden(self) -> frozenset[str]:
        """What is to be read blind is shown nowhere."""
        return self.asks.hidden | ({self.again.slug} if self.again else frozenset())

    @cached_property
    def _own(self) -> Sheet | None:
        """The sheet as it may be shown: without the readings that are to be taken once more."""
        if self._sheet is None or not self._hidden:
            return self._sheet
        left = {k: one for k, one in self._sheet.readings.items() if k not in self._hidden}
        return replace(self._sheet, readings=left)

    @property
    def photos(self) -> Photos:
        """The customer's photos, but for those of what is to be read blind."""
        return photos_of(self.submission, hidden=self._hidden)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the checks noted and the customer should know."""
        kept = [
            finding
            for finding in self.outcome.get("findings") or ()
            if not self._hidden.intersection(finding["answers"])  # not hinted at either
        ]
        return notes({**self.outcome, "findings": kept})

    @cached_property
    def drawing(self) -> SafeString:
        """The drive line: in full once the numbers hold, until then the customer's own alone."""
        if self.again:
            return _drawn(drive_line({}, lit=self.again.slug, words=drawing_words()), "line")
        if self.sheet.verdict != "release" and self._own:
            return own_numbers(self._own)
        if not self.stack:
            return SafeString("")
        return _drawn(drive_line(self.stack, words=drawing_words()), "line")

    @cached_property
    def _sheet(self) -> Sheet | None:
        """The answers as values; None where they were written under older rules."""
        try:
            return read_sheet(self.sheet.body)
        except SheetErrors:
            return None

    @cached_property
    def gap_drawing(self) -> SafeString:
        """Only when the numbers hold: a picture of doubtful ones would look like a promise."""
        if self.sheet.verdict != "release" or not self.stack.get("predicted_gap"):
            return SafeString("")
        return _drawn(gap_picture(self.stack, drawing_words()), "gap")

    @property
    def length(self) -> str:
        """The cut length in both systems, once the numbers hold."""
        if self.sheet.verdict != "release":
            return ""
        order = read_order(self.sheet.body, self.outcome)
        return both(order.shaft.length, order.shaft.system) if order.shaft else ""

    @property
    def gap(self) -> list[str]:
        """The fit statement, once the numbers hold."""
        if self.sheet.verdict != "release":
            return []
        return [words for words in (*gap_words(self.stack), rounding_words(self.stack)) if words]


def _drawn(drawing: Drawing, ident: str) -> SafeString:
    """Our own drawing; every text in it is escaped where the SVG is made."""
    return mark_safe(to_svg(with_local_numbers(drawing), ident=ident))  # noqa: S308
