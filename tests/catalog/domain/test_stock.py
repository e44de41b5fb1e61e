"""The shelf: look-ups by code, kind and size, nearest first."""

from __future__ import annotations

from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.stock import Kind, Stock, StockPart
from catalog.tables import read_parts

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
STOCK = Stock(tuple(read_parts(DEMO)), 7)


def _codes(parts: tuple[StockPart, ...]) -> list[str]:
    return [part.code for part in parts]


def test_by_code_and_kind() -> None:
    assert STOCK.version == 7
    part = STOCK.part("BH-1000")
    assert part
    assert (part.kind, part.stock_length, part.on_hand) == (Kind.BAR, inches(144), 9)
    assert STOCK.part("nothing") is None
    assert len(STOCK.of_kind(Kind.SERVICE)) == len(STOCK.of_kind("service")) == 22
    assert sum(len(STOCK.of_kind(kind)) for kind in Kind) == len(STOCK.parts)


def test_bars_of_one_size_and_alloy() -> None:
    assert _codes(STOCK.bars("inch", inches(1), "S31600")) == ["BM-1000"]
    assert _codes(STOCK.bars("mm", mm(25), "1.4462")) == ["BD-025M"]
    assert STOCK.bars("mm", inches(1), "S20910") == ()


def test_couplings_near_a_flange() -> None:
    wanted = {"flange_od": inches(4), "bore": inches(1), "direction": "aft"}
    assert _codes(STOCK.couplings(**wanted)) == ["CP40C-1000"]  # type: ignore[arg-type]
    wide = STOCK.couplings(**wanted, within=inches("1/2"))  # type: ignore[arg-type]
    assert _codes(wide) == ["CP40C-1000", "CP35C-1000"]
    assert STOCK.couplings(**{**wanted, "direction": "up"}) == ()  # type: ignore[arg-type]


def test_couplings_of_one_system() -> None:
    wanted = {"flange_od": inches(4), "bore": mm(25), "direction": "aft", "within": mm(1)}
    assert _codes(STOCK.couplings(**wanted, system="mm")) == ["CP102M-25"]  # type: ignore[arg-type]
    assert STOCK.couplings(**wanted, system="inch") == ()  # type: ignore[arg-type]


def test_bearings_near_a_shell_and_length() -> None:
    bore, shell = inches("1 1/8"), inches("1 1/2")
    exact = STOCK.bearings(bore, shell, inches(2))
    assert _codes(exact) == ["BR-1125-1500-2"]
    near = STOCK.bearings(bore, shell, inches("2 1/8"), inches("1/8"), inches(1))
    assert _codes(near) == [
        *("BR-1125-1500-2", "BR-1125-1500-3", "BR-1125-1500-3N", "BR-1125-1375-2"),
    ]
    assert len(STOCK.bearings(bore, shell)) == 4


def test_the_edge_of_the_tolerance_is_inside_it() -> None:
    bore = inches(1)
    edge = STOCK.bearings(bore, inches("1 3/8"), inches(2), inches("1/8"))
    assert _codes(edge) == ["BR-1000-1250-2"]
    short = Length(inches("1/8").nm - 1)
    assert STOCK.bearings(bore, inches("1 3/8"), inches(2), short) == ()


def test_what_is_not_counted_is_at_hand() -> None:
    assert StockPart("A", Kind.SERVICE, "both").in_stock
    assert StockPart("A", Kind.BAR, "inch", on_hand=1).in_stock
    assert not StockPart("A", Kind.BAR, "inch", on_hand=0).in_stock


def test_nothing_in_stock() -> None:
    assert Stock().parts == Stock().of_kind(Kind.BAR) == ()
    assert Stock().bearings(inches(1), inches(2)) == ()


def test_facts_do_not_change() -> None:
    with pytest.raises(AttributeError):
        STOCK.version = 8  # type: ignore[misc]


@given(st.integers(0, 100), st.integers(0, 40))
def test_the_shelf_finds_what_looking_at_all_finds(size: int, tolerance: int) -> None:
    wanted, within = Length(size * inches("1/16").nm), Length(tolerance * inches("1/32").nm)
    found = STOCK.bearings(inches(1), wanted, within_od=within)
    every = [
        part.code
        for part in STOCK.of_kind(Kind.BEARING)
        if part.bore == inches(1) and part.shell_od and abs(part.shell_od - wanted) <= within
    ]
    assert sorted(_codes(found)) == sorted(every)
