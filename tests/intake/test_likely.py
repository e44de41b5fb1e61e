"""Likely causes in plain words: shares for the desk, none for customers; three findings shown."""

from __future__ import annotations

import re
from typing import Any

import pytest

from intake.cause_words import CAUSE_WORDS
from intake.domain.causes import CAUSES
from intake.likely import Doubts, ShownFinding, likely_causes


def a_finding(*causes: tuple[str, float]) -> dict[str, Any]:
    likely = [{"cause": code, "label": CAUSES[code], "probability": p} for code, p in causes]
    return {"check": "route-boat-vs-old", "severity": "ask", "question": "?", "likely": likely}


def test_every_cause_has_plain_words_and_no_number_that_was_expected() -> None:
    assert set(CAUSE_WORDS) == set(CAUSES)
    for words in map(str, CAUSE_WORDS.values()):
        assert words[0].islower() or words[0] == "“", words
        assert not words.endswith(".")
        assert not re.search(r"\d+[/.]\d|\d (in|mm)\b", words), words


def test_the_desk_sees_the_first_three_with_their_shares() -> None:
    told = likely_causes(a_finding(("D-CBACK", 0.39), ("D-PIN", 0.2), ("R-FLIP", 0.1), ("X", 0.09)))
    assert [(cause.code, cause.share) for cause in told] == [
        ("D-CBACK", "39 %"),
        ("D-PIN", "20 %"),
        ("R-FLIP", "10 %"),
    ]
    assert "aft face of the shaft flange" in str(told[0].words)


def test_a_cause_that_is_hardly_one_is_not_named_beside_a_better_one() -> None:
    assert [c.code for c in likely_causes(a_finding(("D-PIN", 0.9), ("X", 0.04)))] == ["D-PIN"]
    assert [c.code for c in likely_causes(a_finding(("D-PIN", 0.04)))] == ["D-PIN"]
    assert likely_causes({"likely": None}) == likely_causes({}) == []


def test_the_customer_hears_two_that_can_be_looked_for() -> None:
    causes = (("X", 0.4), ("K-TYPED", 0.3), ("D-PIN", 0.2))
    assert ShownFinding(a_finding(*causes)).often == [CAUSE_WORDS["D-PIN"]]


@pytest.mark.parametrize(("count", "first", "rest"), [(0, 0, 0), (3, 3, 0), (5, 3, 2)])
def test_three_findings_are_shown_and_the_rest_folded(count: int, first: int, rest: int) -> None:
    doubts = Doubts([a_finding()] * count)
    assert (len(doubts.first), len(doubts.rest)) == (first, rest)
