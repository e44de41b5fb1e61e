"""What does it cost?"""

from __future__ import annotations

from quotes.domain.case_words import FOUND as FOUND_WORDS
from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.cost import FOUND, CauseRow, Cost, cost
from quotes.domain.insight.measures import NOTHING, Measure
from quotes.domain.insight.targets import at_most
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

_DRAWN = 10


def view(given: Given) -> View:
    """Causes by cost and by count, stacked by where they were found."""
    found, target = cost(given.counts), given.costs.unknown_cause
    whole = found.whole
    figures = (
        Figure("what mistakes cost in these months", base.money(whole.amount)),
        Figure("mistakes with a cause written down", str(whole.n)),
        base.figure("of them for a reason not known", found.unknown, target,
                    at_most(found.unknown, target)),
    )  # fmt: skip
    charts = (
        Chart("Causes by cost", _by_cost(found)),
        Chart("Causes by count", _by_count(found)),
    )
    tables = (
        _table("Cause by cause", "Cause", found.causes, base.cause_label),
        _table("By family", "Family", found.families, lambda c: f"{base.FAMILIES.get(c, c)} ({c})"),
    )
    note = "A case counts what was booked on it so far; a mistake found on a call, what calls cost."
    return View(figures, charts, tables, (note,))


def _by_cost(found: Cost) -> str:
    rows = [
        Bar(base.cause_label(row.cause), _parts(row, money=True), base.money(row.whole.amount))
        for row in found.causes[:_DRAWN]
        if row.whole.amount > 0
    ]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    words = Words("cost", "Causes by cost, parted by where they were found", about)
    return bars(rows, words, tuple(FOUND_WORDS[stage] for stage in FOUND), "Nothing was booked.")


def _by_count(found: Cost) -> str:
    rows = [
        Bar(base.cause_label(row.cause), _parts(row, money=False), str(row.whole.n))
        for row in found.by_count()[:_DRAWN]
    ]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    words = Words("count", "Causes by count, parted by where they were found", about)
    return bars(rows, words, tuple(FOUND_WORDS[stage] for stage in FOUND), "No mistake is known.")


def _parts(row: CauseRow, *, money: bool) -> tuple[float, ...]:
    stages = (row.stages.get(stage, NOTHING) for stage in FOUND)
    return tuple(max(one.amount if money else one.n, 0) for one in stages)


def _table(title: str, name: str, rows: tuple[CauseRow, ...], label: object) -> Table:
    said = label if callable(label) else str
    made = tuple(
        Row(
            (
                str(said(row.cause)),
                *(str(row.stages.get(stage, NOTHING).n) for stage in FOUND),
                str(row.whole.n),
                base.money(row.whole.amount),
            ),
            ("mismatch", row.cause),
        )
        for row in rows
    )
    columns = (name, *(f"Found {FOUND_WORDS[stage]}" for stage in FOUND), "All", "Cost")
    return Table(title, columns, made)


QUESTION = Question(
    "cost",
    "What does it cost?",
    "Material, labour, freight, time at the desk and goodwill, as booked on cases, and what calls "
    "cost that found a mistake; by cause, and by where it was found.",
    (Measure.MISMATCH,),
    view,
)
