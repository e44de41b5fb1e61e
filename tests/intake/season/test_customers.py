"""A customer is drawn from seed and number alone, with the mix of ways the season is given."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from intake.domain.reading import read_sheet
from intake.season.customers import a_customer
from intake.season.mistakes import Mistake, boat_as_it_is
from intake.season.sheets import a_body
from tests.intake.season.given import a_boat, a_how
from tests.intake.season.given import a_customer as somebody

MANY = 6000


@pytest.fixture(scope="module")
def season():
    return [a_customer("mix", index) for index in range(MANY)]


def shares(values) -> dict[str, float]:
    counts = Counter(value for value in values if value)
    return {name: count / counts.total() for name, count in counts.items()}


def test_the_same_seed_and_number_give_the_same_customer() -> None:
    first, second = a_customer(5, 17), a_customer(5, 17)
    assert (first.boat, first.how, first.first) == (second.boat, second.how, second.first)
    assert a_body(first) == a_body(second)


def test_another_seed_or_number_gives_another() -> None:
    assert a_customer(5, 17).boat != a_customer(5, 18).boat
    assert a_customer(5, 17).boat != a_customer(6, 17).boat


@pytest.mark.parametrize(
    ("what", "mix"),
    [
        ("x", {"rod": 0.45, "tape_helper": 0.25, "tape_one_hand": 0.20, "pieces": 0.10}),
        ("hub", {"caliper": 0.30, "rule": 0.40, "tape_short": 0.30}),
        ("gap", {"drill_shank": 0.40, "rule": 0.30, "tape": 0.25, "eye": 0.05}),
        ("old", {"tape": 0.70, "tape_one_hand": 0.30}),
    ],
)
def test_the_mix_of_ways_is_the_one_asked_for(season, what, mix) -> None:
    found = shares(getattr(customer.how, what) for customer in season)
    assert found == pytest.approx(mix, abs=0.03)


def test_a_quarter_has_one_route_and_about_a_quarter_a_slip(season) -> None:
    one = sum(not customer.how.is_two_routes for customer in season) / MANY
    slips = sum(not customer.is_clean for customer in season) / MANY
    assert one == pytest.approx(0.25, abs=0.02)
    assert slips == pytest.approx(0.235, abs=0.02)  # 27.8 % before evidence and missing readings


def test_two_routes_mean_a_length_of_each(season) -> None:
    for customer in season:
        both = {"x", "old", "gap"} <= set(customer.first)
        assert both or not customer.how.is_two_routes


def test_old_shafts_stand_near_the_goal(season) -> None:
    inches_wide = [c for c in season if c.boat.half_band == 0.25 and c.is_clean]
    outside = sum(not c.boat.is_fair(c.boat.old_gap) for c in inches_wide) / len(inches_wide)
    assert 0.08 < outside < 0.16


def test_every_sheet_can_be_sent(season) -> None:
    """The reader takes every clean sheet, and says what was written."""
    for customer in [c for c in season if c.is_clean][:400]:
        sheet = read_sheet(a_body(customer))
        assert sheet.wants == ("shaft",)
        reading = sheet.length("face_to_strut_aft")
        if reading is not None:
            assert reading.in_inches == pytest.approx(customer.first["x"].value, abs=1e-4)


def test_an_assumed_gap_leaves_the_old_shaft_off() -> None:
    boat = boat_as_it_is(a_boat(), Mistake("G-ASSUME", "gap", {"gap": 0.6}), 0.75)
    assert boat.old_gap == pytest.approx(1.35)
    assert boat.old_length == pytest.approx(43 + 1.35 + 4)


def test_the_fixed_tail_meets_another_hub() -> None:
    boat = boat_as_it_is(a_boat(), Mistake("P-RULE", "p", {"p": -0.4}), None)
    assert boat.hub == pytest.approx(2.4125)


def test_an_engine_that_moved_leaves_the_written_numbers_as_they_were() -> None:
    boat = boat_as_it_is(a_boat(), Mistake("B-MOVED", "old", {"old": 0.9}), 0.75)
    customer = somebody(boat=boat, how=a_how(tail="rule"))
    assert customer.truth("gap") == pytest.approx(0.75)
    assert customer.truth("tail") == pytest.approx(4.75)
    assert customer.truth("gap", now=True) == pytest.approx(1.65)
    assert customer.truth("old") == pytest.approx(43 + 1.65 + 4)


def test_a_mistake_is_in_the_reading_it_touches() -> None:
    burned = somebody(Mistake("R-BURN-X", "x", {"x": 1.0}))
    honest = somebody()
    assert burned.first["x"].value - honest.first["x"].value == pytest.approx(1.0)
    assert burned.first["old"].value == honest.first["old"].value


def test_a_bad_tape_is_bad_for_both_lengths() -> None:
    stretched, honest = somebody(Mistake("Z-TAPE", "both", scale=0.99)), somebody()
    for what, true in (("x", 43.0), ("old", 47.75)):
        short = honest.first[what].value - stretched.first[what].value
        assert short == pytest.approx(0.01 * true, abs=1 / 16)
    assert stretched.first["hub"].value == honest.first["hub"].value


def test_a_start_mark_is_told_with_its_number(season) -> None:
    told = [c.first["x"] for c in season if c.how.start_mark]
    assert len(told) > 100
    body = {"tape_unit": "in", "wants": ["shaft"]}
    inch = next(reading for reading in told if reading.start_mark == "1")
    sheet = read_sheet({**body, "answers": {"face_to_strut_aft": inch.as_answer()}})
    read = sheet.length("face_to_strut_aft")
    assert read is not None
    assert read.in_inches == pytest.approx(inch.value)


def test_both_strut_ends_lie_a_barrel_apart() -> None:
    customer = somebody(how=a_how(both_strut_ends=True))
    sheet = read_sheet(a_body(customer))
    aft, forward = sheet.length("face_to_strut_aft"), sheet.length("face_to_strut_fwd")
    assert aft is not None
    assert forward is not None
    assert (aft - forward).in_inches == pytest.approx(2.0, abs=0.2)


@pytest.mark.parametrize(
    ("mistake", "past"),
    [
        (None, 0.3125),
        (Mistake("D-PIN", "old", {"old": 0.3125}), 0.0),
        (Mistake("R-BURN-O", "old", {"old": 1.0}), 0.3125),
    ],
)
def test_the_whole_bar_shows_what_was_taken_for_its_end(mistake, past) -> None:
    """Whoever went to the nose gets the whole bar twice; a burned inch is in both numbers."""
    customer = somebody(*([mistake] if mistake else []), how=a_how(overall=True))
    sheet = read_sheet(a_body(customer))
    whole, old = sheet.length("old_length_overall"), sheet.length("old_length_face_to_thread")
    assert whole is not None
    assert old is not None
    assert (whole - old).in_inches == pytest.approx(past, abs=0.13)


def test_chance_comes_from_the_customers_own_seed() -> None:
    """Nothing is drawn from the shared source of chance."""
    import random

    random.seed(1)
    first = a_body(a_customer(1, 1))
    random.seed(2)
    assert a_body(a_customer(1, 1)) == first
    assert isinstance(a_customer(1, 1).rng, Random)
