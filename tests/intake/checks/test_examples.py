"""Every check has one sheet that it accepts, right at the limit, and one that it questions."""

from __future__ import annotations

import pytest

from intake.checks import BY_ID, CHECKS
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS
from intake.evaluate import evaluate
from tests.given import a_sheet, demo_stock
from tests.intake.checks.examples import EXAMPLES, HISTORY, LIMITS


def fires(name: str, which: int) -> list[str]:
    """The severities with which one check fires on its example."""
    history = HISTORY[name][which] if name in HISTORY else History()
    limits = LIMITS.get(name, DEFAULT_LIMITS)
    verdict = evaluate(a_sheet(**EXAMPLES[name][which]), demo_stock(), history, limits)
    return [found.severity.value for found in verdict.findings if found.check == name]


@pytest.mark.parametrize("name", EXAMPLES)
def test_right_at_the_limit_is_accepted(name: str) -> None:
    assert fires(name, 0) == []


@pytest.mark.parametrize("name", EXAMPLES)
def test_past_the_limit_is_questioned(name: str) -> None:
    assert fires(name, 1)


def test_every_check_has_its_examples() -> None:
    assert set(EXAMPLES) == set(BY_ID)
    assert len(CHECKS) == len(BY_ID)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.id)
def test_every_check_says_why_asks_openly_and_names_its_source(check) -> None:
    assert check.why.split("\n")[0].endswith(".")
    assert check.ask.endswith("?")
    assert check.source
