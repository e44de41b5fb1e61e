"""``as-made-length``, ``runout``, ``trial-seat``: one accepted and one questioned example each."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import Length, inches
from intake.domain.verdict import Severity
from quotes.checks import ALL
from quotes.checks.as_made import (
    LengthLimits,
    RunoutLimits,
    SeatLimits,
    how_it_seats,
    how_true_it_runs,
    length_as_made,
)
from tests.quotes.domain.test_as_made import TRUE, made

HAIR = Length(1_000)  # a thousandth of a millimetre


def test_they_are_listed_with_their_severity_and_an_open_question() -> None:
    known = {check.id: check for check in ALL}
    assert known["as-made-length"].severity == Severity.STOP
    assert known["runout"].severity == Severity.STOP
    assert known["trial-seat"].severity == Severity.ASK
    for name in ("cutsheet-chain", "as-made-length", "runout", "trial-seat"):
        assert known[name].ask.endswith("?")
        assert known[name].source
        assert known[name].why


def test_a_thirty_second_is_allowed_and_a_hair_more_is_not() -> None:
    for limit in (inches("1/32"), -inches("1/32")):
        assert length_as_made.found(made(length=inches(49) + limit)) == ()
        beyond = inches(49) + limit + (HAIR if limit.nm > 0 else -HAIR)
        (found,) = length_as_made.found(made(length=beyond))
        assert "0.031 in (0.79 mm) is allowed" in found.message
    wide = LengthLimits(length_off=inches(1))
    assert length_as_made.found(made("49 1/2"), wide) == ()


@pytest.mark.parametrize("place", ["coupling", "bearing", "taper"])
def test_five_thou_at_any_journal_and_two_on_the_face(place: str) -> None:
    assert how_true_it_runs.found(made(runout={**TRUE, place: inches("0.005")})) == ()
    (found,) = how_true_it_runs.found(made(runout={**TRUE, place: inches("0.0055")}))
    assert found.answers == (f"runout_{place}",)
    assert "0.0055 in (0.140 mm)" in found.message
    assert how_true_it_runs.found(made(face=inches("0.002"))) == ()
    (face,) = how_true_it_runs.found(made(face=inches("0.0021")))
    assert face.answers == ("face",)


def test_a_short_shaft_may_run_out_two_thou_for_each_foot() -> None:
    """24 in are two feet: 0.004 in; from 30 in on the most at any journal holds."""
    limits = RunoutLimits()
    assert limits.at(inches(24)) == inches("0.004")
    assert limits.at(inches(30)) == limits.at(inches(96)) == inches("0.005")


def test_seventy_per_cent_and_a_sixteenth_of_seat() -> None:
    assert how_it_seats.found(made(contact=70)) == ()
    (found,) = how_it_seats.found(made(contact=69))
    assert "69 %; 70 % is wanted" in found.message
    assert how_it_seats.found(made(seat=inches("1 1/8"))) == (), "1/16 in aft is the limit"
    (found,) = how_it_seats.found(made(seat=inches("1 7/64")))
    assert "further aft" in found.message
    (found,) = how_it_seats.found(made(small_end=inches("0.823")))
    assert "further forward" in found.message
    assert how_it_seats.found(made(contact=60), SeatLimits(contact=50)) == ()
