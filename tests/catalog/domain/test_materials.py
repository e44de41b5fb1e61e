"""Alloys by number: the table's values, the same metal under its other name, no others."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from catalog.domain.materials import material

KNOWN = {
    "S20910": 70_000,
    "S17400": 70_000,
    "S31600": 20_000,
    "1.4401": 20_000,
    "1.4462": 43_000,
    "N05500": 67_000,
    "N04400": 40_000,
    "C46400": 20_000,
    "S30400": 20_000,
}


@pytest.mark.parametrize("alloy", KNOWN)
def test_what_we_know_of_an_alloy(alloy: str) -> None:
    metal = material(alloy)
    assert metal
    assert metal.torsional_yield_psi == KNOWN[alloy]
    assert 15_000_000 < metal.modulus_psi < 30_000_000
    assert Decimal("0.28") < metal.density_lb_in3 < Decimal("0.32")
    assert metal.source
    assert metal.confidence in ("seen", "memory")


def test_one_metal_under_two_numbers() -> None:
    other, same = material("1.4401"), material("S31600")
    assert other
    assert replace(other, alloy="S31600") == same


def test_a_recalled_alloy_says_so() -> None:
    metal = material("1.4462")
    assert metal
    assert metal.confidence == "memory"
    assert "common practice, no source" in metal.source


def test_an_alloy_we_do_not_know() -> None:
    assert material("unobtainium") is None
