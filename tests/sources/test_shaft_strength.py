"""Shaft diameter and mass: the worked examples of D. Gerr, Boat Mechanical Systems Handbook,
ch. 1 p. 10 (T1, T2), a published worked example (T3), the constant of a naval-architecture
school's journal no. 18 p. 15 (T4), the 2/3 rule of ABYC P-6 (T12), and the mass of a bar (T14).
"""

from __future__ import annotations

from decimal import Decimal
from math import pi

import pytest

from catalog.domain.lengths import Length, inches
from catalog.domain.materials import material
from catalog.domain.strength import required_diameter_inches, safety_factor
from catalog.domain.units import shaft_mass, to_watts
from tests.sources.vectors import sizing

HP_PER_KW = 1000 / float(to_watts(Decimal(1), "hp"))
PSI_PER_KPA = 1 / 6.894757293168


@pytest.mark.parametrize(
    ("vector", "hp", "factor", "psi", "rpm"),
    [("T1", 403, 3, 70_000, 1050), ("T3", 42, 3, 20_000, 2000)],
)
def test_diameter_in_inches(vector: str, hp: float, factor: float, psi: float, rpm: float) -> None:
    row = sizing(vector)
    found = required_diameter_inches(hp, factor, psi, rpm)
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
    assert found == pytest.approx(float(row["recomputed"]), abs=0.00001)


def test_t2_diameter_in_millimetres() -> None:
    """300 kW, factor 3, 482 000 kPa, 1050 rpm: 44.2 mm."""
    row = sizing("T2")
    found = 25.4 * required_diameter_inches(300 * HP_PER_KW, 3, 482_000 * PSI_PER_KPA, 1050)
    assert found == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


def test_t4_the_constant() -> None:
    row = sizing("T4")
    assert 16 * 63_025 / pi == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
    assert round(16 * 63_025 / pi, -3) == 321_000


def test_the_factor_is_the_diameter_turned_round() -> None:
    diameter = required_diameter_inches(403, 3, 70_000, 1050)
    factor = safety_factor(Length(round(diameter * 25_400_000)), 70_000, 1050, 403)
    assert factor == pytest.approx(3, abs=1e-6)


@pytest.mark.parametrize(
    ("alloy", "tensile_psi"),
    [("S20910", 105_000), ("N04400", 60_000), ("S30400", 30_000), ("S31600", 30_000)],
)
def test_t12_torsional_yield_is_two_thirds_of_tensile(alloy: str, tensile_psi: int) -> None:
    metal = material(alloy)
    assert metal
    assert metal.torsional_yield_psi == tensile_psi * 2 // 3


def test_t14_mass_of_a_foot_of_inch_bar() -> None:
    row = sizing("T14")
    metal = material("S20910")
    assert metal
    pounds = shaft_mass(inches(1), inches(12), metal.density_lb_in3)
    assert float(pounds) == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
    assert float(pounds) == pytest.approx(float(row["recomputed"]), abs=0.00001)
