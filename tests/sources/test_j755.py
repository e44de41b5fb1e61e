"""SAE J755 (MAY2015) Marine Propeller-Shaft Ends and Hubs, Table 1: its own identities.

The values were read in one sheet, the identities follow from the geometry of the 1:16 taper, so
a value copied wrongly breaks one of them.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import inches
from catalog.domain.standards import StandardValue, subjects, value

SIZES = subjects("j755_shaft_ends")
each_size = pytest.mark.parametrize("size", SIZES)


def _get(size: str, quantity: str) -> StandardValue:
    return value("j755_shaft_ends", size, quantity)


def _inch(size: str, quantity: str) -> Fraction:
    return Fraction(_get(size, quantity).value)


def _diameter(size: str) -> Fraction:
    return Fraction(inches(size.removesuffix(" in").replace("-", " ")).nm, 25_400_000)


def test_there_are_nine_sizes() -> None:
    assert len(SIZES) == 9
    assert (SIZES[0], SIZES[-1]) == ("3/4 in", "2 in")


@each_size
def test_the_small_end_is_the_diameter_less_a_sixteenth_of_the_taper(size: str) -> None:
    small = _diameter(size) - _inch(size, "taper_length_C") / 16
    assert _inch(size, "small_end_dia_min") <= small <= _inch(size, "small_end_dia_max")


def test_the_worked_size() -> None:
    """1-1/4 in: 1.25 - 3.5/16 = 1.03125, within 1.030 to 1.032."""
    assert _diameter("1-1/4 in") - _inch("1-1/4 in", "taper_length_C") / 16 == Fraction("1.03125")


@each_size
def test_the_hub_overhangs_the_taper_by_a_quarter(size: str) -> None:
    small = _diameter(size) - _inch(size, "taper_length_C") / 16
    overhang = (small - _inch(size, "hub_bore_small_end_dia")) * 16
    assert Fraction("0.24") <= overhang <= Fraction("0.256")
    assert _get(size, "hub_bore_small_end_dia").confidence == "seen"


@each_size
def test_the_thread_holds_nut_jam_nut_and_overhang(size: str) -> None:
    """G = T + W + 1/4; G was read in a table at 1, 1-1/8 and 1-1/4 in only."""
    nuts = _inch(size, "plain_nut_thickness_T") + _inch(size, "jam_nut_thickness_W")
    assert _inch(size, "thread_length_G") == nuts + Fraction(1, 4)
    seen = _get(size, "thread_length_G").confidence == "seen"
    assert seen == (size in ("1 in", "1-1/8 in", "1-1/4 in"))


@each_size
def test_our_end_is_the_tables(size: str) -> None:
    end = shaft_end("inch", inches(size.removesuffix(" in").replace("-", " ")))
    assert end
    assert end.nut_standoff == _get(size, "thread_length_G").length - inches("1/4")
    nose = _get(size, "extension_beyond_taper_H").length - _get(size, "thread_length_G").length
    assert end.nose == nose
    assert end.small_end_min < end.small_end < end.small_end_max


@each_size
def test_the_keyway_is_half_as_deep_as_wide_and_a_little(size: str) -> None:
    width = _inch(size, "keyway_width_max")
    assert width - _inch(size, "keyway_width_min") == Fraction("0.001")
    for limit in ("keyway_side_depth_min", "keyway_side_depth_max"):
        assert 0 <= _inch(size, limit) - width / 2 <= Fraction("0.0045")
