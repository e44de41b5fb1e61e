"""``remnant-waste``: accepted and questioned at its limits. The limits are common practice."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import Length, inches
from intake.domain.verdict import Severity
from quotes.checks import ALL
from quotes.checks.bars import BarFacts, nothing_is_wasted

NEEDED = inches(50)
A_NM = Length(1)


def messages(left: Length | None, *remnants: Length, on_remnant: bool = False) -> list[str]:
    facts = BarFacts(NEEDED, left, on_remnant, remnants)
    return [found.message for found in nothing_is_wasted.found(facts)]


def test_it_is_a_note_with_an_open_question() -> None:
    assert nothing_is_wasted in ALL
    assert (nothing_is_wasted.id, nothing_is_wasted.severity) == ("remnant-waste", Severity.NOTE)
    assert "either way?" in nothing_is_wasted.ask


def test_a_bar_that_leaves_24_inches_is_accepted() -> None:
    assert messages(inches(24)) == []
    assert messages(Length(0)) == []
    assert messages(None) == []


def test_a_drop_under_24_inches_is_said() -> None:
    (said,) = messages(inches(24) - A_NM)
    assert "too short to keep" in said


@pytest.mark.parametrize("over", [inches(1), inches(6)])
def test_a_remnant_that_fits_is_to_be_used(over: Length) -> None:
    (said,) = messages(inches(94), NEEDED + over)
    assert said.startswith("A remnant fits")
    assert messages(over, NEEDED + over, on_remnant=True) == []


@pytest.mark.parametrize("over", [inches(1) - A_NM, inches(6) + A_NM])
def test_a_remnant_that_fits_badly_is_not_urged(over: Length) -> None:
    assert messages(inches(94), NEEDED + over) == []


def test_a_remnant_an_eighth_too_short_is_worth_asking_for() -> None:
    (said,) = messages(inches(94), NEEDED - inches("1/8"))
    assert said == "A remnant is only 1/8 in · 3.2 mm too short."
    assert messages(inches(94), NEEDED - inches("1/8") - A_NM) == []
