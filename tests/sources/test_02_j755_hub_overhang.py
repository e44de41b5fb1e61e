"""Outside check 2: the hub reaches a quarter of an inch past the small end of the taper.

Source: SAE J755 (MAY2015), Table 1: shaft small end less hub small end is 1/64 in on diameter,
on a 1:16 taper 1/4 in of length. With three printed places: 1-1/4 in gives (1.03125 - 1.016) x 16
= 0.244, and all nine lie within 0.24 to 0.256. Our nut stands on it: n = G - 1/4.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from catalog.domain.ends import HUB_OVERHANG, shaft_end
from catalog.domain.lengths import NM_PER_INCH, inches
from catalog.domain.standards import subjects, value

SIZES = subjects("j755_shaft_ends")


def _overhang(size: str) -> Fraction:
    """In inches, from our end's diameter and taper and the table's hub bore."""
    end = shaft_end("inch", inches(size.removesuffix(" in").replace("-", " ")))
    assert end is not None
    small = Fraction(end.diameter.nm - Fraction(end.taper_length.nm, 16)) / NM_PER_INCH
    return (small - Fraction(value("j755_shaft_ends", size, "hub_bore_small_end_dia").value)) * 16


def test_the_worked_size() -> None:
    assert value("j755_shaft_ends", "1-1/4 in", "hub_bore_small_end_dia").value == "1.016"
    assert _overhang("1-1/4 in") == Fraction("0.244")


@pytest.mark.parametrize("size", SIZES)
def test_every_hub_overhangs_by_what_we_take_off(size: str) -> None:
    assert Fraction("0.24") <= _overhang(size) <= Fraction("0.256")
    assert abs(_overhang(size) - Fraction(HUB_OVERHANG.nm, NM_PER_INCH)) <= Fraction("0.010")
    assert value("j755_shaft_ends", size, "hub_bore_small_end_dia").confidence == "seen"


@pytest.mark.parametrize("size", SIZES)
def test_our_nut_stands_that_much_nearer_than_the_thread_is_long(size: str) -> None:
    end = shaft_end("inch", inches(size.removesuffix(" in").replace("-", " ")))
    assert end is not None
    assert end.thread_length == value("j755_shaft_ends", size, "thread_length_G").length
    assert end.nut_standoff == end.thread_length - inches("1/4")
