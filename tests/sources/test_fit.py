"""Fit probability against `scipy.stats.norm`, and the table of what rounding costs.

The percentages are derived from the normal distribution (JCGM 106, two-sided conformance); the
band 1/2 to 1 in is *common practice, no source*.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from catalog.domain.lengths import inches
from intake.domain.diameter import INCH_SIZES, METRIC_SIZES, Size
from intake.domain.fit import fit_probability, gap_band
from intake.domain.limits import DEFAULT_LIMITS

INCH = inches(1).nm
ONE_INCH = gap_band(Size("inch", inches(1)), DEFAULT_LIMITS)

# u in inches: percent at 0, 1/32, 1/16, 1/8 in from the exact length.
COSTS = {
    0.055: (100.0, 100.0, 100.0, 98.8),
    0.080: (99.8, 99.7, 99.0, 94.1),
    0.100: (98.8, 98.3, 96.9, 89.4),
    0.120: (96.3, 95.6, 93.6, 85.0),
    0.150: (90.4, 89.7, 87.6, 79.1),
    0.180: (83.5, 82.9, 81.0, 73.8),
}
CELLS = [
    (u, off, cell) for u, row in COSTS.items() for off, cell in zip((0, 2, 4, 8), row, strict=True)
]


@given(
    gap=st.floats(-3, 5),
    u=st.floats(0.001, 2),
    size=st.sampled_from(INCH_SIZES + METRIC_SIZES),
)
def test_it_is_the_normal_distribution(gap: float, u: float, size: Size) -> None:
    band = gap_band(size, DEFAULT_LIMITS)
    low, high = band.least.nm / INCH, band.most.nm / INCH
    expected = norm.cdf(high, gap, u) - norm.cdf(low, gap, u)
    assert fit_probability(gap * INCH, u * INCH, band) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(("u", "sixty_fourths", "percent"), CELLS)
def test_what_rounding_costs(u: float, sixty_fourths: int, percent: float) -> None:
    gap = inches("3/4").nm + sixty_fourths * inches("1/64").nm
    assert 100 * fit_probability(gap, u * INCH, ONE_INCH) == pytest.approx(percent, abs=0.051)
