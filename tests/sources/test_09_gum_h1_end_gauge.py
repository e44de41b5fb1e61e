"""Outside check 9: the end gauge of the Guide, and our sum of readings.

Source: JCGM 100:2008 (GUM), example H.1: l = 50.000838 mm, u = 32 nm (31.66), 16 degrees of
freedom (16.75). The figures of the inputs are from memory; that they give the published result is
what the first tests show. The reference library `GTC` is not installed: `uncertainties`, which
carries the whole non-linear model, stands in its place. Vectors M1, M2, M4.

M3 (16 degrees of freedom) and M5 (99 % by Student's t) do not apply to code of ours: it keeps no
degrees of freedom, every u is Type B and taken as known. M3 is worked out below all the same, as a
check of the published figure against the Welch-Satterthwaite formula and no more.
"""

from __future__ import annotations

from collections.abc import Collection
from math import sqrt

import pytest
from uncertainties import ufloat

from intake.domain.estimate import Estimate
from tests.sources.vectors import metrology

L_S, D = 50_000_623, 215  # nm: the standard's length, the observed difference
U_S = 25.0
# Comparator: repeated observations, random and systematic effects (nm), with their freedom.
COMPARATOR = {"observed": (5.8, 24), "random": (3.9, 5), "systematic": (6.7, 8)}
ALPHA, MEAN_THETA = 11.5e-6, -0.1  # 1/°C; mean deviation of the bed from 20 °C
U_ALPHA_DIFFERENCE = 1e-6 / sqrt(3)
U_THETA_DIFFERENCE = 0.05 / sqrt(3)


def _difference() -> Estimate:
    return Estimate(D, {name: u for name, (u, _) in COMPARATOR.items()})


def _end_gauge() -> Estimate:
    """l = l_s + d - l_s·(δα·θ + α·δθ), both differences expected to be nought."""
    expansion = Estimate(0, {"δα": L_S * MEAN_THETA * U_ALPHA_DIFFERENCE})
    temperature = Estimate(0, {"δθ": L_S * ALPHA * U_THETA_DIFFERENCE})
    gauge = Estimate(L_S, {"standard": U_S}).plus(_difference())
    return gauge.minus(expansion).minus(temperature)


def test_m1_m2_length_and_uncertainty_of_the_end_gauge() -> None:
    assert _end_gauge().nm == round(float(metrology("M2")["expected"]) * 1_000_000) == 50_000_838
    assert round(_end_gauge().u_nm) == int(metrology("M1")["expected"]) == 32
    assert _end_gauge().u_nm == pytest.approx(31.66, abs=0.01)


def test_m4_uncertainty_of_the_observed_difference() -> None:
    assert _difference().u_nm == pytest.approx(9.682, abs=0.0005)
    assert round(_difference().u_nm, 1) == float(metrology("M4")["expected"].split(",")[0])


def test_m1_m2_the_reference_library_says_the_same_of_the_whole_model() -> None:
    standard = ufloat(L_S, U_S)
    difference = D + sum(ufloat(0, u) for u, _ in COMPARATOR.values())
    theta = ufloat(MEAN_THETA, 0.41)
    alpha = ufloat(ALPHA, 2e-6 / sqrt(3))
    d_alpha, d_theta = ufloat(0, U_ALPHA_DIFFERENCE), ufloat(0, U_THETA_DIFFERENCE)
    theirs = standard + difference - standard * (d_alpha * theta + alpha * d_theta)
    assert theirs.n == _end_gauge().nm
    assert theirs.s == pytest.approx(_end_gauge().u_nm, rel=1e-9)


def test_the_published_freedom_by_its_formula() -> None:
    """M3: a check of a published figure against Welch-Satterthwaite; freedoms 18, 50, 2 of H.1."""
    freedom_of_d = _freedom(COMPARATOR.values())
    assert freedom_of_d == pytest.approx(25.447, abs=0.001)
    moves = _end_gauge().moves
    parts = [(U_S, 18), (_difference().u_nm, freedom_of_d), (moves["δα"], 50), (moves["δθ"], 2)]
    assert _freedom(parts) == pytest.approx(16.75, abs=0.01)
    assert int(_freedom(parts)) == int(metrology("M3")["expected"].split()[0])


def _freedom(parts: Collection[tuple[float, float]]) -> float:
    total = sum(u * u for u, _ in parts)
    return total**2 / sum(u**4 / freedom for u, freedom in parts)
