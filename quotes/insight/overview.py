"""All questions on one page, from one query of counts."""

from __future__ import annotations

from dataclasses import dataclass

from quotes.domain.insight.measures import Measure
from quotes.insight.asked import Asked
from quotes.insight.pages.all_of_them import QUESTIONS
from quotes.insight.pages.base import Figure, Given, Question


@dataclass(frozen=True, slots=True)
class OverviewRow:
    """One question and what its page says first."""

    question: Question
    figures: tuple[Figure, ...]


def overview_rows(asked: Asked) -> list[OverviewRow]:
    """Each question with its figures; all of them share one reading of the counts."""
    given = Given(asked, tuple(Measure))
    return [OverviewRow(one, one.view(given).figures) for one in QUESTIONS]
