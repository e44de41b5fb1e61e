"""ANSI B17.1 keys: S and T as printed in Machinery's Handbook Pocket Companion, and where the
same shaft has another key by SAE J755 (7/8, 1-1/4 and 1-3/4 in).
"""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import Length, inches
from catalog.domain.standards import subjects, value

KEYS = "keys_b17_1_vs_j755"
PRINTED = [("1 in", "0.859", "1.114"), ("2 in", "1.718", "2.223")]


def _size(text: str) -> Length:
    return inches(text.removesuffix(" in").replace("-", " "))


@pytest.mark.parametrize("size", subjects(KEYS))
def test_s_and_t_by_the_geometry_of_a_keyway(size: str) -> None:
    d = _size(size).in_inches
    key = float(Fraction(value(KEYS, size, "b17_1_square_key").value))
    s = d - (d - sqrt(d * d - key * key)) / 2 - key / 2
    assert float(value(KEYS, size, "S_printed").value) == pytest.approx(s, abs=0.00051)
    t = float(value(KEYS, size, "T_printed").value)
    assert t == pytest.approx(s + key + 0.005, abs=0.00051)


@pytest.mark.parametrize(
    ("size", "s", "t"), [("1 in", "0.859", "1.114"), ("2 in", "1.718", "2.223")]
)
def test_the_printed_examples(size: str, s: str, t: str) -> None:
    assert value(KEYS, size, "S_printed").value == s
    assert value(KEYS, size, "T_printed").value == t


@pytest.mark.parametrize("size", subjects(KEYS))
def test_a_propeller_end_takes_its_key_from_j755(size: str) -> None:
    b17, j755 = (_size(value(KEYS, size, key).value) for key in ("b17_1_square_key", "j755_key"))
    end = shaft_end("inch", _size(size))
    assert end
    assert end.keyway_width == j755
    assert (b17 != j755) == (size in ("7/8 in", "1-1/4 in", "1-3/4 in"))
    assert (b17 != j755) == (value(KEYS, size, "compare").value == "DIFFERENT")


@pytest.mark.parametrize("size", subjects(KEYS))
def test_the_two_b17_1_tables_agree(size: str) -> None:
    shaft = _size(size)
    for band in subjects("ansi_b17_1_key_vs_shaft"):
        over, up_to = band.removeprefix("over ").removesuffix(" in").split(" to ")
        if _size(over) < shaft <= _size(up_to):
            key = value("ansi_b17_1_key_vs_shaft", band, "square_key").value
            assert key == value(KEYS, size, "b17_1_square_key").value
            return
    pytest.fail(f"no band for {size}")
