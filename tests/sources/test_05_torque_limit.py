"""Outside check 5: the greatest torque of a yacht's shaft, by stress and by twist.

Source of the data: J. Gere, Mechanics of Materials, problem 3.3-8: 104 mm, 48 MPa, 2° in 3.5 m,
G = 80 GPa. The answer is computed here, not read: stress allows 10 602 N·m, twist 9164 N·m, so
twist governs. Our code judges stress only (a factor of 1 is the limit); it has no limit of twist,
so the second figure is a check of the formula, and of how much a stress check alone leaves out.
"""

from __future__ import annotations

from decimal import Decimal
from math import pi, radians

import pytest

from catalog.domain.lengths import mm
from catalog.domain.strength import safety_factor
from catalog.domain.units import to_watts
from tests.sources.vectors import sizing

PSI_PER_MPA = 1000 / 6.894757293168
WATTS_PER_HP = float(to_watts(Decimal(1), "hp"))
BY_STRESS = 10_601.6


def _our_limit(rpm: float) -> float:
    """N·m at which our safety factor is 1: the factor at one horsepower is the most of them."""
    horsepower = safety_factor(mm(104), 48 * PSI_PER_MPA, rpm, 1)
    return horsepower * WATTS_PER_HP / (2 * pi * rpm / 60)


@pytest.mark.parametrize("rpm", [300, 1050, 4600])
def test_our_factor_is_one_at_the_torque_that_stress_allows(rpm: float) -> None:
    assert _our_limit(rpm) == pytest.approx(BY_STRESS, abs=1)
    assert pytest.approx(48e6 * pi * 0.104**3 / 16, abs=0.1) == BY_STRESS


def test_twist_would_stop_this_shaft_earlier() -> None:
    """A check of a published figure against its formula; none of our code limits twist."""
    by_twist = 80e9 * (pi * 0.104**4 / 32) * radians(2) / 3.5
    assert by_twist == pytest.approx(float(sizing("T7")["expected"].split()[0]), abs=1)
    assert by_twist < _our_limit(1050)
