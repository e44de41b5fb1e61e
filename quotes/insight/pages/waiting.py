"""How long do people wait?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.waiting import WHO as WAITED_FOR
from quotes.domain.insight.waiting import Waiting, Waits, waiting
from quotes.insight import selectors
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

WHO = {
    "machine": "for the program",
    "desk": "for the desk",
    "customer": "for the customer to be reached",
    "all": "in all",
}

_WORDS = Words("waiting", "Whom people wait for, by the month they asked in", "")


def view(given: Given) -> View:
    """Mean parts, medians and ninetieth percentiles, of all and month by month."""
    waits = selectors.waits(given.asked)
    found = waiting([one for _, one in waits])
    by_month: dict[str, list[Waits]] = {month: [] for month in given.months}
    for month, one in waits:
        by_month[month].append(one)
    months = [(month, waiting(several)) for month, several in by_month.items()]
    figures = (
        Figure("half wait no longer, from request to quote", base.how_long(found.whole.median)),
        Figure("nine of ten wait no longer", base.how_long(found.whole.ninetieth)),
        Figure("requests that were quoted", str(found.n)),
    )
    chart = Chart("Whom they wait for, on the average", _chart(found, months))
    return View(figures, (chart,), (_table(found), _monthly(months)))


def _chart(found: Waiting, months: Sequence[tuple[str, Waiting]]) -> str:
    if not found.n:
        return bars((), _WORDS, empty="Nothing was quoted in these months.")
    rows = [_bar("All months", found)]
    rows += [_bar(base.month_long(month), one) for month, one in months if one.n]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    legend = tuple(WHO[row.who] for row in found.rows)
    marked = ("half wait no longer", "nine of ten wait no longer")
    return bars(rows, replace(_WORDS, description=about), legend, marked=marked)


def _bar(label: str, found: Waiting) -> Bar:
    """Hours, from the mean of each part; half and nine of ten as marks."""
    whole = found.whole
    said = f"half {base.how_long(whole.median)}, nine of ten {base.how_long(whole.ninetieth)}"
    parts = tuple((row.mean or 0) / 3600 for row in found.rows)
    return Bar(
        f"{label}: {said}", parts, "", ((whole.median or 0) / 3600, (whole.ninetieth or 0) / 3600)
    )


def _monthly(months: Sequence[tuple[str, Waiting]]) -> Table:
    rows = tuple(
        Row(
            (
                base.month_long(month),
                str(one.n),
                *(base.how_long(row.mean) for row in one.rows),
                *map(base.how_long, (one.whole.median, one.whole.ninetieth)),
            ),
            (Measure.RECEIVED.value, ""),
            month,
        )
        for month, one in months
    )
    columns = ("Month", "Quoted", *(f"Mean {WHO[who]}" for who in WAITED_FOR), "Half within",
               "Nine of ten within")  # fmt: skip
    return Table("Month by month", columns, rows)


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
