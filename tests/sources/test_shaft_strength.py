"""Torsion, yield and mass of a shaft, beyond the worked examples of outside check 4.

Sources: ABYC P-6 (7/02, extract) for the 2/3 rule; the factors of safety in torsion are worked out
by the published formula (D. Gerr, Boat Mechanical Systems Handbook, ch. 1 p. 10), the engines are
invented; the yield of UNS S31600 is from memory. What is wanted, 3 for pleasure, is his too.
"""

from __future__ import annotations

import pytest

from catalog.domain.lengths import inches
from catalog.domain.materials import material
from catalog.domain.strength import safety_factor
from catalog.domain.units import shaft_mass
from tests.given import fired, judged
from tests.sources.vectors import sizing

# Size, alloy, power, engine's rpm, gear ratio: the factor, and what the check says of it.
TORQUE = [
    ("1", "S20910", 310, 4600, "1", 3.24, None),
    ("1", "S20910", 310, 4600, "1.5", 2.16, "ask"),
    ("1 1/8", "S20910", 310, 4600, "1.5", 3.07, None),
    ("1", "S31600", 60, 1500, "1", 1.56, "stop"),
    ("1", "S20910", 60, 1500, "1", 5.45, None),
]


@pytest.mark.parametrize(("size", "alloy", "hp", "rpm", "ratio", "factor", "said"), TORQUE)
def test_five_shafts_in_torsion(
    size: str, alloy: str, hp: int, rpm: int, ratio: str, factor: float, said: str | None
) -> None:
    metal = material(alloy)
    assert metal
    shaft_rpm = rpm / float(ratio)
    found = safety_factor(inches(size), metal.torsional_yield_psi, shaft_rpm, hp)
    assert found == pytest.approx(factor, abs=0.0051)


@pytest.mark.parametrize(("size", "alloy", "hp", "rpm", "ratio", "factor", "said"), TORQUE)
def test_the_check_says_so_of_a_whole_sheet(
    size: str, alloy: str, hp: int, rpm: int, ratio: str, factor: float, said: str | None
) -> None:
    verdict = judged(
        top={"alloy": alloy},
        dia_clean={"text": size, "method": "caliper"},
        engine_power=f"{hp} hp",
        engine_max_rpm=str(rpm),
        gear_ratio=f"{ratio}:1",
    )
    assert fired(verdict).get("torque-margin") == said
    words = [f.message for f in verdict.findings if f.check == "torque-margin"]
    assert all(f"{factor:.2f}" in message for message in words)


@pytest.mark.parametrize(
    ("alloy", "tensile_psi"),
    [("S20910", 105_000), ("N04400", 60_000), ("S30400", 30_000), ("S31600", 30_000)],
)
def test_t12_torsional_yield_is_two_thirds_of_tensile(alloy: str, tensile_psi: int) -> None:
    """The 30 000 psi of the two annealed stainless steels are from memory."""
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
