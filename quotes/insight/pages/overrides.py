"""What becomes of releases over a flag?"""

from __future__ import annotations

from intake.domain.shares import Share
from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.overrides import Overrides, overrides
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View

_DRAWN = 10


def view(given: Given) -> View:
    """Misfits of what was released over a flag, beside the rest; by reason."""
    found = overrides(given.counts)
    figures = (
        base.figure("of what left over a flag did not fit", found.over),
        base.figure("of what left over a flag was heard of", _heard(found)),
        base.figure("of everything else did not fit", found.rest),
    )
    return View(figures, (Chart("By reason", _chart(found)),), (_table(found),))


def _heard(found: Overrides) -> Share:
    heard = sum(row.misfits.of for row in found.rows)
    return Share(heard, sum(row.released for row in found.rows))


def _chart(found: Overrides) -> str:
    rows = [
        Bar(
            row.reason,
            (row.misfits.hits, row.misfits.of - row.misfits.hits, row.released - row.misfits.of),
            str(row.released),
        )
        for row in found.rows[:_DRAWN]
    ]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    words = Words("overrides", "Releases over a flag, by reason", about)
    legend = ("did not fit", "fitted", "nothing heard")
    return bars(rows, words, legend, "Nothing was released over a flag.")


def _table(found: Overrides) -> Table:
    rows = [
        Row(
            (row.reason, str(row.released), str(row.misfits.of), str(row.misfits.hits),
             base.rate(row.misfits), base.span(row.misfits)),
            (Measure.OVER.value, row.reason),
        )
        for row in found.rows
    ]  # fmt: skip
    rest = found.rest
    rows.append(Row(("no flag was released over", "", str(rest.of), str(rest.hits), base.rate(rest),
                     base.span(rest))))  # fmt: skip
    columns = ("Reason given", "Released", "Heard of", "Did not fit", "Share", "May be")
    return Table("By reason, never by name", columns, tuple(rows))


QUESTION = Question(
    "overrides",
    "What becomes of releases over a flag?",
    "Orders that left although a check had held them, by the reason that was written down, and how "
    "many of them did not fit, beside everything else.",
    (
        Measure.OVER,
        Measure.OVER_KNOWN,
        Measure.OVER_WRONG,
        Measure.PLAIN_KNOWN,
        Measure.PLAIN_WRONG,
    ),
    view,
)
