"""How strong a shaft must be against its engine's torque."""

from __future__ import annotations

import math

from catalog.domain.lengths import Length

# 16 x 63025 / pi, rounded as the published formula rounds it.
_TORQUE = 321_000


def safety_factor(
    diameter: Length, torsional_yield_psi: float, rpm: float, horsepower: float
) -> float:
    """Safety factor in torsion: SF = D^3 S N / (321 000 P).

    ``rpm`` is the shaft's, ``torsional_yield_psi`` 2/3 of the tensile yield; both and
    ``horsepower`` > 0. Source: ABYC P-6 formula as published by D. Gerr, Boat Mechanical Systems
    Handbook, ch. 1 p. 10.

    >>> from catalog.domain.lengths import inches
    >>> round(safety_factor(inches(1), 70_000, 4600, 310), 2)
    3.24
    """
    inch = diameter.in_inches
    return inch**3 * torsional_yield_psi * rpm / (_TORQUE * horsepower)


def required_diameter_inches(
    horsepower: float, factor: float, torsional_yield_psi: float, rpm: float
) -> float:
    """Least diameter in inches for a safety factor: D = (321 000 P SF / (S N))^(1/3).

    Source as `safety_factor`.
    """
    return math.cbrt(_TORQUE * horsepower * factor / (torsional_yield_psi * rpm))
