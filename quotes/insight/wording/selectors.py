"""Answers and mistakes of one question on both sides of a change of its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db.models import TextField
from django.db.models.functions import Cast
from django.utils import timezone

from intake.domain.shares import Share, newcombe
from intake.models import QuestionWording
from quotes.models import MismatchFact, RequestFact

LONGEST_WINDOW = timedelta(days=270)


@dataclass(frozen=True, slots=True)
class Trial:
    """One wording: mistakes of the answers that came in as long before it as since."""

    row: QuestionWording
    days: int
    before: Share
    after: Share

    @property
    def difference(self) -> tuple[float, float]:
        """What the difference may really be: below nothing is fewer mistakes."""
        return newcombe(self.after, self.before)

    @property
    def is_apart(self) -> bool:
        """Whether chance alone is an unlikely reason for the difference."""
        low, high = self.difference
        return high < 0 or low > 0


def trials(wordings: Sequence[QuestionWording]) -> list[Trial]:
    """Each of these, in two queries a side; windows end where the next wording began."""
    return [_trial(row, _until(row, wordings)) for row in wordings]


def _until(row: QuestionWording, wordings: Sequence[QuestionWording]) -> datetime:
    later = [one.adopted_at for one in wordings if one.slug == row.slug and one.pk > row.pk]
    return min([*later, timezone.now(), row.adopted_at + LONGEST_WINDOW])


def _trial(row: QuestionWording, until: datetime) -> Trial:
    window = until - row.adopted_at
    before = _failed(row.slug, row.adopted_at - window, row.adopted_at)
    return Trial(row, window.days, before, _failed(row.slug, row.adopted_at, until))


def _failed(slug: str, first: datetime, last: datetime) -> Share:
    """Requests that came in those days: with a mistake in this answer, of those that had it."""
    came = RequestFact.objects.filter(received_at__gte=first, received_at__lt=last).order_by()
    said = came.annotate(said=Cast("answered", TextField())).filter(said__contains=f'"{slug}"')
    wrong = MismatchFact.objects.filter(
        answer=slug, fact__received_at__gte=first, fact__received_at__lt=last
    )
    hits = wrong.order_by().values("fact").distinct().count()
    return Share(hits, max(said.count(), hits))
