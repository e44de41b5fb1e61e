"""The vectors that the browser's drawing is held to are what Python draws today."""

from __future__ import annotations

import json
from typing import Any

from intake.domain.drawing import gap_picture
from tests.intake.domain.drawing_vectors import LAYOUTS, VECTORS, as_data, cases, drawn, gaps

KEPT: dict[str, Any] = json.loads(VECTORS.read_text(encoding="utf-8"))


def test_every_kept_case_is_what_is_drawn_today() -> None:
    assert len(KEPT["cases"]) == len(cases())
    for kept, case in zip(KEPT["cases"], cases(), strict=True):
        assert {"stack": kept["stack"], "options": kept["options"]} == case
        expected = kept["expected"]
        groups = [["", "plain", KEPT["backs"][kept["back"]]], *expected["groups"]]
        assert as_data(drawn(case)) == expected | {"groups": groups}, case


def test_every_kept_gap_is_what_is_drawn_today() -> None:
    assert [one["stack"] for one in KEPT["gaps"]] == gaps()
    for one in KEPT["gaps"]:
        assert as_data(gap_picture(one["stack"])) == one["expected"], one["stack"]


def test_they_hold_every_drive_side_system_and_question() -> None:
    stacks = [case["stack"] for case in KEPT["cases"]]
    assert {stack.get("layout") for stack in stacks} >= set(LAYOUTS)
    assert {stack.get("station") for stack in stacks} >= {"single", "port", "starboard", "centre"}
    assert {stack.get("system") for stack in stacks} >= {"inch", "mm"}
    lit = {case["options"].get("lit") for case in KEPT["cases"]}
    assert lit >= {name.removesuffix(".name") for name in KEPT["words"] if name.endswith(".name")}
