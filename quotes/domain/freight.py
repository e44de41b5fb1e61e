"""Freight by the tube's length, by weight, and by length and girth: the dearest of the three."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from functools import lru_cache

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length, inches
from catalog.domain.materials import material
from quotes.domain.rates import FreightClasses, Rates

_PI = Decimal("3.14159265358979323846")
_LB_IN_KG = Decimal("0.45359237")  # exact: international pound
_STAINLESS = Decimal("0.285")  # lb per cubic inch, for a metal no table knows


@dataclass(frozen=True, slots=True)
class Parcel:
    """What is sent: a tube with a shaft in it. Weight in pounds is the shaft's alone; the classes
    leave room for the tube and the parts.
    """

    tube: Length
    across: Length
    pounds: Decimal
    system: str


def inch_amount(length: Length) -> Decimal:
    """The length in inches, converted exactly (a metric length as far as 28 digits carry).

    >>> inch_amount(inches("49 1/2"))
    Decimal('49.5')
    """
    return Decimal(length.nm) / NM_PER_INCH


def tube_for(shaft: Length, rates: Rates) -> Length:
    """How long the tube is that carries a shaft of this length.

    >>> tube_for(inches(49), Rates()).inch_text
    '53'
    """
    return shaft + inches_of(rates.tube_extra_in)


@lru_cache(maxsize=64)
def inches_of(number: Decimal) -> Length:
    """A rate in inches as a length; asked with every price, so it is not read anew each time."""
    return inches(str(number))


def shaft_pounds(diameter: Length, length: Length, alloy: str) -> Decimal:
    """Mass of the bar: pi/4 · D² · L · density, which is 0.2238 · D² · L for stainless steel.

    Source: density by alloy from the table of shaft materials.

    >>> round(shaft_pounds(inches(1), inches(49), "S20910"), 1)
    Decimal('11.0')
    """
    known = material(alloy)
    density = known.density_lb_in3 if known else _STAINLESS
    return _PI / 4 * inch_amount(diameter) ** 2 * inch_amount(length) * density


def girth(wide: Decimal, high: Decimal) -> Decimal:
    """Around a parcel: twice its width and twice its height, the longest side being its length.

    A round tube counts as the box it just fills. Source: parcel carrier limits.

    >>> girth(Decimal(10), Decimal(15))
    Decimal('50')
    """
    return 2 * (wide + high)


def freight_class(
    size: Length | Decimal, classes: FreightClasses, unit: str = "in"
) -> tuple[str, Decimal]:
    """The class a tube falls in, as words, and its price. A plain number is in the table's unit.

    >>> freight_class(inches("48"), Rates().freight_classes)
    ('up to 48 in', Decimal('22'))
    >>> freight_class(inches("48 1/64"), Rates().freight_classes)[0]
    '48–72 in class'
    """
    below: Decimal | None = None
    amount = _in_unit(size, unit) if isinstance(size, Length) else size
    for limit, price in classes:
        if limit is None or amount <= limit:
            return _words(below, limit, unit), price
        below = limit
    raise ValueError("the freight classes stop short: the last one has no limit")


def freight_for(parcel: Parcel, rates: Rates) -> tuple[str, Decimal]:
    """The dearest of the three classes, in words that say which it was; equal: the length's."""
    found = list(_classes(parcel, rates))
    return max(found, key=lambda one: one[1])


def _classes(parcel: Parcel, rates: Rates) -> list[tuple[str, Decimal]]:
    metric = parcel.system == "mm"
    unit, heavy = ("mm", "kg") if metric else ("in", "lb")
    by_length = rates.freight_classes_mm if metric else rates.freight_classes
    by_weight = rates.freight_weights_kg if metric else rates.freight_weights
    by_girth = rates.freight_girths_mm if metric else rates.freight_girths
    weight = parcel.pounds * _LB_IN_KG if metric else parcel.pounds
    across = _whole(_in_unit(parcel.across, unit))
    around = _whole(_in_unit(parcel.tube, unit)) + girth(across, across)
    tube = f"tube {_shown(parcel.tube, unit)}"
    words, price = freight_class(parcel.tube, by_length, unit)
    found = [(f"Freight, {tube} ({words})", price)]
    words, price = freight_class(weight, by_weight, heavy)
    found.append((f"Freight, {tube}, weight {_whole(weight)} {heavy} ({words})", price))
    words, price = freight_class(around, by_girth, unit)
    found.append((f"Freight, {tube}, length and girth {around} {unit} ({words})", price))
    return found


def _in_unit(length: Length, unit: str) -> Decimal:
    return inch_amount(length) if unit == "in" else Decimal(length.nm) / NM_PER_MM


def _whole(amount: Decimal) -> Decimal:
    """Up to the next whole unit, as carriers count (common practice, no source)."""
    return amount.to_integral_value(ROUND_CEILING)


def _shown(length: Length, unit: str) -> str:
    if unit == "in":
        return f"{length.inch_text} in"
    text = f"{Decimal(length.nm) / NM_PER_MM:f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} mm"


def _words(below: Decimal | None, limit: Decimal | None, unit: str) -> str:
    if limit is None:
        return f"over {below} {unit}"
    return f"up to {limit} {unit}" if below is None else f"{below}–{limit} {unit} class"
