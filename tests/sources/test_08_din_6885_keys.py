"""Outside check 8: metric keys. 25 mm takes 8 x 7 (t1 4, t2 3.3), 40 mm takes 12 x 8.

Source: ISO 773 / DIN 6885-1, read by hand in the CSV of the package `bd-warehouse` 0.4.0
(Apache-2.0) and in a DIN 6885 table. The package is not installed here: its rows, as read, stand
below in its place. The row over 50 to 58 mm is partly from memory.
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest

from catalog.domain.standards import subjects, value

KEYS = "iso773_din6885_keys"
# Shaft: key width b, height h, depth t1 in the shaft, depth t2 in the hub (mm).
PUBLISHED = {
    20: ("6", "6", "3.5", "2.8"),
    25: ("8", "7", "4.0", "3.3"),
    35: ("10", "8", "5.0", "3.3"),
    40: ("12", "8", "5.0", "3.3"),
    45: ("14", "9", "5.5", "3.8"),
}


def _row(diameter: int) -> tuple[str, ...]:
    for band in subjects(KEYS):
        over, up_to = map(int, re.findall(r"\d+", band))
        if over < diameter <= up_to:
            names = ("key_width", "key_height", "shaft_depth", "hub_depth")
            return tuple(value(KEYS, band, name).value for name in names)
    raise KeyError(diameter)


@pytest.mark.parametrize("diameter", PUBLISHED)
def test_our_table_gives_the_published_key_of_a_shaft(diameter: int) -> None:
    assert _row(diameter) == PUBLISHED[diameter]


@pytest.mark.parametrize("band", subjects(KEYS))
def test_the_two_depths_hold_the_key_with_a_little_air(band: str) -> None:
    height, shaft, hub = (
        Decimal(value(KEYS, band, name).value)
        for name in ("key_height", "shaft_depth", "hub_depth")
    )
    assert Decimal("0.2") <= shaft + hub - height <= Decimal("0.3")


def test_the_remembered_row_says_so() -> None:
    assert value(KEYS, "over 50 to 58 mm", "key_width").confidence == "memory"
