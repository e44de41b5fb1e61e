"""Length and girth of parcels against published carrier limits and their worked examples.

Source: parcel carrier limits and their companion page of worked examples, as kept with the other
published tables (girth = 2W + 2H, the longest side is the length).
"""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

import pytest

from catalog.domain.lengths import inches
from catalog.domain.standards import value
from quotes.domain.freight import Parcel, freight_for, girth
from quotes.domain.rates import Rates


def fact(quantity: str) -> str:
    return value("trade_facts", "all", quantity).value


VECTOR = re.compile(r"(\d+) x (\d+) x (\d+) -> girth (\d+), sum (\d+)")
TUBE = Parcel(inches(108), inches(4), Decimal(40), "inch")


@pytest.mark.parametrize("name", ["girth vector 1", "girth vector 2"])
def test_girth_and_length_as_in_the_worked_example(name: str) -> None:
    found = VECTOR.fullmatch(fact(name))
    assert found
    length, wide, high, around, together = map(Decimal, found.groups())
    assert girth(wide, high) == around
    assert length + girth(wide, high) == together


def test_the_longest_tube_a_carrier_takes_is_governed_by_its_length() -> None:
    """108 in in a 4 x 4 in tube: 108 + 2 x (4 + 4) = 124, within 165 (arithmetic)."""
    assert int(fact("carrier max length")) == 108
    most = Decimal(fact("carrier max length plus girth"))
    assert 108 + girth(Decimal(4), Decimal(4)) == 124 <= most
    assert freight_for(TUBE, Rates())[0] == "Freight, tube 108 in (96–108 in class)"


def test_what_a_carrier_refuses_goes_as_freight() -> None:
    """Beyond 150 lb, 108 in long, or 165 in of length and girth."""
    as_freight = Rates().freight_classes[-1][1]
    heavy = Decimal(fact("carrier max weight"))
    longer = replace(TUBE, tube=inches("108 1/4"))
    wider = replace(TUBE, tube=inches(100), across=inches(17))  # 100 + 68 = 168
    for parcel in (longer, replace(TUBE, pounds=heavy + 1), wider):
        assert freight_for(parcel, Rates())[1] == as_freight
    assert freight_for(replace(TUBE, pounds=heavy), Rates())[1] < as_freight
