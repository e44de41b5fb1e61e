"""The catalogue as a table: every fault by row and column, and nothing a spreadsheet runs."""

from __future__ import annotations

import csv
import io
from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import inches, mm
from catalog.domain.stock import Kind, StockPart
from catalog.tables import COLUMNS, TableErrors, read_parts, write_parts

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
BAR = {
    "code": "B-1",
    "kind": "bar",
    "system": "inch",
    "diameter": "1",
    "description": "round bar",
    "price": "3.60",
    "per": "in",
    "stock_length": "144 in",
    "alloy": "S20910",
}


def a_row(**cells: str) -> dict[str, str]:
    return {**dict.fromkeys(COLUMNS, ""), **BAR, **cells}


def faults(*rows: dict[str, str]) -> list[tuple[int, str, str]]:
    with pytest.raises(TableErrors) as caught:
        read_parts(rows)
    return [(error.row, error.column, error.message) for error in caught.value.errors]


def test_the_demo_catalogue() -> None:
    parts = read_parts(DEMO)
    assert len(parts) == 107
    by_code = {part.code: part for part in parts}
    assert by_code["CP40C-1125"].bolt_circle == inches("3 1/4")
    assert by_code["BR-25M"].shell_od == mm(40)
    assert by_code["SV-TUBE"].on_hand is None


def test_out_and_in_again_is_the_same() -> None:
    parts = read_parts(DEMO)
    assert read_parts(write_parts(parts)) == parts


@given(st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1))
def test_any_words_come_back_and_none_is_a_formula(words: str) -> None:
    tidy = words.strip()[:200].strip()
    part = StockPart("A", Kind.HARDWARE, "both", description=tidy or "x")
    text = write_parts([part])
    cell = next(csv.DictReader(io.StringIO(text, newline="")))["description"]
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
    if part.description.isprintable():
        assert read_parts(text) == [part]


@pytest.mark.parametrize("words", ["=1+1", "+1", "-1", "@A1", "'=1", "''", "it's"])
def test_a_formula_goes_out_as_text(words: str) -> None:
    part = StockPart("A", Kind.HARDWARE, "both", description=words)
    assert read_parts(write_parts([part]))[0].description == words


@pytest.mark.parametrize(
    ("column", "cell", "says"),
    [
        ("code", "", "letters"),
        ("code", "a b", "letters"),
        ("kind", "rod", "Write one of: bar, blank"),
        ("system", "", "Write one of: inch, mm, both"),
        ("diameter", "fat", "write it like"),
        ("diameter", "", "A bar needs it"),
        ("diameter", "0", "above zero"),
        ("diameter", "1,125", "two ways"),
        ("description", "", "fill it in"),
        ("description", "x" * 201, "200"),
        ("description", "a\x07", "plain characters"),
        ("price", "", "3.60"),
        ("price", "-1", "3.60"),
        ("price", "1e3", "3.60"),
        ("price", "NaN", "3.60"),
        ("price", "1.00001", "four places"),
        ("per", "foot", "Write one of: in, mm"),
        ("on_hand", "-1", "whole number"),
        ("on_hand", "1.5", "whole number"),
        ("on_hand", "٣", "whole number"),
        ("direction", "up", "Write one of: aft, forward, nothing"),
        ("alloy", "", "A bar needs it"),
    ],
)
def test_a_fault_is_named_by_row_and_column(column: str, cell: str, says: str) -> None:
    found = faults(a_row(), a_row(code="B-2") | {column: cell})
    assert [(row, where) for row, where, _message in found] == [(3, column)]
    assert says in found[0][2]


def test_a_fraction_in_a_metric_row_must_say_inches() -> None:
    assert faults(a_row(system="mm", diameter="7/8"))[0][1] == "diameter"
    assert read_parts([a_row(system="mm", diameter="7/8 in")])[0].diameter == inches("7/8")


def test_a_code_stands_once() -> None:
    found = faults(a_row(), a_row())
    assert found == [(3, "code", "B-1 stands in row 2 already; keep one of the two.")]


def test_all_faults_at_once() -> None:
    assert len(faults(a_row(price="x", per="y"), a_row(code="B-2", kind="z"))) == 3


@pytest.mark.parametrize(
    ("kind", "needed"),
    [("coupling", {"flange_od", "bore", "direction"}), ("bearing", {"bore", "shell_od", "length"})],
)
def test_what_a_kind_needs(kind: str, needed: set[str]) -> None:
    assert {column for _row, column, _message in faults(a_row(kind=kind))} == needed


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n\n",
        "code,kind\nA,bar\n",
        DEMO.replace("alloy", "metal", 1),
        DEMO.replace("alloy", "bore", 1),
        DEMO + "one,two\n",
        DEMO + 'A,"never closed\n',
    ],
)
def test_what_is_no_such_table_is_refused(text: str) -> None:
    with pytest.raises(TableErrors) as caught:
        read_parts(text)
    assert caught.value.errors


def test_a_spreadsheets_habits_do_no_harm() -> None:
    """A mark at the start, DOS line ends, empty rows, capitals in the heading."""
    text = "\ufeff" + DEMO.replace("\n", "\r\n").replace("code,", "Code,", 1)
    assert read_parts(text + ",,,\r\n\r\n") == read_parts(DEMO)


def test_rows_are_counted_as_a_spreadsheet_counts_them() -> None:
    heading, bar, *_rest = DEMO.splitlines()
    with pytest.raises(TableErrors) as caught:
        read_parts("\n".join([heading, "", ",,,", bar, "", bar]))
    assert str(caught.value).startswith("row 6, code: BH-0875 stands in row 4 already")
