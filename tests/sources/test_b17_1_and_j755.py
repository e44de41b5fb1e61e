"""A propeller end takes its key from SAE J755, not from ANSI B17.1: they differ at three sizes.

Sources: ANSI B17.1 as printed in Machinery's Handbook Pocket Companion; SAE J755 (MAY2015).
"""

from __future__ import annotations

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import Length, inches
from catalog.domain.standards import subjects, value

KEYS = "keys_b17_1_vs_j755"


def _size(text: str) -> Length:
    return inches(text.removesuffix(" in").replace("-", " "))


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
