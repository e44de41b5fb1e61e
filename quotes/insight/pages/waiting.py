"""How long do people wait?"""

from __future__ import annotations

from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.waiting import Waiting, WaitRow, waiting
from quotes.insight import selectors
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

WHO = {
    "machine": "for the program",
    "desk": "for the desk",
    "customer": "for the customer to be reached",
    "all": "in all",
}


def view(given: Given) -> View:
    """Mean parts, medians and ninetieth percentiles."""
    found = waiting(selectors.waits(given.asked))
    figures = (
        Figure("half wait no longer, from request to quote", base.how_long(found.whole.median)),
        Figure("nine of ten wait no longer", base.how_long(found.whole.ninetieth)),
        Figure("requests that were quoted", str(found.n)),
    )
    chart = Chart("Whom they wait for", _chart(found))
    return View(figures, (chart,), (_table(found),))


def _chart(found: Waiting) -> str:
    rows = [_bar(row) for row in (*found.rows, found.whole) if row.mean is not None]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    words = Words("waiting", "Median, and a tick at the ninetieth percentile", about)
    return bars(rows, words, empty="Nothing was quoted in these months.")


def _bar(row: WaitRow) -> Bar:
    said = f"{base.how_long(row.median)}, nine of ten {base.how_long(row.ninetieth)}"
    return Bar(
        f"{WHO[row.who]}: {said}", ((row.median or 0) / 3600,), "", (row.ninetieth or 0) / 3600
    )


def _table(found: Waiting) -> Table:
    rows = tuple(
        Row((WHO[row.who], *map(base.how_long, (row.median, row.ninetieth, row.mean))))
        for row in (*found.rows, found.whole)
    )
    columns = ("Waited", "Median", "Nine of ten within", "Mean")
    return Table("From request to first quote", columns, rows)


QUESTION = Question(
    "waiting",
    "How long do people wait?",
    "From the moment a request came to its first quote, parted by whom it waited for: the program, "
    "the desk, or a customer who could not be reached. What was never quoted is not in it.",
    (),
    view,
)
