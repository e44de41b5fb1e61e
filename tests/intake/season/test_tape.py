"""Readings have the noise they claim, and are written as people write."""

from __future__ import annotations

from random import Random
from statistics import mean, stdev

import pytest

from intake.domain.reading import read_sheet
from intake.season import tape
from intake.season.tape import MM, WAYS, Reading, look, written


@pytest.mark.parametrize("system", ["inch", "mm"])
@pytest.mark.parametrize(("what", "method"), WAYS)
def test_the_noise_is_what_the_way_of_measuring_claims(what, method, system) -> None:
    """Mean within four standard errors of the truth, spread within a tenth of u.

    The truth is spread over more than a mark, as it is on boats. Marks coarser than u allows
    are a way of measuring that does not exist.
    """
    way, rng, times = WAYS[what, method], Random(11), 3000
    errors = []
    for _ in range(times):
        true = 30 + rng.random()
        errors.append(look(rng, what, method, true, system) - true)
    assert way.mark(system) / 12**0.5 <= way.u * 1.0001
    assert abs(mean(errors)) < 4 * way.u / times**0.5
    assert stdev(errors) == pytest.approx(way.u, rel=0.10)


@pytest.mark.parametrize(
    ("inch", "system", "text"),
    [
        (58.625, "inch", "58 5/8"),
        (0.75, "inch", "3/4"),
        (44.0, "inch", "44"),
        (2.943, "inch", "2.943"),
        (1236 * MM, "mm", "1236"),
        (19.5 * MM, "mm", "19.5"),
    ],
)
def test_a_number_is_written_as_people_do_and_read_back(inch, system, text) -> None:
    assert written(inch, system) == text
    unit = "mm" if system == "mm" else "in"
    body = {"tape_unit": unit, "wants": ["shaft"], "answers": {"face_to_strut_aft": text}}
    read = read_sheet(body).length("face_to_strut_aft")
    assert read is not None
    assert read.in_inches == pytest.approx(inch)


def a_reading(inch: float, system: str = "inch") -> Reading:
    return Reading(written(inch, system), inch, "tape")


@pytest.mark.parametrize(
    ("rewrite", "inch", "system", "text", "value"),
    [
        (tape.eighths_as_decimal, 46.625, "inch", "46.5", 46.5),
        (tape.eighths_as_decimal, 46.0, "inch", "46", 46.0),
        (tape.feet_run_together, 45.0, "inch", "39", 39.0),
        (tape.feet_run_together, 50.125, "inch", "42 1/8", 42.125),
        (tape.feet_run_together, 46.5, "inch", "310 1/2", 310.5),
        (tape.digits_swapped, 46.625, "inch", "64 5/8", 64.625),
        (tape.digits_swapped, 44.125, "inch", "44 1/8", 44.125),
        (tape.other_unit, 46.0, "inch", "1168", 1168.0),
        (tape.other_unit, 1168.4 * MM, "mm", "46.0", 46.0 * MM),
        (tape.centimetres, 46.0, "inch", "116.8", 116.8),
        (tape.centimetres, 1168 * MM, "mm", "116.8", 116.8 * MM),
    ],
)
def test_a_slip_of_the_pen_changes_the_text(rewrite, inch, system, text, value) -> None:
    honest = a_reading(inch, system)
    wrong = rewrite(honest, system, Random(1))
    assert wrong.text == text
    assert wrong.value == pytest.approx(value)
    assert wrong.pen == pytest.approx(value - honest.value)


def test_swapping_digits_takes_two_that_differ() -> None:
    swapped = {
        tape.digits_swapped(a_reading(1178 * MM, "mm"), "mm", Random(n)).text for n in range(30)
    }
    assert swapped == {"1718", "1187"}
