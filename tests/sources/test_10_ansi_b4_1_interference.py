"""Outside check 10: interference fits in thousandths of an inch.

Source: ANSI B4.1-1967 tables 11 and 12 as printed in Machinery's Handbook (27th ed. p. 663, 31st
ed. p. 660): 1.19 to 1.58 in FN1 0.3 to 1.3; 1.97 to 3.15 in LN2 0.2 to 2.1.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalog.domain.standards import subjects, value

FITS = "ansi_b4_1_interference"


def _get(fit: str, quantity: str) -> Decimal:
    return value(FITS, fit, quantity).number


@pytest.mark.parametrize(
    ("fit", "least", "most"),
    [("1.19-1.58 in FN1", "0.3", "1.3"), ("1.97-3.15 in LN2", "0.2", "2.1")],
)
def test_our_table_gives_the_printed_fits(fit: str, least: str, most: str) -> None:
    assert _get(fit, "interference_min") == Decimal(least)
    assert _get(fit, "interference_max") == Decimal(most)
    assert value(FITS, fit, "interference_max").unit == "0.001 in"


@pytest.mark.parametrize("fit", subjects(FITS))
def test_least_interference_is_the_least_shaft_in_the_widest_hole(fit: str) -> None:
    assert _get(fit, "interference_min") == _get(fit, "shaft_min") - _get(fit, "hole_plus")
    assert _get(fit, "interference_max") == _get(fit, "shaft_max")
