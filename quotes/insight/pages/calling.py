"""Is calling worth it?"""

from __future__ import annotations

from quotes.cost_model.selectors import costs_on_days
from quotes.domain.charts.frame import Words
from quotes.domain.charts.lines import Line, Plot, lines
from quotes.domain.insight.calling import Calling, calling
from quotes.domain.insight.measures import Measure
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View


def view(given: Given) -> View:
    """Two running totals."""
    models = costs_on_days([base.last_day(month) for month in given.months])
    costs = dict(zip(given.months, models, strict=True))
    found = calling(given.counts, given.months, costs)
    figures = (
        Figure("what calling saved, less what it cost (an estimate)", base.money(found.net_cents)),
        Figure("calls made", str(sum(month.calls for month in found.months))),
        Figure("misfits avoided", str(sum(month.avoided for month in found.months))),
    )
    call, each = base.money(found.call_cents), base.money(found.each_cents)
    note = (
        f"A call counts {call}; an avoided misfit {each}, "
        "half way between a shaft that is shortened and one that is made again, since errors fall "
        "on both sides alike. Both are the desk's to set under Costs and targets."
    )
    chart = Chart("Running totals", _chart(given, found))
    return View(figures, (chart,), (_table(found),), (note,))


def _chart(given: Given, found: Calling) -> str:
    spent = tuple(month.calls_so_far / 100 for month in found.months)
    saved = tuple(month.saved_so_far / 100 for month in found.months)
    high = max((*spent, *saved, 1.0))
    plot = Plot(
        tuple(map(base.month_short, given.months)),
        (Line("saved so far", saved), Line("spent on calls", spent, kind=1)),
        0.0,
        high,
        tuple((high * part, _short(high * part)) for part in (0.0, 0.5, 1.0)),
    )
    about = f"Saved {base.money(found.months[-1].saved_so_far)}, " if found.months else ""
    about += f"spent {base.money(found.months[-1].calls_so_far)}." if found.months else ""
    return lines(plot, Words("calling", "What calls cost and what they saved", about))


def _short(amount: float) -> str:
    """An amount that has room beside an axis.

    >>> _short(950), _short(92_950), _short(2_400_000)
    ('950', '93 k', '2.4 M')
    """
    if amount >= 1_000_000:
        return f"{amount / 1_000_000:.1f} M"
    return f"{amount / 1000:.0f} k" if amount >= 10_000 else f"{amount:.0f}"


def _table(found: Calling) -> Table:
    rows = tuple(
        Row(
            (
                base.month_long(one.month),
                str(one.calls),
                str(one.avoided),
                base.money(one.calls_so_far),
                base.money(one.saved_so_far),
            )
        )
        for one in found.months
    )
    columns = ("Month", "Calls", "Misfits avoided", "Spent so far", "Saved so far")
    return Table("Month by month", columns, rows)


QUESTION = Question(
    "calling",
    "Is calling worth it?",
    "Every call at what a call costs, against every true error a question on a call found, at what "
    "a misfit is taken to cost.",
    (Measure.CALL, Measure.ASKED_RIGHT),
    view,
)
