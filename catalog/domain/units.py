"""Known units converted, and quantities made of lengths: the only home of Pint.

Pint never sees what people wrote: it reads ``3 1/2 in`` as 1.5 in. It is given a Decimal and a
unit from the list below, and is loaded when first needed.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import TYPE_CHECKING, Literal

from catalog.domain.lengths import NM_PER_INCH, Length

if TYPE_CHECKING:
    from pint import UnitRegistry


@cache
def _units() -> UnitRegistry[Decimal]:
    """One registry a process, built when first needed: it takes a tenth of a second."""
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Decimal, cache_folder=None)


_POWER = {"hp": "horsepower", "kW": "kilowatt", "PS": "metric_horsepower"}


def to_watts(value: Decimal, unit: Literal["hp", "kW", "PS"]) -> Decimal:
    """Engine power in watts; hp is the mechanical horsepower of 550 ft·lbf/s.

    >>> to_watts(Decimal(75), "kW")
    Decimal('75000')
    """
    return _converted(value, _POWER[unit], "watt")


def pounds_to_kg(pounds: Decimal) -> Decimal:
    """Mass in kilograms; one avoirdupois pound is 0.45359237 kg exactly."""
    return _converted(pounds, "pound", "kilogram")


def _converted(value: Decimal, unit: str, wanted: str) -> Decimal:
    return Decimal(_units().Quantity(value, unit).to(wanted).magnitude)


_PI = Decimal("3.14159265358979323846264338")


def shaft_mass(diameter: Length, length: Length, density_lb_in3: Decimal) -> Decimal:
    """Mass of a plain round bar in pounds: pi/4 · D² · L · density (lb per cubic inch)."""
    d, long = (Decimal(size.nm) / NM_PER_INCH for size in (diameter, length))
    unit = _units()
    volume = unit.Quantity(_PI / 4 * d * d * long, "inch ** 3")
    return Decimal(
        (volume * unit.Quantity(density_lb_in3, "pound / inch ** 3")).to("pound").magnitude
    )
