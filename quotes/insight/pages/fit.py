"""Do they fit first time?"""

from __future__ import annotations

from quotes.domain.charts.frame import Words
from quotes.domain.charts.lines import Line, Plot, lines
from quotes.domain.insight.fit import Fit, FitMonth, first_time_right
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.targets import at_least
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View


def view(given: Given) -> View:
    """First-time-right by month, with the orders that were heard of below."""
    fit, costs = first_time_right(given.counts), given.costs
    whole = fit.whole
    figures = (
        base.figure(
            "fitted first time, of those heard of",
            whole.right,
            costs.first_time_right,
            at_least(whole.right, costs.first_time_right),
        ),
        base.figure(
            "heard of, of those that left",
            whole.coverage,
            costs.coverage,
            at_least(whole.coverage, costs.coverage),
        ),
    )
    return View(figures, (Chart("First-time-right by month", _chart(given, fit)),),
                (_became(whole), _table(fit)))  # fmt: skip


def _became(whole: FitMonth) -> Table:
    left, heard, right = whole.coverage.of, whole.coverage.hits, whole.right.hits
    counted = (
        ("fitted first time", right, "fitted"),
        ("did not fit, or only with rework", heard - right, "misfit"),
        ("nothing heard yet", left - heard, "silent"),
    )
    rows = tuple(Row((words, str(n)), (Measure.SHIPPED.value, key)) for words, n, key in counted)
    return Table("What became of them", ("Orders that left", "How many"), rows)


def _chart(given: Given, fit: Fit) -> str:
    found = {month.month: month for month in fit.months}
    rows = [found.get(month) for month in given.months]
    rights = [row.right if row else None for row in rows]
    line = Line(
        "first time",
        tuple(share.rate if share and share.of else None for share in rights),
        tuple((share.low, share.high) if share and share.of else None for share in rights),
    )
    plot = Plot(
        tuple(map(base.month_short, given.months)),
        (line,),
        0.5,
        1.0,
        tuple((at / 10, f"{at * 10} %") for at in (5, 6, 7, 8, 9, 10)),
        target=float(given.costs.first_time_right),
        counts=tuple(row.coverage.hits if row else 0 for row in rows),
        counts_words="orders heard of, by the month they left in",
    )
    about = "; ".join(f"{base.month_long(m.month)} {base.rate(m.right)}" for m in fit.months)
    return lines(plot, Words("fit", "First-time-right by month, with its band", about))


def _table(fit: Fit) -> Table:
    rows = tuple(
        Row(
            (
                base.month_long(one.month) if one.month else "All",
                str(one.coverage.of),
                str(one.coverage.hits),
                base.rate(one.coverage),
                str(one.right.hits),
                base.rate(one.right),
                base.span(one.right),
            ),
            (Measure.SHIPPED.value, ""),
            one.month,
        )
        for one in (*fit.months, fit.whole)
    )
    columns = ("Month", "Left", "Heard of", "Coverage", "Fitted first time", "Share", "May be")
    return Table("Month by month", columns, rows)


QUESTION = Question(
    "fit",
    "Do they fit first time?",
    "Orders that fitted with no rework, of those that left and were heard of. Silence is neither "
    "success nor failure, so how many were heard of stands beside it. The band is what the share "
    "may really be (Wilson, 95 %).",
    (Measure.SHIPPED, Measure.KNOWN, Measure.RIGHT),
    view,
)
