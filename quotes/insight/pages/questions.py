"""Which question fails?"""

from __future__ import annotations

from quotes.domain.charts.frame import Words
from quotes.domain.charts.scatter import Dot, scatter
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.questions import QuestionRow, questions
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View

_DRAWN = 12


def view(given: Given) -> View:
    """Yield against failure of each question, and their table."""
    rows = questions(given.counts)
    figures = tuple(
        base.figure(f"failed most dearly: {base.question_label(row.question)}", row.failed)
        for row in rows[:1]
    )
    chart = Chart("What a question finds, and how often it fails", _chart(rows))
    return View(figures, (chart,), (_table(rows),))


def _chart(rows: tuple[QuestionRow, ...]) -> str:
    drawn = [row for row in rows if row.failed.of or row.found.of][:_DRAWN]
    dots = [
        Dot(str(at), row.found.rate or 0.0, row.failed.rate or 0.0, max(row.cents, 0))
        for at, row in enumerate(drawn, start=1)
    ]
    about = "; ".join(
        f"{at} {base.question_label(row.question)}" for at, row in enumerate(drawn, start=1)
    )
    words = Words("questions", "Questions by yield and failure; the larger, the dearer", about)
    return scatter(dots, words, "true errors found when asked", "mistakes made in it")


def _table(rows: tuple[QuestionRow, ...]) -> Table:
    made = tuple(
        Row(
            (
                f"{at} {base.question_label(row.question)}",
                str(row.found.of),
                base.rate(row.found),
                str(row.failed.of),
                str(row.failed.hits),
                base.percent(row.failed.rate) if not row.failed.is_small else base.rate(row.failed),
                base.span(row.failed),
                base.money(row.cents),
            ),
            (Measure.BORN.value, row.question),
        )
        for at, row in enumerate(rows, start=1)
    )
    columns = (
        "Question", "Asked on calls", "True errors found", "Answered", "Mistakes made in it",
        "Fails", "May be", "Cost",
    )  # fmt: skip
    return Table("Question by question", columns, made, note="Numbers are those in the picture.")


QUESTION = Question(
    "questions",
    "Which question fails?",
    "A question's yield is the true errors found each time it is asked on a call; its failure, the "
    "mistakes made in its answer each time it is answered.",
    (Measure.ASKED, Measure.ASKED_RIGHT, Measure.ANSWERS, Measure.BORN),
    view,
)
