"""A file that somebody sends becomes rows of text, or one clear sentence why it does not.

Nothing in a file is trusted: sizes are bounded before anything is inflated, nothing is run, nothing
is guessed without being said. Numbers keep the places they are stored with.
"""

from __future__ import annotations

import csv
import io
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

MOST_BYTES = 20_000_000
MOST_INFLATED = 200_000_000
MOST_PARTS = 1000  # files within a workbook
MOST_ROWS = 120_000
MOST_COLUMNS = 100
LONGEST_CELL = 2000
_MOST_TIMES = 300  # how much smaller a part may be packed: text seldom reaches thirty
_ENCRYPTED = 1
_OLD_OFFICE = b"\xd0\xcf\x11\xe0"
_ZIP = b"PK\x03\x04"
_SEPARATORS = ",;\t"


class NotATable(ValueError):
    """A file that is not taken; the sentence says what to do."""


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row with its number as a spreadsheet counts it."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """The heading, the rows below it that hold something, and what was assumed on the way."""

    columns: tuple[str, ...]
    rows: tuple[SheetRow, ...]
    notes: tuple[str, ...] = field(default=())


def read_table(content: bytes) -> Table:
    """The first sheet of a workbook, or a CSV text. Raises NotATable."""
    if not content.strip(b"\0 \r\n\t"):
        raise NotATable("The file is empty.")
    if len(content) > MOST_BYTES:
        raise NotATable(f"The file is too large; send at most {MOST_BYTES // 1_000_000} MB.")
    if content.startswith(_OLD_OFFICE):
        raise NotATable(
            "This is an old or a locked workbook. Save it as XLSX without a password, or as CSV."
        )
    if content.startswith(_ZIP):
        return _table(_workbook_rows(content), ())
    rows, notes = _text_rows(content)
    return _table(rows, notes)


def cell_name(column: int, row: int) -> str:
    """A cell as a spreadsheet names it; columns count from 0.

    >>> cell_name(0, 1), cell_name(27, 14)
    ('A1', 'AB14')
    """
    letters, at = "", column + 1
    while at:
        at, rest = divmod(at - 1, 26)
        letters = chr(65 + rest) + letters
    return f"{letters}{row}"


def _table(rows: Iterator[SheetRow], notes: tuple[str, ...]) -> Table:
    held: list[SheetRow] = []
    for row in rows:
        if len(held) > MOST_ROWS:
            raise NotATable(f"The table has more than {MOST_ROWS} rows; send it in parts.")
        if any(row.cells):
            held.append(_within_bounds(row))
    if not held:
        raise NotATable("There is nothing in the table.")
    heading, *below = held
    columns = _heading(heading)
    return Table(columns, tuple(_fitted(row, len(columns)) for row in below), notes)


def _within_bounds(row: SheetRow) -> SheetRow:
    if len(row.cells) > MOST_COLUMNS:
        raise NotATable(
            f"Row {row.number} has {len(row.cells)} columns; a table here has at most "
            f"{MOST_COLUMNS}. Check the separator, or remove what does not belong to it."
        )
    for at, cell in enumerate(row.cells):
        if len(cell) > LONGEST_CELL:
            name = cell_name(at, row.number)
            raise NotATable(f"Cell {name} holds more than {LONGEST_CELL} characters.")
    return row


def _heading(row: SheetRow) -> tuple[str, ...]:
    names = [cell.strip() for cell in row.cells]
    while names and not names[-1]:
        names.pop()
    seen: dict[str, int] = {}
    for at, name in enumerate(names):
        key = name.casefold()
        if name and key in seen:
            one, two = cell_name(seen[key], row.number), cell_name(at, row.number)
            raise NotATable(f"The heading “{name}” stands in {one} and in {two}; keep one.")
        seen[key] = at
    return tuple(names)


def _fitted(row: SheetRow, width: int) -> SheetRow:
    beyond = [at for at, cell in enumerate(row.cells[width:], start=width) if cell]
    if beyond:
        name = cell_name(beyond[0], row.number)
        raise NotATable(f"Cell {name} stands under no heading; give its column one, or empty it.")
    cells = (*row.cells[:width], *("",) * (width - len(row.cells)))
    return SheetRow(row.number, cells)


# --- CSV ------------------------------------------------------------------------------


def _text_rows(content: bytes) -> tuple[Iterator[SheetRow], tuple[str, ...]]:
    text, notes = _decoded(content)
    if "\0" in text:
        raise NotATable("This is no table: it holds signs no text has. Save it as CSV or XLSX.")
    first = text.split("\n", 1)[0]
    separator = max(_SEPARATORS, key=first.count)
    if separator != ",":
        notes = (*notes, f"Its cells are parted by {_NAMES[separator]}.")
    return _csv_rows(text, separator), notes


_NAMES = {";": "semicolons", "\t": "tabs"}


def _decoded(content: bytes) -> tuple[str, tuple[str, ...]]:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        try:
            return content.decode("utf-16"), ("It is written in UTF-16.",)
        except UnicodeDecodeError as error:
            raise NotATable("The text breaks off; save it again as CSV (UTF-8).") from error
    try:
        return content.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        note = (
            "It is not UTF-8, so it was read as Windows-1252: look at letters with accents and at "
            "signs such as Ø."
        )
        return content.decode("cp1252", errors="replace"), (note,)


def _csv_rows(text: str, separator: str) -> Iterator[SheetRow]:
    csv.field_size_limit(LONGEST_CELL * 4)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        for number, cells in enumerate(reader, start=1):
            yield SheetRow(number, tuple(cell.strip() for cell in cells))
    except csv.Error as error:
        raise NotATable(
            f"Row {reader.line_num} cannot be read: check its quotes, or save it anew as CSV."
        ) from error


# --- Workbooks ------------------------------------------------------------------------


def _workbook_rows(content: bytes) -> Iterator[SheetRow]:
    _require_harmless(content)
    from openpyxl import load_workbook  # here: a process that reads no workbook starts sooner

    try:
        book = load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
        sheet = book.worksheets[0]
        sheet.reset_dimensions()  # what a file says of its own size is not trusted
        rows = sheet.iter_rows(max_col=MOST_COLUMNS + 1)
        yield from (_row(number, cells) for number, cells in enumerate(rows, start=1))
    except NotATable:
        raise
    except Exception as error:  # whatever a broken workbook makes its reader raise
        raise NotATable("This workbook cannot be read; save it anew as XLSX or as CSV.") from error


def _require_harmless(content: bytes) -> None:
    """Look at a packed file before anything of it is inflated."""
    try:
        archive = zipfile.ZipFile(io.BytesIO(content))
    except zipfile.BadZipFile as error:
        raise NotATable("The file is damaged; send it again.") from error
    parts = archive.infolist()
    if "xl/workbook.xml" not in archive.namelist():
        raise NotATable("This is a packed file, but no XLSX workbook; send XLSX or CSV.")
    if any(part.flag_bits & _ENCRYPTED for part in parts):
        raise NotATable("This workbook is locked with a password; save it without one.")
    too_dense = any(
        part.file_size > 1_000_000 and part.file_size > _MOST_TIMES * max(part.compress_size, 1)
        for part in parts
    )
    if len(parts) > MOST_PARTS or sum(p.file_size for p in parts) > MOST_INFLATED or too_dense:
        raise NotATable("Unpacked this workbook is far larger than it looks; send it as CSV.")
    for part in parts:
        if part.filename.endswith((".xml", ".rels")):
            _require_plain(archive, part)


def _require_plain(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> None:
    """No definitions of its own, no merged cells; read piece by piece."""
    is_sheet = part.filename.startswith("xl/worksheets/")
    last = b""
    try:
        with archive.open(part) as stream:
            while piece := stream.read(1 << 20):
                both = last + piece
                if b"<!DOCTYPE" in both or b"<!ENTITY" in both:
                    raise NotATable("This workbook defines things of its own; send it as CSV.")
                if is_sheet and b"<mergeCell " in both:
                    raise NotATable("Some cells are merged; part them, so each row has its own.")
                last = piece[-16:]
    except (zipfile.BadZipFile, EOFError, OSError, NotImplementedError) as error:
        raise NotATable("The file is damaged; send it again.") from error


def _row(number: int, cells: Sequence[Any]) -> SheetRow:
    texts = [_text(cell.value, cell, at, number) for at, cell in enumerate(cells)]
    while texts and not texts[-1]:
        texts.pop()
    return SheetRow(number, tuple(texts))


def _text(value: Any, cell: Any, column: int, row: int) -> str:
    if value is None:
        return ""
    if cell.data_type == "f":
        name = cell_name(column, row)
        raise NotATable(f"Cell {name} holds a formula; copy the column and paste its values.")
    if isinstance(value, datetime | date | time):
        name = cell_name(column, row)
        raise NotATable(f"Cell {name} is formatted as a date; format the column as text.")
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return str(value).strip()
