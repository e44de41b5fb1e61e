"""The tables of a page as files: what is on the screen is in the file, cell by cell."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from django.http import HttpResponse

from catalog.spreadsheet.writing import write_sheets
from catalog.tables import plain_cell
from quotes.insight.asked import Asked
from quotes.insight.pages.base import Question, View


def as_csv(question: Question, view: View, asked: Asked) -> HttpResponse:
    """All tables below each other, each under its title."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerows([plain_cell(cell) for cell in row] for row in lines(view))
    content = out.getvalue().encode("utf-8-sig")
    return _sent(content, "text/csv; charset=utf-8", question, asked, "csv")


def as_xlsx(question: Question, view: View, asked: Asked) -> HttpResponse:
    """A sheet for each table."""
    sheets = [(t.title, t.columns, [row.cells for row in t.rows]) for t in view.tables]
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    return _sent(write_sheets(sheets), kind, question, asked, "xlsx")


def lines(view: View) -> Iterator[tuple[str, ...]]:
    """Every table as lines: its title, its heading, its rows, an empty line."""
    for table in view.tables:
        yield (table.title,)
        yield table.columns
        yield from (row.cells for row in table.rows)
        yield ()


def _sent(content: bytes, kind: str, question: Question, asked: Asked, ending: str) -> HttpResponse:
    name = f"{question.slug}-{asked.first}-to-{asked.last}.{ending}"
    answer = HttpResponse(content, content_type=kind)
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer
