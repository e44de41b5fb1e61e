"""Outside check 3: the depths S and T of a square key.

Source: ANSI B17.1, as printed in Machinery's Handbook Pocket Companion: D 1, key 1/4: S 0.859,
T 1.114; D 2, key 1/2: S 1.718, T 2.223. S = D - Y - H/2 and T = S + H + 0.005, with
Y = (D - sqrt(D² - W²))/2.
"""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest

from catalog.domain.lengths import inches
from catalog.domain.standards import subjects, value

KEYS = "keys_b17_1_vs_j755"


@pytest.mark.parametrize(
    ("size", "key", "s", "t"),
    [("1 in", "1/4", "0.859", "1.114"), ("2 in", "1/2", "1.718", "2.223")],
)
def test_the_printed_examples_stand_in_our_table(size: str, key: str, s: str, t: str) -> None:
    assert value(KEYS, size, "b17_1_square_key").value == key
    assert value(KEYS, size, "S_printed").value == s
    assert value(KEYS, size, "T_printed").value == t


@pytest.mark.parametrize("size", subjects(KEYS))
def test_every_row_of_our_table_keeps_the_geometry(size: str) -> None:
    d = inches(size.removesuffix(" in").replace("-", " ")).in_inches
    key = float(Fraction(value(KEYS, size, "b17_1_square_key").value))
    s = d - (d - sqrt(d * d - key * key)) / 2 - key / 2
    assert float(value(KEYS, size, "S_printed").value) == pytest.approx(s, abs=0.00051)
    t = float(value(KEYS, size, "T_printed").value)
    assert t == pytest.approx(s + key + 0.005, abs=0.00051)
