"""Facts of the trade, all *common practice, no source*: the sum of a shaft, bearing pairs, gap.

Inch stock sizes follow the list of SAE J755 sizes.
"""

from __future__ import annotations

from importlib import resources

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import Length, inches
from catalog.domain.stock import Kind, Stock
from catalog.domain.tape import read_length
from catalog.tables import read_parts
from intake.domain.limits import DEFAULT_LIMITS

STOCK = Stock(
    tuple(
        read_parts(resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8"))
    )
)


def test_the_trades_own_sum() -> None:
    """Face to strut 43 in, tail 4-3/4 in: shaft 47-3/4 in (common practice, no source)."""
    tail = read_length("4-3/4").length
    assert tail == DEFAULT_LIMITS.fixed_tail
    assert (read_length("43").length + DEFAULT_LIMITS.fixed_tail).inch_text == "47 3/4"


@pytest.mark.parametrize(
    ("bore", "shells"), [("1", {"1 1/4"}), ("1 1/8", {"1 3/8", "1 1/2"})], ids=["1", "1-1/8"]
)
def test_bearing_pairs_are_in_the_catalogue(bore: str, shells: set[str]) -> None:
    """1 in runs in a 1-1/4 shell, 1-1/8 in a 1-3/8 or 1-1/2 (common practice, no source)."""
    stocked = {
        part.shell_od.inch_text
        for part in STOCK.of_kind(Kind.BEARING)
        if part.bore == inches(bore) and part.shell_od
    }
    assert shells <= stocked


def test_every_bearing_has_a_wall() -> None:
    """At least 1/8 in of shell and rubber on each side (common practice, no source)."""
    walls = [
        part.shell_od - part.bore
        for part in STOCK.of_kind(Kind.BEARING)
        if part.shell_od and part.bore
    ]
    assert len(walls) == len(STOCK.of_kind(Kind.BEARING))
    assert min(walls) >= inches("1/4")


@pytest.mark.parametrize("size", DEFAULT_LIMITS.fixed_tail_sizes, ids=lambda size: size.inch_text)
def test_the_hub_rule_behind_four_and_three_quarters(size: Length) -> None:
    """Tail = gap + hub + n: with n by SAE J755, a 2-13/16 hub makes it 4-3/4 in."""
    end = shaft_end("inch", size)
    assert end
    total = DEFAULT_LIMITS.gap_goal + inches("2 13/16") + end.nut_standoff
    assert total == DEFAULT_LIMITS.fixed_tail
