"""What are we asked for and do not have?"""

from __future__ import annotations

from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.lacking import lacking
from quotes.domain.insight.measures import Measure
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

_DRAWN = 12


def view(given: Given) -> View:
    """A ranked list."""
    found = lacking(given.counts)
    asked = sum(n for _, n in found)
    figures = (Figure("parts asked for without a match in the catalogue", str(asked)),)
    rows = [Bar(words, (n,), str(n)) for words, n in found[:_DRAWN]]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    words = Words("lacking", "Asked for and not in the catalogue", about)
    chart = Chart("Most asked for", bars(rows, words, empty="Everything asked for was there."))
    table = Table(
        "Everything without a match",
        ("Part", "Asked for"),
        tuple(Row((said, str(n)), (Measure.LACKING.value, said)) for said, n in found),
    )
    return View(figures, (chart,), (table,))


QUESTION = Question(
    "lacking",
    "What are we asked for and do not have?",
    "Parts that were wanted and measured, and matched by nothing in the catalogue, by their sizes "
    "as they were measured.",
    (Measure.LACKING,),
    view,
)
