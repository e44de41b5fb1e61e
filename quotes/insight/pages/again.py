"""Do causes come back?"""

from __future__ import annotations

from quotes.domain.charts.frame import Words
from quotes.domain.charts.heat import HeatRow, heat
from quotes.domain.insight.again import Again, again
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.targets import at_most
from quotes.insight import selectors
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View

_DRAWN, _LISTED = 14, 40
_IN_COMMON = {"c": "customer", "f": "hull", "q": "question"}


def view(given: Given) -> View:
    """Repeat rate, cause by month, and the list of what came back."""
    found, target = again(given.counts, given.months), given.costs.again
    figures = (
        base.figure(
            "of the mistakes had a cause seen in the 90 days before",
            found.rate,
            target,
            at_most(found.rate, target),
        ),
    )
    tables = (_list(given), _table(found))
    return View(figures, (Chart("Causes by month", _chart(found)),), tables)


def _chart(found: Again) -> str:
    rows = [HeatRow(base.cause_label(row.cause), row.months) for row in found.rows[:_DRAWN]]
    about = "; ".join(f"{row.label} {sum(row.counts)}" for row in rows)
    words = Words("again", "How often each cause was found, by month", about)
    return heat(rows, tuple(map(base.month_short, found.months)), words)


def _table(found: Again) -> Table:
    rows = tuple(
        Row(
            (
                base.cause_label(row.cause),
                *map(str, row.months),
                str(row.again.of),
                str(row.again.hits),
                base.rate(row.again),
            ),
            ("mismatch", row.cause),
        )
        for row in found.rows
    )
    columns = ("Cause", *map(base.month_long, found.months), "All", "Came back", "Share")
    return Table("Causes by month", columns, rows)


def _list(given: Given) -> Table:
    found = selectors.came_back(given.asked, _LISTED)
    rows = tuple(
        Row(
            (
                f"{one.on:%Y-%m-%d}",
                base.cause_label(one.cause),
                ", ".join(_IN_COMMON[letter] for letter in one.again),
                one.fact.submission.boat_name or one.fact.submission.reference,
                one.fact.family.replace("|", ", "),
                base.question_label(one.answer) if one.answer else one.what,
            ),
            ("request", one.fact.submission.reference),
        )
        for one in found
    )
    columns = ("Day", "Cause", "In common with one before", "Boat", "Hull", "Question or part")
    note = f"The newest {_LISTED}." if len(found) == _LISTED else ""
    return Table("Same again", columns, rows, words=6, note=note)


QUESTION = Question(
    "again",
    "Do causes come back?",
    "Mistakes whose cause was seen in the 90 days before for the same customer, the same hull "
    "family or in the same question, of all mistakes. A cause that is not known repeats nothing.",
    (Measure.MISMATCH, Measure.AGAIN),
    view,
)
