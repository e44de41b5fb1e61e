"""Is stock in the right place?"""

from __future__ import annotations

from catalog.domain.lengths import NM_PER_INCH
from quotes.domain.charts.bars import Bar
from quotes.domain.charts.bars import bars as drawn
from quotes.domain.charts.frame import Words
from quotes.domain.insight.bars import BarRow, bars
from quotes.domain.insight.measures import Measure
from quotes.insight.pages import base
from quotes.insight.pages.base import Chart, Figure, Given, Question, Row, Table, View

_DRAWN = 12


def view(given: Given) -> View:
    """What was sawn, put back and thrown away, by size."""
    found = bars(given.counts)
    used, dropped = sum(row.used_nm for row in found), sum(row.dropped_nm for row in found)
    gone = used + dropped
    waste = base.percent(dropped / gone if gone else None)
    figures = (
        Figure(
            "of the bar that is gone was thrown away",
            waste,
        ),
        Figure("thrown away", _inches(dropped)),
        Figure("bars and remnants sawn", str(sum(row.sawn for row in found))),
    )
    return View(figures, (Chart("By size", _chart(found)),), (_table(found),))


def _inches(nm: int) -> str:
    return f"{nm / NM_PER_INCH:,.0f} in".replace(",", "\N{NO-BREAK SPACE}")


def _chart(found: tuple[BarRow, ...]) -> str:
    rows = [
        Bar(
            row.size,
            (row.used_nm, row.dropped_nm, row.kept_nm),
            f"{_inches(row.dropped_nm)} dropped",
        )
        for row in found[:_DRAWN]
    ]
    about = "; ".join(f"{row.label}: {row.said}" for row in rows)
    legend = ("into shafts", "thrown away", "back in the rack")
    return drawn(rows, Words("bars", "Where bars went", about), legend, "No bar was sawn.")


def _table(found: tuple[BarRow, ...]) -> Table:
    rows = tuple(
        Row(
            (row.size, str(row.sawn), *map(_inches, (row.used_nm, row.kept_nm, row.dropped_nm)),
             base.percent(row.waste)),
            (Measure.BAR_USED.value, row.size),
        )
        for row in found
    )  # fmt: skip
    columns = ("Size", "Sawn", "Into shafts", "Back in the rack", "Thrown away", "Waste")
    return Table("Size by size", columns, rows)


QUESTION = Question(
    "bars",
    "Where do our bars go?",
    "Bars and remnants that were sawn: what went into shafts, saw cut and facing counted, what is "
    "back in the rack, and what was too short to keep.",
    (Measure.BAR_USED, Measure.BAR_KEPT, Measure.BAR_DROPPED),
    view,
)
