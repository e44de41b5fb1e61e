"""Every question, in the order a manager asks them."""

from __future__ import annotations

from quotes.insight.pages import (
    again,
    bars,
    calling,
    changes,
    cost,
    fit,
    flags,
    funnel,
    honesty,
    lacking,
    overrides,
    questions,
    waiting,
)
from quotes.insight.pages.base import Question

QUESTIONS: tuple[Question, ...] = tuple(
    module.QUESTION
    for module in (
        *(fit, cost, again, flags, funnel, questions, changes),
        *(calling, overrides, honesty, waiting, lacking, bars),
    )
)
BY_SLUG = {question.slug: question for question in QUESTIONS}
