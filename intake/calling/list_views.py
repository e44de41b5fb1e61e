"""Lists of calls: whom to call, by need, and what calls were made."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from intake.access import staff_required
from intake.calling import selectors
from intake.calling.filters import CHANNELS, SHOWN, VERDICTS, read_filters, read_made_filters
from intake.calling.find import user_of
from intake.calling.show import label_of
from intake.desk_words import Words
from intake.domain.causes import CAUSES
from intake.models import CallRecord, FindingRecord, Submission

QUEUE_PAGE = 25
MADE_PAGE = 50


@dataclass(frozen=True, slots=True)
class QueueRow:
    """One person who waits, who has the call, and what is asked first."""

    submission: Submission
    me: int | None

    @property
    def asked(self) -> list[FindingRecord]:
        """What holds the sheet, dearest first."""
        return self.submission.current.to_ask

    @property
    def first(self) -> FindingRecord | None:
        """The question to begin with."""
        return next(iter(self.asked), None)

    @property
    def about(self) -> Words:
        """The short name of what it is about."""
        return label_of(self.first.answer) if self.first else ""

    @property
    def more(self) -> int:
        """How many questions come after it."""
        return max(0, len(self.asked) - 1)

    @property
    def claim(self) -> object:
        """Who has it right now, if anybody."""
        held = getattr(self.submission, "claim", None)
        return held if held and held.until > timezone.now() else None

    @property
    def is_mine(self) -> bool:
        """Whether whoever looks has it."""
        return getattr(self.claim, "by_id", None) == self.me

    @property
    def is_later(self) -> bool:
        """Whether it was put off to a moment that is still to come."""
        put_off = self.submission.not_before
        return put_off is not None and put_off > timezone.now()

    @property
    def is_late(self) -> bool:
        """Whether the call should have been made by now."""
        call_by = self.submission.call_by
        return not self.is_later and call_by is not None and call_by < timezone.now()


@staff_required
@require_GET
def call_queue(request: HttpRequest) -> HttpResponse:
    """Whom to call, the most pressing first."""
    filters, user = read_filters(request.GET), user_of(request)
    found = selectors.waiting(filters=filters, by=user, most=QUEUE_PAGE)
    page = found[:QUEUE_PAGE]
    context = {
        "filters": filters,
        "rows": [QueueRow(each, user.pk) for each in page],
        "next": filters.query(selectors.place_of(page[-1])) if len(found) > QUEUE_PAGE else "",
        "shown": SHOWN,
        "verdicts": VERDICTS,
        "channels": CHANNELS,
    }
    return render(request, "intake/calling/queue.html", context)


@dataclass(frozen=True, slots=True)
class MadeRow:
    """One call that was made."""

    call: CallRecord

    @property
    def about(self) -> Words:
        """The short name of what it was about."""
        return label_of(self.call.answer)

    @property
    def cause(self) -> str:
        """Why the number had been wrong, where that was told."""
        return CAUSES.get(self.call.cause, self.call.cause)


@staff_required
@require_GET
def calls_made(request: HttpRequest) -> HttpResponse:
    """What calls were made, newest first, by day and by person."""
    filters = read_made_filters(request.GET)
    found = selectors.calls_made(filters=filters, most=MADE_PAGE)
    page = found[:MADE_PAGE]
    context = {
        "filters": filters,
        "rows": [MadeRow(call) for call in page],
        "next": filters.query(selectors.place_of(page[-1])) if len(found) > MADE_PAGE else "",
        "people": selectors.people(),
    }
    return render(request, "intake/calling/made.html", context)
