"""The words in force. Looked at every few seconds, so that no page pays a query for them."""

from __future__ import annotations

import time
from dataclasses import dataclass, field
from datetime import date

from django.conf import settings
from django.db.models import Max

from intake.domain.questions import QUESTIONS
from intake.models import QuestionWording

_FIRST_LOOK = 1.0  # seconds after a process has begun


@dataclass
class _InForce:
    """What this process shows now, by language and the program's own English words."""

    next_look: float = field(default_factory=lambda: time.monotonic() + _FIRST_LOOK)
    newest: int = 0
    words: dict[tuple[str, str], str] = field(default_factory=dict)


_now = _InForce()


def worded(english: str, language: str) -> str:
    """A question as it is asked now in a language; anything else comes back as it was given."""
    _look()
    return _now.words.get((language, english), english) if _now.words else english


def worded_question(slug: str, language: str) -> str:
    """How a question is asked now in a language; "" while it is asked as the program does."""
    own = QUESTIONS.get(slug)
    words = worded(own.ask, language) if own else ""
    return "" if own is None or words == own.ask else words


def version() -> int:
    """A number that grows with every change, for what is kept of the words elsewhere."""
    _look()
    return _now.newest


def _look() -> None:
    every: float = settings.WORDING_SECONDS
    if every and time.monotonic() >= _now.next_look:
        look_again()


def look_again() -> None:
    """Read what is in force, now: one query."""
    rows = list(newest_of_each())
    _now.next_look = time.monotonic() + settings.WORDING_SECONDS
    _now.newest = max((row.pk for row in rows), default=0)
    told = {("en", QUESTIONS[row.slug].ask): row.ask for row in rows if row.slug in QUESTIONS}
    told |= {("es", QUESTIONS[row.slug].ask): row.ask_es for row in rows if row.slug in QUESTIONS}
    _now.words = {key: words for key, words in told.items() if words}


def the_programs_own() -> None:
    """Show the program's own words until it is looked again."""
    _now.newest, _now.words = 0, {}


def newest_of_each() -> list[QuestionWording]:
    """The wording of each question that counts now."""
    newest = QuestionWording.objects.order_by().values("slug").annotate(last=Max("pk"))
    return list(QuestionWording.objects.filter(pk__in=newest.values("last")))


def wordings_of(slug: str) -> list[QuestionWording]:
    """Every wording of a question, newest first, with who adopted it."""
    return list(QuestionWording.objects.filter(slug=slug).select_related("adopted_by"))


def wordings_between(first: date, last: date) -> list[QuestionWording]:
    """Wordings adopted from one day to another, oldest first."""
    rows = QuestionWording.objects.filter(adopted_at__date__range=(first, last))
    return list(rows.order_by("adopted_at", "pk"))


def all_wordings() -> list[QuestionWording]:
    """Every wording there ever was, newest first."""
    return list(QuestionWording.objects.select_related("adopted_by"))
