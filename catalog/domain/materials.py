"""Shaft alloys: strength, stiffness and density, by UNS or EN number."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from catalog.domain.standards import StandardValue, subjects, value, worst

_TABLE = "shaft_materials"
_SAME_METAL = {"1.4401": "S31600"}


@dataclass(frozen=True, slots=True)
class Material:
    """One alloy as sold for shafting. ``torsional_yield_psi`` is 2/3 of the tensile yield."""

    alloy: str
    name: str
    torsional_yield_psi: int
    modulus_psi: int
    density_lb_in3: Decimal
    source: str
    confidence: str


@cache
def material(alloy: str) -> Material | None:
    """What the tables say of an alloy, or None for one we do not know.

    Source: ABYC P-6 rule and the published tables named in each value.

    >>> material("S20910").torsional_yield_psi
    70000
    """
    row = _SAME_METAL.get(alloy, alloy)
    return _material(alloy, row) if row in subjects(_TABLE) else None


def _material(alloy: str, row: str) -> Material:
    used: list[StandardValue] = []

    def take(quantity: str) -> StandardValue:
        used.append(value(_TABLE, row, quantity))
        return used[-1]

    return Material(
        alloy=alloy,
        name=take("name").value,
        torsional_yield_psi=int(take("torsional_yield").value),
        modulus_psi=int(take("modulus").value),
        density_lb_in3=take("density").number,
        source=used[0].source,
        confidence=str(worst(used)),
    )
