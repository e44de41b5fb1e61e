"""Which question fails, and which finds true errors when it is asked?"""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.shares import Share
from quotes.domain.insight.measures import NOTHING, Counts, Measure, by_key


@dataclass(frozen=True, slots=True)
class QuestionRow:
    """One question. ``found``: true errors of the times it was asked on a call. ``failed``:
    mistakes made in it of the times it was answered. ``cents``: what those mistakes cost.
    """

    question: str
    found: Share
    failed: Share
    cents: int


def questions(counts: Counts) -> tuple[QuestionRow, ...]:
    """Every question that was asked or failed: the dearest first, then the likeliest to fail."""
    asked, right = by_key(counts, Measure.ASKED), by_key(counts, Measure.ASKED_RIGHT)
    answers, born = by_key(counts, Measure.ANSWERS), by_key(counts, Measure.BORN)
    rows = []
    for name in {*asked, *born} - {""}:
        mistakes = born.get(name, NOTHING)
        answered = max(answers.get(name, NOTHING).n, mistakes.n)
        found = Share(right.get(name, NOTHING).n, asked.get(name, NOTHING).n)
        rows.append(QuestionRow(name, found, Share(mistakes.n, answered), mistakes.amount))
    return tuple(sorted(rows, key=lambda row: (-row.cents, -row.failed.hits, row.question)))
