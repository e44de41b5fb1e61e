"""Outside check 4: the diameter a shaft needs.

Source: D. Gerr, Boat Mechanical Systems Handbook, ch. 1 p. 10: 403 shp, factor 3, 70 000 psi,
1050 rpm give 1.74 in; 300 kW, factor 3, 482 000 kPa, 1050 rpm give 44.2 mm. Third, a published
worked example, printed as 1 in. Fourth, the constant, a naval-architecture school's journal
no. 18 p. 15: 16 x 63 025 / pi.
"""

from __future__ import annotations

from decimal import Decimal
from math import pi

import pytest

from catalog.domain.lengths import Length
from catalog.domain.strength import required_diameter_inches, safety_factor
from catalog.domain.units import to_watts
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


def test_t4_our_constant_is_the_published_one_rounded() -> None:
    """D³·S·N/(P·SF) of our own diameter is 321 000, to the thousand 16 x 63 025 / pi."""
    ours = required_diameter_inches(403, 3, 70_000, 1050) ** 3 * 70_000 * 1050 / (403 * 3)
    assert ours == pytest.approx(round(16 * 63_025 / pi, -3), rel=1e-12)
    assert ours == pytest.approx(float(sizing("T4")["expected"]), rel=0.0001)


def test_the_factor_is_the_diameter_turned_round() -> None:
    diameter = required_diameter_inches(403, 3, 70_000, 1050)
    factor = safety_factor(Length(round(diameter * 25_400_000)), 70_000, 1050, 403)
    assert factor == pytest.approx(3, abs=1e-6)
