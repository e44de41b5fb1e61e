"""Files as they really come, and as nobody should send them: rows, or one clear sentence."""

from __future__ import annotations

import io
import struct
import tracemalloc
import zipfile
from datetime import date

import openpyxl
import pytest

from catalog.spreadsheet.reading import MOST_BYTES, NotATable, cell_name, read_table
from catalog.spreadsheet.writing import write_csv, write_xlsx


def a_book(*rows: tuple[object, ...]) -> bytes:
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    return saved(book)


def saved(book: openpyxl.Workbook) -> bytes:
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def repacked(content: bytes, **parts: bytes) -> bytes:
    """The workbook with some of its parts replaced ("sheet": the first sheet)."""
    names = {"sheet": "xl/worksheets/sheet1.xml", "strings": "xl/sharedStrings.xml"}
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(out, "w", 8) as new:
        for name in old.namelist():
            other = next((parts[k] for k, n in names.items() if n == name and k in parts), None)
            new.writestr(name, old.read(name) if other is None else other)
    return out.getvalue()


@pytest.mark.parametrize(
    ("content", "noted"),
    [
        ("code,Größe\nA,Ø 1".encode(), ""),
        ("\ufeffcode,Größe\r\nA,Ø 1\r\n".encode(), ""),
        ("code\tGröße\nA\tØ 1\n".encode("utf-16"), "UTF-16"),
        ("code;Größe\n\nA;Ø 1\n".encode("cp1252"), "Windows-1252"),
    ],
)
def test_a_text_is_read_as_it_is_written_and_what_is_assumed_is_said(
    content: bytes, noted: str
) -> None:
    table = read_table(content)
    assert table.columns == ("code", "Größe")
    assert table.rows[0].cells == ("A", "Ø 1")
    assert noted in " ".join(table.notes)


def test_rows_keep_the_numbers_of_the_spreadsheet() -> None:
    assert [row.number for row in read_table(b"code\n\nA\n\n\nB\n").rows] == [3, 6]
    assert [row.number for row in read_table(a_book(("code",), (), ("A",))).rows] == [3]
    assert cell_name(2, 14) == "C14"


def test_numbers_keep_their_places_and_nothing_is_rounded() -> None:
    table = read_table(a_book(("a", "b", "c", "d"), (3, 3.6, 0.3, "007")))
    assert table.rows[0].cells == ("3", "3.6", "0.3", "007")


def test_what_we_write_we_read() -> None:
    rows = [["=1+1", "Ø 7/8 in"], ["-2", ""]]
    text = "".join(write_csv(["one", "two"], rows)).encode()
    book = write_xlsx("One: two", ["one", "two"], rows)
    assert read_table(text).rows == read_table(book).rows
    assert read_table(text).rows[0].cells == ("'=1+1", "Ø 7/8 in")


FORMULA = a_book(("code", "price"), ("A", "=1+1"))
MERGED_BOOK = openpyxl.Workbook()
MERGED_BOOK.active.append(("code", "price"))
MERGED_BOOK.active.merge_cells("A2:B2")
BOMB = (
    b'<?xml version="1.0"?><!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
    b"<worksheet>&b;</worksheet>"
)
LOCKED = bytearray(a_book(("code",)))
for at in [i for i in range(len(LOCKED)) if LOCKED[i : i + 4] in (b"PK\x01\x02", b"PK\x03\x04")]:
    LOCKED[at + (8 if LOCKED[at + 2] == 1 else 6)] |= 1


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "empty"),
        (b"  \n", "empty"),
        (b"x" * (MOST_BYTES + 1), "too large"),
        (b"\xd0\xcf\x11\xe0" + b"x" * 99, "old or a locked workbook"),
        (b"PK\x03\x04 nonsense", "damaged"),
        (b"%PDF-1.7\0\0", "no table"),
        (b"code,code\nA,B\n", "stands in A1 and in B1"),
        (b"code\nA,B\n", "Cell B2 stands under no heading"),
        (b'code\n"A\n', "cannot be read"),
        (b"code\n" + b"x" * 9000, "cannot be read"),
        ((",".join(map(str, range(5000))) + "\n").encode(), "5000 columns"),
        (a_book(tuple(range(300))), "columns"),
        (FORMULA, "Cell B2 holds a formula"),
        (a_book(("code",), (date(2026, 4, 6),)), "Cell A2 is formatted as a date"),
        (saved(MERGED_BOOK), "merged"),
        (repacked(FORMULA, sheet=BOMB), "defines things of its own"),
        (repacked(FORMULA, sheet=b"<worksheet><broken"), "cannot be read"),
        (bytes(LOCKED), "password"),
        (repacked(FORMULA, sheet=b"<worksheet>" + b"0" * 40_000_000), "far larger"),
    ],
)
def test_what_cannot_be_taken_is_said_in_a_sentence(content: bytes, said: str) -> None:
    with pytest.raises(NotATable, match=said):
        read_table(content)


def test_a_gigabyte_of_nothing_costs_no_memory() -> None:
    """The part says it is 1 GB; nothing of it is inflated."""
    content = repacked(FORMULA, sheet=b"0" * 30_000_000)
    packed = bytearray(content)
    at = packed.index(b"PK\x01\x02", packed.index(b"sheet1.xml"))
    while b"sheet1.xml" not in packed[at : at + 80]:
        at = packed.index(b"PK\x01\x02", at + 4)
    struct.pack_into("<I", packed, at + 24, 1_000_000_000)
    tracemalloc.start()
    with pytest.raises(NotATable, match="far larger"):
        read_table(bytes(packed))
    _now, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 5_000_000
