"""True boats add up: the gap of a length, the band, the shares of sizes."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from catalog.domain.lengths import inches, mm
from intake.season import boats
from intake.season.boats import MM, gap_band
from tests.intake.season.given import a_boat

W1 = {"x": 43.0, "hub": 2.8125}
W2 = {"size": inches("1 1/8"), "x": 51.3125, "hub": 3.0}
W3 = {"x": 38.875, "hub": 2.8125}
W4 = {"system": "mm", "size": mm(30), "x": 1236 * MM, "hub": 75 * MM, "standoff": 29 * MM,
      "least": 0.5, "goal": 19 * MM, "most": 1.0}  # fmt: skip


@pytest.mark.parametrize(
    ("boat", "length", "gap", "fair"),
    [
        (W1, 47.75, 0.75, True),
        (W2, 56.25, 0.75, True),
        (W2, 56.125, 0.625, True),
        (W2, 56.0, 0.5, True),
        (W2, 55.875, 0.375, False),
        (W3, 43.625, 0.75, True),
        (W3, 44.25, 1.375, False),
        (W4, 1360 * MM, 20 * MM, True),
        (W4, 1359 * MM, 19 * MM, True),
        (W4, 1350 * MM, 10 * MM, False),
    ],
)
def test_the_gap_of_a_length_by_hand(boat, length, gap, fair) -> None:
    """Worked by hand: length less strut distance less hub less stand-off."""
    here = a_boat(**boat)
    assert here.gap_of(length) == pytest.approx(gap)
    assert here.is_fair(here.gap_of(length)) is fair


def test_the_old_shaft_leaves_its_gap() -> None:
    boat = a_boat(x=38.875, old_gap=1.375)
    assert boat.old_length == pytest.approx(44.25)
    assert boat.gap_of(boat.old_length) == pytest.approx(1.375)


def test_an_engine_that_moved_changes_the_old_shafts_gap() -> None:
    boat = a_boat(old_gap=0.75, moved=-0.5)
    assert boat.gap_now == pytest.approx(0.25)
    assert boat.gap_of(boat.old_length) == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("size", "metric", "band"),
    [
        (1.0, False, (0.5, 0.75, 1.0)),
        (2.0, False, (0.5, 0.75, 1.0)),
        (0.875, False, (0.5, 0.6875, 0.875)),
        (0.75, False, (0.5, 0.625, 0.75)),
        (30 * MM, True, (12.7 * MM, 19 * MM, 25.4 * MM)),
        (25 * MM, True, (12.7 * MM, 19 * MM, 25 * MM)),
    ],
)
def test_the_band_is_capped_at_one_diameter(size, metric, band) -> None:
    assert gap_band(size, metric) == pytest.approx(band)


def test_boats_are_of_the_sizes_a_desk_meets() -> None:
    rng, many = Random(4), 6000
    fleet = [boats.a_boat(rng) for _ in range(many)]
    metric = sum(boat.system == "mm" for boat in fleet) / many
    assert metric == pytest.approx(0.25, abs=0.025)
    sizes = Counter(boat.size for boat in fleet if boat.system == "inch")
    assert sizes[inches(1)] / sizes.total() == pytest.approx(0.30, abs=0.03)
    assert set(sizes) == {inches(name) for name in boats.INCH_SHARES}
    through = sum(boat.layout == "v_pass_through" for boat in fleet) / many
    assert through == pytest.approx(0.03, abs=0.01)


def test_no_boat_has_its_taper_in_the_bearing() -> None:
    """Full hub less hub is what the taper reaches ahead; it stays behind the goal gap."""
    rng = Random(8)
    for _ in range(2000):
        boat = boats.a_boat(rng)
        assert 24 <= boat.x <= 100
        assert 2.0 <= boat.hub <= 6.0
        assert boat.least < boat.goal < boat.most
        if boat.system == "inch" and boat.size == inches(2):
            assert 6.0 - boat.hub <= boat.goal - 0.2
