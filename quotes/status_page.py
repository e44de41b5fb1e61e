"""The customer's own page: what we have, what we still ask, the quote. No account needed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, cast

from django.utils import timezone
from django.utils.functional import Promise
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext_lazy as _

from intake.domain.drawing import drive_line, gap_picture
from intake.domain.lifecycle import Status
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.domain.svg import to_svg
from intake.likely import Doubts
from intake.models import SheetVersion, Submission
from intake.review_page import own_numbers
from intake.second_reading import SINGLE_ROUTE, asked_again
from quotes import price_show, services
from quotes.domain.facts import Measured
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.order import read_order
from quotes.domain.paper_facts import measured, notes
from quotes.domain.texts import LABELS
from quotes.domain.words import both, gap_words, rounding_words
from quotes.models import Quote
from quotes.second_reading import AgainForm

Words = str | Promise

# Word beside the verdict's shape, and what happens next.
_STATE: dict[Status, tuple[Words, Words]] = {
    Status.RECEIVED: (_("Received"), _("We are reading your numbers.")),
    Status.NEEDS_CALL: (
        _("A question"),
        _("Something is open, and we will ring you to settle it."),
    ),
    Status.READY: (_("Adds up"), _("Your numbers agree. The quote is being made.")),
    Status.QUOTED: (_("Quoted"), _("Your numbers agree, and your quote is here.")),
    Status.ACCEPTED: (_("Accepted"), _("Thank you. We make it to the quote you accepted.")),
    Status.DECLINED: (_("Declined"), _("You declined the quote. Nothing will be made.")),
    Status.LAPSED: (_("Run out"), _("The quote has run out. Ring us, and we make a new one.")),
    Status.WITHDRAWN: (_("Withdrawn"), _("This request is closed. Nothing will be made.")),
}
_BY_HAND: Words = _("Your numbers agree. A price is still to come; we finish the quote by hand.")
_ONCE_MORE: Words = _("Your numbers are here. One reading more may settle it at once.")
_CALL_OF = {Status.NEEDS_CALL: "ask", Status.RECEIVED: "ask", Status.WITHDRAWN: "stop"}


@dataclass(frozen=True, slots=True)
class Typed:
    """What somebody typed into an answer to the quote, to be shown again with its errors."""

    name: str = ""
    confirmed: Sequence[str] = ()
    reason: str = ""
    again: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class StatusPage:
    """Everything the page says of one submission."""

    submission: Submission
    sheet: SheetVersion
    quote: Quote | None
    typed: Typed = Typed()

    @property
    def outcome(self) -> Mapping[str, Any]:
        return cast("Mapping[str, Any]", self.sheet.outcome)

    @property
    def stack(self) -> Mapping[str, Any]:
        return self.outcome.get("stack") or {}

    @property
    def status(self) -> Status:
        return Status(self.submission.status)

    @property
    def call(self) -> str:
        """release, ask or stop: the shape and hue beside the word."""
        return _CALL_OF.get(self.status, str(self.sheet.verdict))

    @property
    def word(self) -> Words:
        return _STATE[self.status][0]

    @property
    def sentence(self) -> Words:
        """What happens next."""
        if self.again and not self.questions.first:
            return _ONCE_MORE
        if self.status == Status.READY and self.is_draft:
            return _BY_HAND
        return _STATE[self.status][1]

    @property
    def is_draft(self) -> bool:
        return self.quote is not None and self.quote.status == QuoteStatus.DRAFTED

    @property
    def waiting(self) -> bool:
        """The quote comes in a moment by itself."""
        return self.status == Status.READY and not self.is_draft

    @property
    def questions(self) -> Doubts:
        """What we still ask: each open question once, dearest first.

        The second reading is not among them: it has a form of its own.
        """
        if self.status not in (Status.NEEDS_CALL, Status.RECEIVED):
            return Doubts(())
        own = SINGLE_ROUTE if self.again else ""
        found: Sequence[Mapping[str, Any]] = self.outcome.get("findings") or ()
        held = [f for f in found if f["severity"] != "note"]
        asked = {f["question"]: f for f in reversed(held) if f["question"] and f["check"] != own}
        return Doubts([f for f in held if asked.get(f["question"]) is f])

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
        hidden = LABELS.get(self.again.slug) if self.again else None
        found = measured(self._sheet, self.stack) if self._sheet else ()
        return [row for row in found if row.label != hidden]

    @property
    def notes(self) -> tuple[str, ...]:
        """What the checks noted and the customer should know."""
        if not self.again:
            return notes(self.outcome)
        slug = self.again.slug  # what is to be read blind is not hinted at either
        kept = [f for f in self.outcome["findings"] if slug not in f["answers"]]
        return notes({**self.outcome, "findings": kept})

    @property
    def drawing(self) -> SafeString:
        """The drive line: in full once the numbers hold, until then the customer's own alone."""
        if self.again:
            return _safe(to_svg(drive_line({}, lit=self.again.slug), ident="line"))
        if self.sheet.verdict != "release" and self._sheet:
            return own_numbers(self._sheet)
        return _safe(to_svg(drive_line(self.stack), ident="line")) if self.stack else SafeString("")

    @cached_property
    def _sheet(self) -> Sheet | None:
        """The answers as values; None where they were written under older rules."""
        try:
            return read_sheet(self.sheet.body)
        except SheetErrors:
            return None

    @property
    def gap_drawing(self) -> SafeString:
        """Only when the numbers hold: a picture of doubtful ones would look like a promise."""
        if self.sheet.verdict != "release" or not self.stack.get("predicted_gap"):
            return SafeString("")
        return _safe(to_svg(gap_picture(self.stack), ident="gap"))

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

    @property
    def shown_quote(self) -> Quote | None:
        """The latest quote, unless a newer sheet has put it aside."""
        aside = self.quote is None or self.quote.status == QuoteStatus.REPLACED
        return None if aside else self.quote

    @property
    def price(self) -> price_show.ShownPrice | None:
        return price_show.of_quote(self.shown_quote) if self.shown_quote else None

    @property
    def can_answer(self) -> bool:
        """The quote waits for a yes or no, and its time has not run out."""
        quote = self.quote
        return (
            quote is not None
            and quote.status == QuoteStatus.ISSUED
            and self.status == Status.QUOTED
            and quote.valid_until is not None
            and quote.valid_until >= timezone.localdate()
        )

    @property
    def run_out(self) -> bool:
        """Issued, not answered, and past its day."""
        issued = self.quote is not None and self.quote.status == QuoteStatus.ISSUED
        return issued and self.status == Status.QUOTED and not self.can_answer

    @property
    def statements(self) -> list[tuple[str, str, bool]]:
        """What to tick: short name, words, ticked already."""
        if self.quote is None:
            return []
        wanted = services.statements(self.sheet)
        return [(short, words, short in self.typed.confirmed) for short, words in wanted.items()]

    @property
    def open_statement(self) -> tuple[str, str] | None:
        """The first line that is not ticked yet, and the sentence about it."""
        errors = self.typed.errors
        return next(
            ((short, errors[short]) for short, _w, _t in self.statements if short in errors), None
        )


def _safe(svg: str) -> SafeString:
    """Our own drawing; every text in it was escaped where it was made."""
    return mark_safe(svg)  # noqa: S308
