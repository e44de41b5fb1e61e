"""The catalogue as a table: CSV in, with every fault named by row and column, and CSV out."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind, StockPart
from catalog.domain.tape import LengthError, read_length

COLUMNS = (
    *("code", "kind", "system", "diameter", "description", "price", "per", "stock_length"),
    *("on_hand", "alloy", "flange_od", "bolt_circle", "direction", "bore", "shell_od", "length"),
    "shell",
)
NEEDED = {
    Kind.BAR: ("diameter", "stock_length", "alloy"),
    Kind.BLANK: ("diameter", "stock_length", "alloy"),
    Kind.COUPLING: ("flange_od", "bore", "direction"),
    Kind.BEARING: ("bore", "shell_od", "length"),
}
# What a spreadsheet would run as a formula; a quote in front makes it text.
_RISKY = ("=", "+", "-", "@", "\t", "\r", "'")


@dataclass(frozen=True, slots=True)
class TableError:
    """One fault: the row as a spreadsheet counts it (the heading is row 1), and what to do."""

    row: int
    column: str
    message: str

    def __str__(self) -> str:
        return f"row {self.row}, {self.column}: {self.message}"


class TableErrors(ValueError):
    """A table that is not taken, with every fault in it."""

    def __init__(self, errors: Iterable[TableError]) -> None:
        self.errors = tuple(errors)
        super().__init__("; ".join(map(str, self.errors[:20])))


_NOT_A_TABLE = TableError(
    1, "all", "This is not a table with a heading; save it as CSV (UTF-8) and try again."
)


class _Fault(ValueError):
    pass


Row = Mapping[str, str]


def read_parts(table: str | Iterable[Row]) -> list[StockPart]:
    """The parts of a CSV text, or of rows already split. Raises TableErrors with all faults."""
    errors: list[TableError] = []
    parts: list[StockPart] = []
    seen: dict[str, int] = {}
    for number, row in _rows(table) if isinstance(table, str) else enumerate(table, start=2):
        part = _part(number, row, errors)
        if part is None:
            continue
        if part.code in seen:
            words = f"{part.code} stands in row {seen[part.code]} already; keep one of the two."
            errors.append(TableError(number, "code", words))
        seen.setdefault(part.code, number)
        parts.append(part)
    if errors:
        raise TableErrors(errors)
    return parts


def _rows(text: str) -> list[tuple[int, Row]]:
    """The rows that hold something, numbered as a spreadsheet numbers them."""
    reader = csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True)
    try:
        rows = [(number, row) for number, row in enumerate(reader, start=1) if any(row)]
    except csv.Error as error:
        raise TableErrors([_NOT_A_TABLE]) from error
    if not rows:
        raise TableErrors([_NOT_A_TABLE])
    names = [cell.strip().lower() for cell in rows[0][1]]
    _same_columns(names)
    return [(number, _named(number, names, row)) for number, row in rows[1:]]


def _same_columns(names: list[str]) -> None:
    errors = [
        TableError(1, name or "unnamed", "We do not know this column; remove it or rename it.")
        for name in names
        if name not in COLUMNS
    ]
    errors += [
        TableError(1, name, "This column is missing; add it, empty where nothing is known.")
        for name in COLUMNS
        if name not in names
    ]
    if len(set(names)) != len(names):
        errors.append(TableError(1, "all", "A column stands there twice; keep one of the two."))
    if errors:
        raise TableErrors(errors)


def _named(number: int, names: list[str], row: list[str]) -> dict[str, str]:
    if len(row) != len(names):
        words = f"This row has {len(row)} cells, the heading {len(names)}; check its commas."
        raise TableErrors([TableError(number, "all", words)])
    return dict(zip(names, map(_plain, row), strict=True))


def _plain(cell: str) -> str:
    """The cell as meant: without the quote that keeps a spreadsheet from running it."""
    quoted = cell.startswith("'") and cell[1:].startswith(_RISKY)
    return (cell[1:] if quoted else cell).strip()


def _part(number: int, row: Row, errors: list[TableError]) -> StockPart | None:
    values: dict[str, Any] = {}
    before = len(errors)
    for column in COLUMNS:
        cell = row.get(column) or ""
        try:
            values[column] = _READERS[column](cell, row)
        except _Fault as fault:
            errors.append(TableError(number, column, str(fault)))
    kind = values.get("kind")
    for column in NEEDED.get(kind, ()) if kind else ():
        if not (row.get(column) or "").strip():
            errors.append(TableError(number, column, f"A {kind} needs it; fill it in."))
    return StockPart(**values) if len(errors) == before else None


Reader = Callable[[str, Row], Any]


def _words(longest: int, needed: bool = False) -> Reader:
    def read(cell: str, row: Row) -> str:
        if needed and not cell:
            raise _Fault("It is empty; fill it in.")
        if len(cell) > longest or not cell.isprintable():
            raise _Fault(f"Use at most {longest} plain characters.")
        return cell

    return read


def _one_of(*words: str) -> Reader:
    def read(cell: str, row: Row) -> str:
        if cell not in words:
            raise _Fault(f"Write one of: {', '.join(word or 'nothing' for word in words)}.")
        return cell

    return read


def _kind(cell: str, row: Row) -> Kind:
    return Kind(_one_of(*Kind)(cell, row))


def _code(cell: str, row: Row) -> str:
    if not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}", cell):
        raise _Fault("Use 1 to 40 letters, figures, dots, dashes and underscores.")
    return cell


def _size(cell: str, row: Row) -> Length | None:
    """A length in the row's own system; a fraction in a metric row must say its unit."""
    if not cell:
        return None
    try:
        read = read_length(cell, "mm" if row.get("system") == "mm" else "in")
    except LengthError as error:
        raise _Fault(f"{error.message} For example {error.suggestions[0]}.") from error
    if read.doubts or not read.length:
        raise _Fault("Write a size above zero, with its unit, such as 7/8 in or 25 mm.")
    return read.length


def _price(cell: str, row: Row) -> Decimal:
    if not re.fullmatch(r"[0-9]{1,8}(\.[0-9]{1,4})?", cell, re.ASCII):
        raise _Fault("Write a price such as 3.60, with at most four places.")
    return Decimal(cell)


def _count(cell: str, row: Row) -> int | None:
    if cell and not re.fullmatch(r"[0-9]{1,7}", cell, re.ASCII):
        raise _Fault("Write a whole number, or nothing where it is not counted.")
    return int(cell) if cell else None


_READERS: Mapping[str, Reader] = {
    **dict.fromkeys(COLUMNS, _size),
    "code": _code,
    "kind": _kind,
    "system": _one_of("inch", "mm", "both"),
    "description": _words(200, needed=True),
    "price": _price,
    "per": _one_of("in", "mm", "each", "set", "end"),
    "on_hand": _count,
    "alloy": _words(20),
    "direction": _one_of("aft", "forward", ""),
    "shell": _words(40),
}


def write_parts(parts: Iterable[StockPart]) -> str:
    """The parts as CSV text that ``read_parts`` reads back, and no spreadsheet runs."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows([plain_cell(getattr(part, column)) for column in COLUMNS] for part in parts)
    return out.getvalue()


def plain_cell(value: object) -> str:
    """A value as one cell that no spreadsheet runs: sizes exact, with their unit."""
    if value is None:
        return ""
    if isinstance(value, Length):
        return value.show("mm" if value.inch_text.startswith("≈") else "in")
    text = f"{value:f}" if isinstance(value, Decimal) else str(value)
    return f"'{text}" if text.startswith(_RISKY) else text
