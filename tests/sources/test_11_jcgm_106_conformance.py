"""Outside check 11: the ball bearings of JCGM 106, with our fit probability as the measurement.

Source: JCGM 106:2012, example 9.5.4: radial error of motion gamma(4, 1/4) µm, limit 2 µm,
u = 0.25 µm: 4.2 % do not conform (0.04238), the global consumer's risk is 0.8 % (0.00802), and an
acceptance limit of 1.67 µm (1.672) brings it to 0.1 %. The reference library `suncal` is not
installed: the prior is `scipy.stats.gamma` and the integral `scipy.integrate`; its published
figures stand as expected values. `fit_probability(true value, u, limits)` is the chance that a
measurement of that true value is accepted, which is the factor the standard integrates.
Vectors M14, M15, M16, M22.
"""

from __future__ import annotations

import pytest
from scipy import stats
from scipy.integrate import quad

from intake.domain.fit import fit_probability
from tests.sources.vectors import limits_of, metrology

MICROMETRE = 1000  # nm
BALLS = stats.gamma(4, scale=0.25)


def _consumers_risk(acceptance_nm: int) -> float:
    """Not conforming and accepted all the same: the integral over true values beyond 2 µm."""
    accepted = limits_of(most=acceptance_nm)

    def both(true: float) -> float:
        chance = fit_probability(true * MICROMETRE, 0.25 * MICROMETRE, accepted)
        return float(BALLS.pdf(true)) * chance

    return float(quad(both, 2, 6, limit=200)[0])


def test_m14_how_many_do_not_conform() -> None:
    """A measurement of one nanometre leaves only those that are really inside."""
    inside = limits_of(most=2 * MICROMETRE)

    def conforming(true: float) -> float:
        return float(BALLS.pdf(true)) * fit_probability(true * MICROMETRE, 1, inside)

    beyond = 1 - quad(conforming, 0, 6, points=[1.99, 2, 2.01], limit=200)[0]
    assert beyond == pytest.approx(0.042380, abs=2e-6)
    assert beyond == pytest.approx(BALLS.sf(2), abs=2e-6)
    assert round(beyond, 4) == float(metrology("M14")["expected"].split()[0])


def test_m15_the_global_consumers_risk() -> None:
    assert _consumers_risk(2 * MICROMETRE) == pytest.approx(0.0080191, abs=1e-6)


def test_m16_the_acceptance_limit_for_one_in_a_thousand() -> None:
    """2 - 0.32817 µm: the last whole nanometre at which the risk is not more than 0.1 %."""
    assert _consumers_risk(1671) <= 0.001 < _consumers_risk(1672)
    assert round(2 - 0.32817, 3) == 1.672


def test_m22_a_false_accept_of_a_normal_process() -> None:
    """Process N(0, 1), test N(0, 1/4), limits ±2: 0.8 % (Deaver, as quoted with JCGM 106)."""
    scale = 1_000_000
    accepted = limits_of(-2 * scale, 2 * scale)

    def both(true: float) -> float:
        chance = fit_probability(true * scale, scale / 4, accepted)
        return float(stats.norm.pdf(true)) * chance

    risk = 2 * quad(both, 2, 9, limit=200)[0]
    assert round(risk, 3) == float(metrology("M22")["expected"])
