"""A list of prices as a table: pasted or CSV, every fault named by row and column."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalog.prices.dating.services import NewPrice
from catalog.tables import TableError, TableErrors

COLUMNS = ("code", "price", "from_day")
MOST_ROWS = 20_000
_NO_HEADING = TableError(1, "all", "The first row must name the columns: code, price, from_day.")
_PRICE = re.compile(r"[0-9]{1,8}(?:[.,][0-9]{1,4})?", re.ASCII)


@dataclass(frozen=True, slots=True)
class _Day:
    today: date
    usual: date


def read_prices(
    text: str, *, known: Collection[str], usual: date, today: date
) -> tuple[NewPrice, ...]:
    """The prices of a table. ``usual``: the first day where a row gives none.

    Columns go by their heading, in any order; ``from_day`` may be left out. Cells are parted by
    tabs, semicolons or commas, whichever the heading has. Raises TableErrors with all faults.
    """
    rows = _rows(text)
    errors: list[TableError] = []
    found: list[NewPrice] = []
    seen: dict[tuple[str, date], int] = {}
    for number, row in rows:
        one = _price(number, row, known, _Day(today, usual), errors)
        if one is None:
            continue
        key = one.code, one.from_day
        if key in seen:
            words = f"{one.code} stands in row {seen[key]} already; keep one of the two."
            errors.append(TableError(number, "code", words))
        seen.setdefault(key, number)
        found.append(one)
    if errors:
        raise TableErrors(errors)
    return tuple(found)


def _rows(text: str) -> list[tuple[int, Mapping[str, str]]]:
    """The rows below the heading that hold something, numbered as a spreadsheet numbers them."""
    text = text.removeprefix("\ufeff").replace("\x00", "").strip("\r\n")
    heading = text.partition("\n")[0]
    mark = next((mark for mark in "\t;" if mark in heading), ",")
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    try:
        rows = [(number, [cell.strip() for cell in row]) for number, row in enumerate(reader, 1)]
    except csv.Error as error:
        raise TableErrors([_NO_HEADING]) from error
    names = [name.lower().replace(" ", "_") for name in rows[0][1]] if rows else []
    _known_columns(names)
    filled = [(number, row) for number, row in rows[1:] if any(row)]
    if not filled or len(filled) > MOST_ROWS:
        words = f"Give at least one price below the heading, and at most {MOST_ROWS}."
        raise TableErrors([TableError(2, "all", words)])
    return [(number, _named(names, row)) for number, row in filled]


def _named(names: list[str], row: list[str]) -> dict[str, str]:
    """Cells by column; what stands right of the last column is kept, to be refused."""
    row = row + [""] * (len(names) - len(row))
    return dict(zip(names, row, strict=False)) | {"": "".join(row[len(names) :])}


def _known_columns(names: list[str]) -> None:
    if not {"code", "price"} <= set(names):
        raise TableErrors([_NO_HEADING])
    odd = [name for name in names if name not in COLUMNS]
    if odd or len(set(names)) != len(names):
        words = "We do not know this column, or it stands there twice; take it out."
        raise TableErrors([TableError(1, (odd or names)[0] or "unnamed", words)])


def _price(
    number: int,
    row: Mapping[str, str],
    known: Collection[str],
    days: _Day,
    errors: list[TableError],
) -> NewPrice | None:
    before = len(errors)
    code, price, typed = row["code"], row["price"], row.get("from_day", "")
    if row[""]:
        words = "This row has more cells than the heading; check its commas."
        errors.append(TableError(number, "all", words))
    if code not in known:
        words = f"There is no part {code[:40]} in the catalogue." if code else "Give the code."
        errors.append(TableError(number, "code", words))
    if not _PRICE.fullmatch(price):
        words = "Write a price such as 3.60, with at most four places."
        errors.append(TableError(number, "price", words))
    day = _day(number, typed, days, errors)
    if len(errors) > before or day is None:
        return None
    return NewPrice(code, Decimal(price.replace(",", ".")), day)


def _day(number: int, typed: str, days: _Day, errors: list[TableError]) -> date | None:
    if not typed:
        return days.usual
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        errors.append(TableError(number, "from_day", "Write the day like 2027-01-31."))
        return None
    if day < days.today:
        words = "That day is over; quotes of that day keep their prices."
        errors.append(TableError(number, "from_day", words))
        return None
    return day
