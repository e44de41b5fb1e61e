"""Known units only; Pint's own factors are checked in tests/sources."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal

import pytest

from catalog.domain.lengths import inches, mm
from catalog.domain.units import pounds_to_kg, shaft_mass, to_watts


def test_power_in_watts() -> None:
    assert to_watts(Decimal(75), "kW") == 75_000
    assert round(to_watts(Decimal(310), "hp")) == 231_167
    assert to_watts(Decimal(1), "PS") == Decimal("735.49875")


def test_a_unit_we_do_not_list_is_refused() -> None:
    with pytest.raises(KeyError):
        to_watts(Decimal(1), "9**9**8")  # type: ignore[arg-type]


def test_mass_of_a_bar() -> None:
    mass = shaft_mass(inches(1), inches(12), Decimal("0.285"))
    assert round(mass, 3) == Decimal("2.686")
    assert shaft_mass(mm("25.4"), mm("304.8"), Decimal("0.285")) == mass


def test_pounds_in_kilograms() -> None:
    assert pounds_to_kg(Decimal(100)) == Decimal("45.359237")


def test_pint_waits_until_it_is_needed() -> None:
    code = "import sys, catalog.domain.units; print('pint' in sys.modules)"
    assert subprocess.check_output([sys.executable, "-c", code], text=True).strip() == "False"
