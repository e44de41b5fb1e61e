"""Our conversion factors against Pint's own and against `scipy.constants`.

The inch is 25.4 mm by the international yard and pound agreement of 1959; the metric horsepower
(PS) is 75 kgf·m/s = 735.49875 W; the mechanical horsepower is 550 ft·lbf/s.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from scipy import constants

from catalog.domain import lengths, readings
from catalog.domain.tape import read_length
from catalog.domain.units import pounds_to_kg, to_watts

UNITS: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)


@pytest.mark.parametrize(
    ("unit", "theirs"),
    [("in", "inch"), ("ft", "foot"), ("mm", "mm"), ("cm", "cm"), ("m", "meter")],
)
def test_our_lengths_are_pints(unit: str, theirs: str) -> None:
    nm = UNITS.Quantity(Decimal(1), theirs).to("nanometer").magnitude
    assert read_length(f"1 {unit}").length.nm == nm
    assert readings.NM[unit] == nm


def test_our_inch_and_foot_are_scipys() -> None:
    assert pytest.approx(constants.inch * 1e9, rel=1e-15) == lengths.NM_PER_INCH
    assert read_length("1 ft").length.nm == pytest.approx(constants.foot * 1e9, rel=1e-15)


def test_power() -> None:
    assert float(to_watts(Decimal(1), "hp")) == pytest.approx(constants.hp, rel=1e-14)
    foot_pounds = Fraction("0.3048") * Fraction("0.45359237") * Fraction("9.80665") * 550
    assert float(to_watts(Decimal(1), "hp")) == pytest.approx(float(foot_pounds), rel=1e-14)
    assert to_watts(Decimal(1), "PS") == Decimal("75") * Decimal("9.80665")
    assert to_watts(Decimal("1.5"), "kW") == 1500


def test_mass() -> None:
    assert float(pounds_to_kg(Decimal(1))) == pytest.approx(constants.lb, rel=1e-14)


def test_why_pint_never_reads_customers_text() -> None:
    """Pint reads a mixed number as a product: half an inch for one and a half."""
    assert pint.UnitRegistry()("1 1/2 inch").magnitude == 0.5
    assert read_length("1 1/2 inch").length == lengths.inches("1 1/2")
