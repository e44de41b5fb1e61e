"""``outcome-missing`` and ``outcome-gap-shift``: right at the limit accepted, one step on not."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import Length, inches
from intake.domain.verdict import Severity
from quotes.checks import ALL
from quotes.checks.outcomes import (
    OutcomeFacts,
    it_fits_as_predicted,
    it_was_told_how_it_fitted,
)

U = inches("1/16")
PREDICTED = inches("3/4")


@pytest.mark.parametrize(
    ("facts", "asks"),
    [
        (OutcomeFacts(days=None), False),  # not sent: nothing is asked
        (OutcomeFacts(days=30), False),
        (OutcomeFacts(days=31), True),
        (OutcomeFacts(days=31, told=True), False),
        (OutcomeFacts(days=31, waits=True), False),  # they named a later day
    ],
)
def test_silence_after_thirty_days_is_noted(facts: OutcomeFacts, asks: bool) -> None:
    assert bool(it_was_told_how_it_fitted.found(facts)) == asks


@pytest.mark.parametrize("sign", [1, -1])
def test_a_gap_two_uncertainties_off_is_accepted_and_a_nanometre_more_is_not(sign: int) -> None:
    """JCGM 100: expanded uncertainty with coverage factor 2."""
    for extra, asks in ((0, False), (1, True)):
        gap = PREDICTED + Length(sign * (2 * U.nm + extra))
        found = it_fits_as_predicted.found(OutcomeFacts(gap=gap, predicted=PREDICTED, u=U))
        assert bool(found) == asks
        if found:
            assert ("wider" if sign > 0 else "narrower") in found[0].message


def test_what_is_not_known_proves_nothing() -> None:
    for facts in (
        OutcomeFacts(predicted=PREDICTED, u=U),
        OutcomeFacts(gap=inches(2), u=U),
        OutcomeFacts(gap=inches(2), predicted=PREDICTED),
        OutcomeFacts(gap=inches(2), predicted=PREDICTED, u=Length(0)),
    ):
        assert it_fits_as_predicted.found(facts) == ()


def test_they_are_notes_with_open_questions() -> None:
    found = {check.id: check for check in ALL}
    for name in ("outcome-missing", "outcome-gap-shift"):
        assert found[name].severity is Severity.NOTE
        assert found[name].ask.startswith(("With", "What"))
        assert not any(sign.isdecimal() for sign in found[name].ask)
