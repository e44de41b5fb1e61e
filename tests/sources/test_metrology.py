"""The statistics we lean on, against JCGM 100:2008 and JCGM 106:2012 (data/metrology_vectors.csv).

The normal distribution used at run time is the standard library's; `scipy.stats` is the judge.
"""

from __future__ import annotations

from math import hypot, sqrt
from statistics import NormalDist

import pytest
from scipy import stats

from tests.sources.vectors import rows

BY_ID = {row["id"]: row for row in rows("metrology_vectors")}


def test_m6_m7_the_spread_of_a_scale_mark() -> None:
    """Half a step either side: 0.2887 rectangular, 0.2041 triangular (JCGM 100 F.2.2.1, 4.3.9)."""
    assert stats.uniform(-0.5, 1).std() == pytest.approx(0.5 / sqrt(3), abs=1e-12)
    assert 0.5 / sqrt(3) == pytest.approx(0.288675, abs=1e-6)
    assert stats.triang(0.5, -0.5, 1).std() == pytest.approx(0.5 / sqrt(6), abs=1e-12)
    assert 0.5 / sqrt(6) == pytest.approx(0.204124, abs=1e-6)


def test_m17_the_quantiles_of_the_normal_distribution() -> None:
    """JCGM 106:2012 7.3 Table 1."""
    for share, z in zip(
        (0.80, 0.90, 0.95, 0.99, 0.999), BY_ID["M17"]["expected"].split(), strict=True
    ):
        ours = NormalDist().inv_cdf(share)
        assert ours == pytest.approx(stats.norm.ppf(share), abs=1e-9)
        assert ours == pytest.approx(float(z), abs=0.0051)


def test_m18_a_one_sided_conformance_probability() -> None:
    """y = -5.47, u = 0.05, limit -5.40: Phi(1.40) = 0.92 (JCGM 106:2012 example)."""
    assert NormalDist(-5.47, 0.05).cdf(-5.40) == pytest.approx(0.91924, abs=0.00001)


def test_m14_a_probability_of_not_conforming() -> None:
    """JCGM 106:2012 9.5.4: gamma(4, 1/4) beyond 2 is 0.0424."""
    assert stats.gamma(4, scale=0.25).sf(2) == pytest.approx(0.042380, abs=1e-6)


def test_m23_the_boundary_of_e_n_is_one_after_rounding() -> None:
    """ISO/IEC 17043: floats give 1.0000000000000142, so compare after rounding."""
    e_n = abs(10.05 - 10.00) / hypot(0.04, 0.03)
    assert e_n != 1
    assert round(e_n, 9) == 1
