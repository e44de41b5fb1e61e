"""What did a change do?"""

from __future__ import annotations

from quotes.domain.charts.frame import Words
from quotes.domain.charts.lines import Line, Plot, lines
from quotes.domain.insight.changes import BeforeAfter, Changes, changes
from quotes.domain.insight.measures import Measure
from quotes.insight.marks.selectors import marks
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Given, Question, Row, Table, View


def view(given: Given) -> View:
    """Requests with a mistake by month, with a mark for everything that was changed."""
    first, last = base.first_day(given.asked.first), base.last_day(given.asked.last)
    found = changes(given.counts, given.months, marks(first, last))
    whole = sum(found.rates[1:], found.rates[0])
    figures = (base.figure("of the requests had a mistake that is known", whole),)
    note = (
        "Before and after are as many whole months on each side; the month of the change belongs "
        "to neither. “Apart” means that what may be true before and after have nothing in common; "
        "anything else may be chance, or another change at the same time."
    )
    chart = Chart("Requests with a mistake, and what was changed", _chart(found))
    return View(figures, (chart,), (_marks(found), _months(found)), (note,))


def _chart(found: Changes) -> str:
    shares = found.rates
    line = Line(
        "mistakes",
        tuple(share.rate for share in shares),
        tuple((share.low, share.high) if share.of else None for share in shares),
    )
    high = max([share.high for share in shares if share.of], default=0.1)
    places = [
        (found.months.index(one.mark.month), str(at)) for at, one in enumerate(found.marks, start=1)
    ]
    plot = Plot(
        tuple(map(base.month_short, found.months)),
        (line,),
        0.0,
        high,
        tuple((high * part, base.percent(high * part)) for part in (0.0, 0.5, 1.0)),
        marks=tuple(places),
        counts=tuple(share.of for share in shares),
        counts_words="requests by month",
    )
    about = "; ".join(f"{at} {one.mark.words}" for at, one in enumerate(found.marks, start=1))
    return lines(plot, Words("changes", "Requests with a mistake by month, with marks", about))


def _marks(found: Changes) -> Table:
    rows = tuple(
        Row((f"{at} {one.mark.words}", f"{one.mark.on:%Y-%m-%d}", str(one.months), *_sides(one)))
        for at, one in enumerate(found.marks, start=1)
    )
    columns = ("Change", "Day", "Months on each side", "Before", "After", "Apart")
    return Table("What was changed", columns, rows, note="Numbers are those in the picture.")


def _sides(one: BeforeAfter) -> tuple[str, str, str]:
    before, after = (
        f"{base.rate(share)} ({base.span(share)})" if share.of else "—"
        for share in (one.before, one.after)
    )
    is_told = one.before.of and one.after.of
    return before, after, ("yes" if one.is_apart else "no") if is_told else "—"


def _months(found: Changes) -> Table:
    rows = tuple(
        Row(
            (
                base.month_long(month),
                str(share.of),
                str(share.hits),
                base.rate(share),
                base.span(share),
            ),
            (Measure.RECEIVED.value, ""),
            month,
        )
        for month, share in zip(found.months, found.rates, strict=True)
    )
    columns = ("Month", "Requests", "With a mistake", "Share", "May be")
    return Table("Month by month", columns, rows)


QUESTION = Question(
    "changes",
    "What did a change do?",
    "Requests in which a mistake came to light, by the month they came in, with a mark for every "
    "new set of limits, of rates, of costs, and every new wording of a question.",
    (Measure.RECEIVED, Measure.CAUGHT),
    view,
)
