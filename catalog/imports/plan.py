"""What a table would change, worked out before anything is written. Reads nothing itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from catalog.domain.stock import StockPart
from catalog.editing.services import cells_of
from catalog.spreadsheet.reading import SheetRow, Table, cell_name
from catalog.tables import COLUMNS, TableErrors, read_parts

SIZES = ("diameter", "stock_length", "flange_od", "bolt_circle", "bore", "shell_od", "length")
Cells = dict[str, str]


@dataclass(frozen=True, slots=True)
class Fault:
    """One cell that cannot be taken: its name in the file, our column, what to do."""

    cell: str
    column: str
    message: str


@dataclass(frozen=True, slots=True)
class Changed:
    """One part that becomes another: (column, before, after) of each cell that differs."""

    code: str
    cells: tuple[tuple[str, str, str], ...]

    @property
    def is_another_size(self) -> bool:
        """Whether a dimension changes, which may make open quotes wrong."""
        return any(name in SIZES for name, _, _ in self.cells)


@dataclass(frozen=True)
class Plan:
    """Everything a preview shows, and the rows to load."""

    rows: tuple[Cells, ...] = ()
    added: tuple[str, ...] = ()
    changed: tuple[Changed, ...] = ()
    removed: tuple[str, ...] = ()
    unchanged: int = 0
    faults: tuple[Fault, ...] = field(default=())

    @property
    def is_nothing(self) -> bool:
        """Whether taking it would change nothing."""
        return not (self.added or self.changed or self.removed)


def proposed(columns: Sequence[str]) -> dict[str, str]:
    """Our columns matched with the table's: the same name, or the same but for case and spacing."""
    known = {_plain(name): name for name in reversed(columns) if name}
    found = {column: known.get(_plain(column), "") for column in COLUMNS}
    return {column: name for column, name in found.items() if name}


def _plain(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum())


def plan(
    table: Table, columns: Mapping[str, str], stock: Iterable[StockPart], *, whole: bool
) -> Plan:
    """What taking the table would do. A column that is matched with nothing keeps what is stored;
    of a new part it is empty.
    """
    known = {part.code: part for part in stock}
    places = {
        column: table.columns.index(name)
        for column, name in columns.items()
        if name in table.columns
    }
    if "code" not in places:
        return Plan(faults=(Fault("row 1", "code", "Say which column holds the codes."),))
    rows = [_cells(row, places, known) for row in table.rows]
    try:
        parts = read_parts(rows)
    except TableErrors as refused:
        return Plan(faults=_faults(refused, table.rows, places))
    added = tuple(part.code for part in parts if part.code not in known)
    changed = [_changed(known[part.code], part) for part in parts if part.code in known]
    different = tuple(one for one in changed if one.cells)
    given = {part.code for part in parts}
    removed = tuple(code for code in known if code not in given) if whole else ()
    same = len(changed) - len(different)
    return Plan(tuple(rows), added, different, removed, same)


def _cells(row: SheetRow, places: Mapping[str, int], known: Mapping[str, StockPart]) -> Cells:
    told = {column: _unquoted(row.cells[at]) for column, at in places.items()}
    return {**cells_of(known.get(told["code"])), **told}


def _unquoted(cell: str) -> str:
    """Without the quote that keeps a spreadsheet from running it."""
    risky = ("=", "+", "-", "@", "'")
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(risky) else cell


def _faults(
    refused: TableErrors, rows: Sequence[SheetRow], places: Mapping[str, int]
) -> tuple[Fault, ...]:
    faults = []
    for one in refused.errors:
        row = rows[one.row - 2].number
        at = places.get(one.column)
        cell = f"row {row}" if at is None else cell_name(at, row)
        faults.append(Fault(cell, one.column, one.message))
    return tuple(faults)


def _changed(before: StockPart, after: StockPart) -> Changed:
    """By value: 3.6 and 3.60 are the same price."""
    old, new = cells_of(before), cells_of(after)
    differ = [name for name in COLUMNS if getattr(before, name) != getattr(after, name)]
    return Changed(after.code, tuple((name, old[name], new[name]) for name in differ))
