"""Tables out: CSV and workbooks that no spreadsheet runs anything from."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

from catalog.tables import plain_cell

BOM = "\ufeff"  # without it some spreadsheets take UTF-8 for something else
_LONGEST_TITLE = 31
_FORBIDDEN = str.maketrans(dict.fromkeys("[]:*?/\\", " "))
_MADE = datetime(2026, 1, 1, tzinfo=UTC).replace(tzinfo=None)  # the same table gives the same file


def write_csv(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> Iterator[str]:
    """The heading and every row, one after the other; each cell is text no spreadsheet runs."""
    yield BOM + _line(columns)
    for row in rows:
        yield _line(row)


def _line(cells: Iterable[object]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerow(plain_cell(cell) for cell in cells)
    return out.getvalue()


def write_xlsx(title: str, columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """One sheet with its heading held in place; whole and exact numbers stay numbers."""
    return write_sheets([(title, columns, rows)])


def write_sheets(
    sheets: Iterable[tuple[str, Sequence[str], Iterable[Sequence[object]]]],
) -> bytes:
    """A workbook of several sheets. Text is text: nothing of it is a formula."""
    from openpyxl import Workbook  # here: a process that writes no workbook starts sooner

    book = Workbook(write_only=True)
    book.properties.created = book.properties.modified = _MADE
    for title, columns, rows in sheets:
        sheet = book.create_sheet(title.translate(_FORBIDDEN)[:_LONGEST_TITLE].strip() or "Table")
        sheet.freeze_panes = "A2"
        sheet.append([_cell(sheet, name) for name in columns])
        for row in rows:
            sheet.append([_cell(sheet, value) for value in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _cell(sheet: Any, value: object) -> Any:
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, int | Decimal) and not isinstance(value, bool):
        return WriteOnlyCell(sheet, value=value)
    cell = WriteOnlyCell(sheet, value=_printable(plain_cell(value)))
    cell.data_type = "s"
    return cell


def _printable(text: str) -> str:
    """What a workbook cannot hold is left out."""
    return "".join(letter for letter in text if letter >= " " or letter in "\t\n")
