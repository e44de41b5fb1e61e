"""The manager's page: why mismatches repeat, by cause, by check and by question."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import render
from django.utils.formats import date_format
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from intake.access import manager_required
from intake.desk_words import LABELS
from intake.domain.charts import ChartRow, month_bars
from intake.selectors import Dimension, MonthlyCount, mismatches_by_month, months_back

MONTHS_KEPT, MONTHS_SHOWN, ROWS_DRAWN = 24, 6, 8
SMALL_NUMBER = 20
DIMENSIONS: tuple[Dimension, ...] = ("cause", "check", "question")
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


@manager_required
@require_GET
def insights(request: HttpRequest) -> HttpResponse:
    """Three charts, each with its table, over the months asked for."""
    months = asked_months(request.GET)
    context = {
        "tables": [Counted(name, months, _rows(name, months)) for name in DIMENSIONS],
        "months": months,
        "all_months": [(month, month_name(month)) for month in months_back(MONTHS_KEPT)],
        "first": months[0],
        "last": months[-1],
        "small": SMALL_NUMBER,
    }
    return render(request, "intake/insights.html", context)


@manager_required
@require_GET
def insights_csv(request: HttpRequest) -> HttpResponse:
    """The same figures, one row for each thing and month, safe to open in a spreadsheet."""
    months = asked_months(request.GET)
    name = f'attachment; filename="mismatches-{months[0]}-to-{months[-1]}.csv"'
    response = HttpResponse(
        content_type="text/csv; charset=utf-8", headers={"Content-Disposition": name}
    )
    sheet = csv.writer(response)
    sheet.writerow(["by", "code", "label", "month", "count"])
    for by in DIMENSIONS:
        for row in _rows(by, months):
            for month, count in zip(months, row.counts, strict=True):
                sheet.writerow([by, plain(row.key), plain(row.label), month, count])
    return response


@dataclass(frozen=True, slots=True)
class Counted:
    """One way of counting: its chart, its table, and whether shares may be shown."""

    by: Dimension
    months: list[str]
    rows: list[MonthlyCount]

    @property
    def title(self) -> str:
        """The heading."""
        return {"cause": _("By cause"), "check": _("By check"), "question": _("By question")}[
            self.by
        ]

    @property
    def about(self) -> str:
        """What is counted, in one sentence."""
        return {
            "cause": _("Causes written down on calls, in the month of the call."),
            "check": _("Findings that held a submission, once each, in the month it came in."),
            "question": _("The answer such a finding was about first."),
        }[self.by]

    @property
    def total(self) -> int:
        """All together."""
        return sum(row.total for row in self.rows)

    @property
    def by_month(self) -> list[int]:
        """The sum of each month."""
        return [sum(row.counts[at] for row in self.rows) for at in range(len(self.months))]

    @property
    def names(self) -> list[str]:
        """The months, for the table's head."""
        return [month_name(month) for month in self.months]

    @property
    def is_small(self) -> bool:
        """Too few for shares."""
        return self.total < SMALL_NUMBER

    @property
    def lines(self) -> list[tuple[MonthlyCount, str, str]]:
        """Each row with its label and its share ("" where the numbers are small)."""
        return [(row, self._label(row), self._share(row)) for row in self.rows]

    @property
    def chart(self) -> SafeString:
        """The most frequent few as bars by month."""
        drawn = self.rows[:ROWS_DRAWN]
        svg = month_bars(
            [ChartRow(self._label(row), row.counts) for row in drawn],
            [_short_month(month) for month in self.months],
            key=f"by-{self.by}",
            title=self.title,
            description="; ".join(f"{self._label(row)}: {row.total}" for row in drawn),
        )
        return mark_safe(svg)  # noqa: S308 - month_bars escapes every text

    @property
    def not_drawn(self) -> int:
        """How many rows only the table has."""
        return max(0, len(self.rows) - ROWS_DRAWN)

    def _label(self, row: MonthlyCount) -> str:
        if self.by == "question":
            return str(LABELS.get(row.key) or row.label)
        return row.label

    def _share(self, row: MonthlyCount) -> str:
        return "" if self.is_small else f"{row.total / self.total:.0%}".replace("%", " %")


def asked_months(asked: QueryDict) -> list[str]:
    """The months from `from` to `to`; the last few when nothing sensible was asked."""
    kept = months_back(MONTHS_KEPT)
    last = asked.get("to", "")
    last = last if last in kept else kept[-1]
    first = asked.get("from", "")
    first = first if first in kept else kept[max(0, kept.index(last) - MONTHS_SHOWN + 1)]
    first, last = min(first, last), max(first, last)
    return kept[kept.index(first) : kept.index(last) + 1]


def plain(text: str) -> str:
    """Text a spreadsheet cannot take for a formula.

    >>> plain("=1+1"), plain("gap_now"), plain(" -2")
    ("'=1+1", 'gap_now', ' -2')
    """
    return f"'{text}" if text.startswith(_FORMULA_STARTS) else text


def month_name(month: str) -> str:
    """ "2026-11" as people say it.

    >>> month_name("2026-11")
    'Nov 2026'
    """
    return date_format(_day(month), "M Y")


def _short_month(month: str) -> str:
    """The month alone, with the year where a year begins."""
    return date_format(_day(month), "M y" if month.endswith("-01") else "M")


def _day(month: str) -> date:
    return date.fromisoformat(f"{month}-01")


def _rows(by: Dimension, months: Sequence[str]) -> list[MonthlyCount]:
    return mismatches_by_month(by, months)
