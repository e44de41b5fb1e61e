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


# First bending critical of a pinned shaft, in feet, inches and pounds; the exact beam gives 3.2151.
_SPAN = 3.21
# A clamped end (a coupling bolted to its gearbox) against a free one: 3.9266 / pi.
_CLAMPED = 1.25


def bearing_span_inches(
    diameter: Length,
    shaft_rpm: float,
    modulus_psi: float,
    density_lb_in3: float,
    *,
    fixed: bool = False,
) -> float:
    """Span between supports, in inches, at which the shaft whips at ``shaft_rpm``.

    L = sqrt(3.21 D/N x sqrt(E/W)) feet, pinned at both ends; ``fixed`` clamps one, x 1.25. It is
    the first critical itself and holds no margin. All arguments > 0. Source: ABYC P-6 spacing
    formula as published; beam coefficients from vibration texts.

    >>> from catalog.domain.lengths import inches
    >>> round(bearing_span_inches(inches(1), 2000, 16_000_000, 0.304), 1)
    40.9
    """
    stiffness = math.sqrt(modulus_psi / density_lb_in3)
    pinned = 12 * math.sqrt(_SPAN * diameter.in_inches / shaft_rpm * stiffness)
    return pinned * _CLAMPED if fixed else pinned
