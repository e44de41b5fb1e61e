"""SAE J755 (MAY2015) Marine Propeller-Shaft Ends and Hubs, Table 1: threads, nose and keyway.

Thread length G was read in a table at 1, 1-1/8 and 1-1/4 in; elsewhere G, and everywhere the nut
thicknesses T and W and the extension H, are from memory: verify before metal is cut.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import inches
from catalog.domain.standards import StandardValue, subjects, value

each_size = pytest.mark.parametrize("size", subjects("j755_shaft_ends"))


def _get(size: str, quantity: str) -> StandardValue:
    return value("j755_shaft_ends", size, quantity)


def _inch(size: str, quantity: str) -> Fraction:
    return Fraction(_get(size, quantity).value)


@each_size
def test_the_thread_holds_nut_jam_nut_and_overhang(size: str) -> None:
    """G = T + W + 1/4: a check of one column of the table against three others."""
    nuts = _inch(size, "plain_nut_thickness_T") + _inch(size, "jam_nut_thickness_W")
    assert _inch(size, "thread_length_G") == nuts + Fraction(1, 4)


@each_size
def test_a_thread_length_from_memory_says_so_to_the_cut_sheet(size: str) -> None:
    seen = _get(size, "thread_length_G").confidence == "seen"
    assert seen == (size in ("1 in", "1-1/8 in", "1-1/4 in"))
    end = shaft_end("inch", inches(size.removesuffix(" in").replace("-", " ")))
    assert end
    assert end.confidence == "memory", "the nose is from memory at every size"


@each_size
def test_our_nose_is_what_the_table_leaves_past_the_threads(size: str) -> None:
    end = shaft_end("inch", inches(size.removesuffix(" in").replace("-", " ")))
    assert end
    past = _get(size, "extension_beyond_taper_H").length - _get(size, "thread_length_G").length
    assert end.nose == past


@each_size
def test_the_keyway_is_half_as_deep_as_wide_and_a_little(size: str) -> None:
    width = _inch(size, "keyway_width_max")
    assert width - _inch(size, "keyway_width_min") == Fraction("0.001")
    for limit in ("keyway_side_depth_min", "keyway_side_depth_max"):
        assert 0 <= _inch(size, limit) - width / 2 <= Fraction("0.0045")
