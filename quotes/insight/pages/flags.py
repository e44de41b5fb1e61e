"""Are the flags right?"""

from __future__ import annotations

from intake.domain.shares import Share
from quotes.domain.charts.bars import Bar, bars
from quotes.domain.charts.frame import Words
from quotes.domain.insight.flags import FlagRow, Flags, flags
from quotes.domain.insight.measures import Measure
from quotes.domain.insight.targets import at_least, between
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

_DRAWN = 12


def view(given: Given) -> View:
    """Precision of each check, flags per request, and recall."""
    found, costs = flags(given.counts), given.costs
    figures = (
        base.figure(
            "of the flags that were answered were right",
            found.whole.precision,
            costs.precision,
            at_least(found.whole.precision, costs.precision),
        ),
        base.figure("of them had been answered", _answered(found)),
        _per_request(found, given),
        _recall(found, given),
    )
    chart = Chart("How often each check was right", _chart(found))
    note = (
        f"Recall rests on {found.recall.audited} audit calls: requests no check had held, called "
        "about at random. Each mistake found there stands for twenty."
    )
    return View(figures, (chart,), (_table(found),), (note,))


def _answered(found: Flags) -> Share:
    return Share(found.whole.precision.of, found.whole.raised)


def _per_request(found: Flags, given: Given) -> Figure:
    each, doubt = found.per_request, found.per_request_doubt
    target = given.costs.flags_per_request
    if each is None:
        return Figure("flags for each request", "—", "", f"at most {target}")
    standing = between(each - doubt, each + doubt, found.requests, target, more_is_better=False)
    span = f"{each - doubt:.2f} to {each + doubt:.2f}"
    return Figure("flags for each request", f"{each:.2f}", span, f"at most {target}", standing)


def _recall(found: Flags, given: Given) -> Figure:
    recall, target = found.recall, given.costs.recall
    span = f"{base.percent(recall.low)} to {base.percent(recall.high)}"
    standing = between(recall.low, recall.high, recall.audited, target, more_is_better=True)
    words = "of the requests with a mistake had been held by a check (recall)"
    return Figure(words, base.percent(recall.rate), span, base.percent(float(target)), standing)


def _chart(found: Flags) -> str:
    rows = [_bar(row) for row in found.rows[:_DRAWN]]
    about = "; ".join(f"{row.label} {row.said}" for row in rows)
    legend = ("right", "not right", "not answered")
    return bars(rows, Words("flags", "Flags by check", about), legend, "No flag in these months.")


def _bar(row: FlagRow) -> Bar:
    right, answered = row.precision.hits, row.precision.of
    parts = (right, answered - right, row.raised - answered)
    return Bar(row.check, parts, f"{right} of {answered}")


def _table(found: Flags) -> Table:
    rows = tuple(_row(row) for row in (*found.rows, found.whole))
    columns = ("Check", "Held", "Answered", "Right", "Precision", "May be")
    return Table("Check by check", columns, rows)


def _row(row: FlagRow) -> Row:
    cells = (
        base.check_label(row.check) if row.check else "All",
        str(row.raised),
        str(row.precision.of),
        str(row.precision.hits),
        base.rate(row.precision),
        base.span(row.precision),
    )
    return Row(cells, (Measure.FLAG.value, row.check) if row.check else None)


QUESTION = Question(
    "flags",
    "Are the flags right?",
    "A flag was right where the value then changed by more than its tolerance, or a wrong part was "
    "avoided; of the flags that were answered. Recall is what was held by a check, of everything "
    "that was wrong: held, found at fitting, and what the audit calls let expect.",
    (
        Measure.FLAG,
        Measure.FLAG_ANSWERED,
        Measure.FLAG_RIGHT,
        Measure.RECEIVED,
        Measure.CAUGHT,
        Measure.WRONG_FLAGGED,
        Measure.AUDITED,
        Measure.AUDIT_WRONG,
    ),
    view,
)
