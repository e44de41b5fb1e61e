"""Outside check 1: the small end of nine propeller shaft ends.

Source: SAE J755 (MAY2015), Marine Propeller-Shaft Ends and Hubs, Table 1. At 1-1/4 in the small
end is 1.25 - 3.5/16 = 1.03125 in, inside the printed 1.030 to 1.032. Taper lengths and limits were
read in one sheet; the 1:16 taper is the standard's, so a value copied wrongly breaks the sum.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from catalog.domain.ends import ShaftEnd, shaft_end
from catalog.domain.lengths import NM_PER_INCH, Length, inches
from catalog.domain.standards import subjects

SIZES = ("3/4", "7/8", "1", "1 1/8", "1 1/4", "1 3/8", "1 1/2", "1 3/4", "2")
each_size = pytest.mark.parametrize("size", SIZES)


def _end(size: str) -> ShaftEnd:
    end = shaft_end("inch", inches(size))
    assert end is not None
    return end


def _computed(end: ShaftEnd) -> Fraction:
    """D - C/16 in inches, exact."""
    return Fraction(end.diameter.nm - Fraction(end.taper_length.nm, 16)) / NM_PER_INCH


def _in_inches(length: Length) -> Fraction:
    return Fraction(length.nm, NM_PER_INCH)


def test_the_nine_sizes_are_ours_and_no_other() -> None:
    printed = [size.removesuffix(" in").replace("-", " ") for size in subjects("j755_shaft_ends")]
    assert tuple(printed) == SIZES


def test_the_worked_size() -> None:
    end = _end("1 1/4")
    assert _in_inches(end.taper_length) == Fraction("3.5")
    assert (end.small_end_min, end.small_end_max) == (inches("1.030"), inches("1.032"))
    assert _computed(end) == Fraction("1.03125")


@each_size
def test_the_small_end_is_the_diameter_less_a_sixteenth_of_the_taper(size: str) -> None:
    end = _end(size)
    assert _in_inches(end.small_end_min) <= _computed(end) <= _in_inches(end.small_end_max)


@each_size
def test_the_limits_are_two_thousandths_apart_and_we_cut_to_their_middle(size: str) -> None:
    """Apart by 0.002 in; two of the nine are printed with a fourth place."""
    end = _end(size)
    assert Fraction("0.0015") <= _in_inches(end.small_end_max - end.small_end_min)
    assert _in_inches(end.small_end_max - end.small_end_min) <= Fraction("0.0025")
    assert abs(_in_inches(end.small_end) - _computed(end)) <= Fraction("0.001")
