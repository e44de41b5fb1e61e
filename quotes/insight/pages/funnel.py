"""What slips by?"""

from __future__ import annotations

from intake.domain.shares import Share
from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.funnel import FunnelStep, funnel
from quotes.domain.insight.measures import Measure
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View

STAGES = {
    "entry": "caught at entry, by the customer's own second reading",
    "call": "caught on a call",
    "shop": "caught in the shop",
    "boat": "found at the boat",
}


def view(given: Given) -> View:
    """Each place with what came to it and what it caught."""
    steps = funnel(given.counts)
    before = sum(step.caught for step in steps if step.stage != "boat")
    whole = Share(before, steps[0].came)
    figures = (base.figure("of the mistakes that are known were caught before the boat", whole),)
    chart = Chart("Where mistakes are caught", _chart(steps))
    return View(figures, (chart,), (_table(steps),))


def _chart(steps: tuple[FunnelStep, ...]) -> str:
    rows = [
        Bar(
            STAGES[step.stage],
            (step.caught, step.came - step.caught),
            f"{step.caught} of {step.came}",
        )
        for step in steps
        if step.came or step.stage == "entry"
    ]
    about = "; ".join(f"{row.label}: {row.said}" for row in rows)
    legend = ("caught here", "went on")
    return bars(rows, Words("funnel", "Mistakes, place by place", about), legend)


def _table(steps: tuple[FunnelStep, ...]) -> Table:
    rows = tuple(
        Row(
            (
                STAGES[step.stage],
                str(step.came),
                str(step.caught),
                base.rate(step.share),
                base.span(step.share),
            ),
            (Measure.CAUGHT.value, step.stage),
        )
        for step in steps
    )
    return Table("Place by place", ("Where", "Came to it", "Caught", "Share", "May be"), rows)


QUESTION = Question(
    "funnel",
    "What slips by?",
    "Requests in which something was wrong, by where their first mistake came to light: the "
    "further down, the dearer. What nobody has found is in no place; the audit calls say how much "
    "that may be.",
    (Measure.CAUGHT,),
    view,
)
