"""UNC threads by the formulas of ASME B1.1, nuts by ASME B18.2.2.

Pitch diameter = D - 0.649519/n; tensile stress area = pi/4 · (D - 0.9743/n)².
"""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from catalog.domain.standards import subjects, value

NUTS = "unc_threads_b18_2_2_nuts"
ENDS = "j755_shaft_ends"


def _get(thread: str, quantity: str) -> float:
    return float(value(NUTS, thread, quantity).value)


@pytest.mark.parametrize("thread", subjects(NUTS))
def test_a_thread_by_its_formulas(thread: str) -> None:
    d, n = _get(thread, "major_diameter"), _get(thread, "threads_per_inch")
    assert _get(thread, "pitch_diameter") == pytest.approx(d - 0.649519 / n, abs=0.00006)
    area = pi / 4 * (d - 0.9743 / n) ** 2
    assert _get(thread, "tensile_stress_area") == pytest.approx(area, abs=0.00006)


@pytest.mark.parametrize("thread", subjects(NUTS))
def test_the_name_says_size_and_pitch(thread: str) -> None:
    name, pitch = thread.removesuffix(" UNC").rsplit("-", 1)
    size = sum(Fraction(word) for word in name.split("-"))
    assert size == Fraction(value(NUTS, thread, "major_diameter").value)
    assert pitch == value(NUTS, thread, "threads_per_inch").value


@pytest.mark.parametrize("size", subjects(ENDS))
def test_every_shaft_end_has_a_thread_of_the_unc_table(size: str) -> None:
    thread = value(ENDS, size, "thread_nominal").value
    pitch = value(ENDS, size, "thread_tpi").value
    assert thread in subjects(NUTS)
    assert value(NUTS, thread, "threads_per_inch").value == pitch


@pytest.mark.parametrize("size", subjects(ENDS))
def test_both_nuts_leave_some_thread_showing(size: str) -> None:
    """From the nut face (G - 1/4), nut and jam nut of B18.2.2 leave 1/16 to 1/4 in."""
    thread = value(ENDS, size, "thread_nominal").value
    nuts = _get(thread, "hex_nut_height") + _get(thread, "jam_nut_height")
    showing = float(value(ENDS, size, "thread_length_G").value) - 0.25 - nuts
    assert 0.0615 <= showing <= 0.2505
