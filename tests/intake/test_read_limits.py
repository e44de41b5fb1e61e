"""Which limits a check reads is found in its code, through every function of ours it calls."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import pytest

from intake.checks import CHECKS
from intake.checks.base import Check, Mismatch
from intake.domain.case import Case
from intake.domain.limits import Limits
from intake.domain.verdict import Severity
from intake.read_limits import limits_read, severities_of, weighs_causes


def _helper(limits: Limits) -> float:
    return limits.fit_ask


@lru_cache(maxsize=1)
def _kept(limits: Limits) -> float:
    return limits.fit_stop


def _direct(case: Case) -> Iterator[Mismatch]:
    if case.limits.route_ask:
        yield Mismatch((), "", severity=Severity.STOP)


def _through_a_name(case: Case) -> list[float]:
    rules = case.limits
    return [rules.slip_u for _ in range(2)] + [_helper(rules)]


def _through_a_cache(case: Case) -> float:
    return _kept(case.limits)


def _through_the_case(case: Case) -> str:
    return case.alloy


def _not_a_limit(case: Case) -> object:
    return case.routes.barrel  # type: ignore[union-attr]


HELPERS: list[Any] = [
    *(_helper, _kept.__wrapped__, _direct, _through_a_name),
    *(_through_a_cache, _through_the_case, _not_a_limit),
]


@pytest.fixture(autouse=True)
def _as_ours(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only code of ours is followed; for this test the helpers above are."""
    for helper in HELPERS:
        monkeypatch.setattr(helper, "__module__", "intake.test")
    limits_read.cache_clear()


def test_an_attribute_of_limits_is_a_limit_read() -> None:
    assert limits_read(_direct) == ("route_ask",)
    assert limits_read(_not_a_limit) == ()


def test_helpers_caches_and_other_names_are_followed() -> None:
    assert limits_read(_through_a_cache) == ("fit_stop",)
    assert set(limits_read(_through_a_name)) == {"fit_ask", "slip_u"}


def test_what_the_case_computes_from_limits_counts_too() -> None:
    assert limits_read(_through_the_case) == ("alloy_inch", "alloy_metric")


def test_the_severities_a_rule_grades_by_are_found() -> None:
    assert severities_of(_direct) == {"STOP"}
    assert not weighs_causes(_direct)


@pytest.mark.parametrize(
    ("check_id", "limit"),
    [
        ("route-boat-vs-old", "route_z_ask"),
        ("bearing-wall", "wall_least"),
        ("gap-now-plausible", "gap_now_stop"),
        ("single-route", "second_reading_u"),
        ("unit-factor-25", "factor_25_band"),
    ],
)
def test_the_real_checks_name_their_limits(check_id: str, limit: str) -> None:
    (found,) = (check for check in CHECKS if check.id == check_id)
    assert isinstance(found, Check)
    assert limit in limits_read(found.look)


def test_no_check_claims_the_limits_of_the_whole_computation() -> None:
    for check in CHECKS:
        assert len(limits_read(check.look)) <= 15, check.id
