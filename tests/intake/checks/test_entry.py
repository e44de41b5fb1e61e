"""What is there, in range, possible and fresh, grade by grade."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from intake.domain.history import History
from tests.given import fired, judged
from tests.intake.checks.examples.given import tape

IN_MAY = History(today=date(2026, 5, 1))


@pytest.mark.parametrize(
    ("day", "severity"),
    [
        ("2026-05-01", None),
        ("2026-03-02", None),
        ("2026-03-01", "note"),
        ("2025-05-01", "note"),
        ("2025-04-30", "ask"),
    ],
)
def test_old_numbers_are_noted_and_last_years_are_asked_about(
    day: str, severity: str | None
) -> None:
    assert fired(judged(IN_MAY, measured_when=day)).get("stale-measurement") == severity


def test_without_the_day_it_came_in_no_number_is_old() -> None:
    assert "stale-measurement" not in fired(judged(measured_when="2020-01-01"))


@pytest.mark.parametrize(
    ("answers", "holds"),
    [
        ({"bearing_length": {"text": "13", "count": 1}}, ("bearing",)),
        ({"bolts": {"count": 4, "spacing": "6 1/2"}}, ("coupling",)),
        ({"pieces": {"inner": "1", "log": "20", "outer": "23"}}, ("shaft",)),
        ({"engine_power": "1001 hp"}, ("shaft",)),
        ({"engine_max_rpm": "499"}, ("shaft",)),
    ],
)
def test_a_number_out_of_range_holds_the_part_it_is_for(
    answers: dict[str, Any], holds: tuple[str, ...]
) -> None:
    found = [f for f in judged(**answers).findings if f.check == "range-single"]
    assert [(f.severity.value, f.answers, f.holds) for f in found] == [
        ("stop", tuple(answers), holds)
    ]


@pytest.mark.parametrize(("power", "speed"), [("5 hp", "500"), ("1000 hp", "6000")])
def test_an_engine_at_the_end_of_the_range_is_an_engine(power: str, speed: str) -> None:
    assert "range-single" not in fired(judged(engine_power=power, engine_max_rpm=speed))


@pytest.mark.parametrize(
    ("answers", "severity"),
    [
        ({"shaft_in": "in"}, "ask"),
        ({"shaft_in": "in", "face_to_strut_aft": tape("44 1/8", "pieces")}, None),
        ({"shaft_in": "unknown"}, None),
        ({"coupling_state": "off"}, "ask"),
        ({"afloat_or_ashore": "afloat"}, "ask"),
        ({"afloat_or_ashore": "slings"}, None),
    ],
)
def test_what_could_not_be_measured_like_that_is_asked_about(
    answers: dict[str, Any], severity: str | None
) -> None:
    assert fired(judged(**answers)).get("method-impossible") == severity


def test_a_gap_that_cannot_be_measured_is_not_missing() -> None:
    body = {"without": ("face_to_strut_aft", "gap_now")}
    assert fired(judged(**body))["missing-critical"] == "stop"
    known = fired(judged(**body, gap_now={"state": "cannot_measure"}))
    assert "missing-critical" not in known
