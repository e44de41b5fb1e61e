"""Flange, bolts and coupling, grade by grade."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from catalog.domain.lengths import Length, inches
from catalog.domain.stock import Stock
from intake.domain.flange import bolt_circle_nm, torque_lb_in
from intake.domain.limits import DEFAULT_LIMITS
from intake.evaluate import evaluate
from tests.given import a_sheet, demo_stock, fired, judged
from tests.intake.checks.examples.given import PASS_THROUGH, tape

ONLY_SHAFT = {"wants": ["shaft"]}


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


@pytest.mark.parametrize(
    ("width", "method", "grade"),
    [
        ("4 1/16", "caliper", None),
        ("4 3/32", "tape_short", None),  # a tape is not surer than that
        ("4 3/16", "tape_short", "ask"),
        ("6 1/4", "tape_short", "ask"),
        ("5 3/4", "tape_short", None),
    ],
)
def test_a_flange_is_a_usual_one_within_what_its_tool_tells(
    width: str, method: str, grade: str | None
) -> None:
    assert said("flange-snap", flange_od=tape(width, method)) == grade


@pytest.mark.parametrize(
    ("answers", "fires"),
    [
        ({"flange_od": tape("4", "tape_short")}, False),
        ({"flange_od": tape("100 mm", "caliper")}, True),
        ({"flange_od": tape("127 mm", "caliper")}, True),
        ({"flange_od": tape("115 mm", "caliper")}, False),
        ({"flange_od": tape("102 mm"), "bolts": {"size": "3/8-16"}}, False),
        ({"flange_od": tape("102 mm"), "bolts": {"size": "ten millimetre"}}, True),
    ],
)
def test_a_flange_with_a_twin(answers: dict[str, Any], fires: bool) -> None:
    assert (said("flange-102-vs-4", **answers) == "note") is fires


@pytest.mark.parametrize(
    ("flange", "size", "grade"),
    [
        ("3 1/2", "1", None),
        ("3 1/2", "1 1/8", "ask"),
        ("3 1/2", "1 1/4", "stop"),
        ("4", "1 1/4", None),
        ("4", "1 3/8", "ask"),
        ("3 15/16", "1 3/8", "ask"),  # nearest is 100 mm, and 4 in is as near to a tape
        ("5", "1 1/8", None),
        ("4 1/2", "2", None),  # nobody says what goes with it
    ],
)
def test_the_flange_and_the_shaft(flange: str, size: str, grade: str | None) -> None:
    answers = {"flange_od": tape(flange), "dia_clean": tape(size, "caliper")}
    assert said("flange-vs-diameter", **answers) == grade


def test_torque_is_power_over_speed() -> None:
    """310 hp at 4600 turns: 4247 lb-in; one horsepower at one turn is 33 000 ft lb a minute."""
    assert torque_lb_in(310, 4600) == pytest.approx(4247, abs=1)
    assert torque_lb_in(1, 1) == pytest.approx(33_000 * 12 / (2 * math.pi), abs=1)


@pytest.mark.parametrize(
    ("flange", "grade"), [("3 1/2", "ask"), ("4", None), ("5", None), ("4 1/2", None)]
)
def test_a_small_flange_under_a_strong_engine(flange: str, grade: str | None) -> None:
    engine = {"engine_power": "310 hp", "engine_max_rpm": "4600", "gear_ratio": "1:1"}
    assert said("flange-vs-torque", flange_od=tape(flange), **engine) == grade


@pytest.mark.parametrize(("count", "factor"), [(3, 1.155), (4, 1.414), (6, 2.0)])
def test_the_circle_of_neighbours(count: int, factor: float) -> None:
    assert bolt_circle_nm(count, Length(1_000_000)) == pytest.approx(1e6 * factor, rel=5e-4)


@pytest.mark.parametrize(
    ("bolts", "found"),
    [
        ({"count": 4, "spacing": "2 5/16"}, {}),
        ({"count": 6, "spacing": "1 5/8"}, {}),
        ({"count": 4, "spacing": "3 1/4"}, {"bolt-circle-from-neighbours": "note"}),
        ({"count": 6, "spacing": "3 1/4"}, {"bolt-circle-from-neighbours": "note"}),
        ({"count": 4, "spacing": "2"}, {"bolt-circle-vs-od": "ask"}),
        (
            {"count": 3, "spacing": "3 1/2", "size": "3/8-16"},
            {"bolt-circle-vs-od": "ask", "bolt-edge": "stop"},
        ),
        ({"count": 5, "spacing": "2 5/16"}, {"bolt-count": "ask"}),
        ({"count": 4}, {}),
        ({"spacing": "2 5/16"}, {}),
    ],
)
def test_the_bolts_of_a_4_in_flange(bolts: dict[str, Any], found: dict[str, str]) -> None:
    fires = fired(judged(bolts=bolts))
    assert {name: grade for name, grade in fires.items() if name.startswith("bolt")} == found


@pytest.mark.parametrize("width", ["3 15/16", "4", "4 1/32"])
@pytest.mark.parametrize("spacing", ["2 5/16", "2 3/16"])
def test_4_in_and_100_mm_are_one_reading_and_both_circles_go(width: str, spacing: str) -> None:
    """3-1/4 in of the 4 in flange, 78 mm of the 100 mm one."""
    bolts = {"count": 4, "spacing": spacing}
    assert said("bolt-circle-vs-od", flange_od=tape(width), bolts=bolts) is None


def test_5_in_with_half_inch_bolts_is_no_impossible_trio() -> None:
    """Its own pattern leaves 1/8 in outside each hole, less than three tenths of a hole by tape."""
    bolts = {"count": 4, "spacing": "3", "size": "1/2-13"}
    assert said("bolt-edge", flange_od=tape("5"), bolts=bolts) is None


def test_a_hub_for_a_flange_is_asked_once() -> None:
    """Spacing and edge are not held against a flange that is a neck."""
    found = fired(judged(flange_od=tape("2 1/4"), bolts={"count": 4, "spacing": "2 5/16"}))
    assert found == {"flange-is-hub": "ask"}


@pytest.mark.parametrize(
    ("pilot", "grade"),
    [
        ({"shape": "raised", "width": "2 1/2", "depth": "1/8"}, None),
        ({"shape": "sunk", "width": "3 1/2", "depth": "1/4"}, None),
        ({"shape": "flat", "width": "2 1/2"}, "ask"),
        ({"shape": "sunk", "depth": "5/16"}, "ask"),
        ({"shape": "flat"}, None),
        ({"shape": "flat", "depth": "1/8"}, "ask"),
        ({"shape": "raised"}, None),
    ],
)
def test_the_ring(pilot: dict[str, str], grade: str | None) -> None:
    assert said("pilot", pilot=pilot) == grade


@pytest.mark.parametrize(
    ("answers", "grade"),
    [
        ({"coupling_bore": "taper"}, "note"),
        ({"coupling_bore": "split"}, None),
        ({**PASS_THROUGH, "coupling_bore": "straight"}, "ask"),
        ({**PASS_THROUGH, "coupling_bore": "taper"}, "note"),
        ({**PASS_THROUGH, "coupling_bore": "taper", "front_taper": {"tapered": "no"}}, "ask"),
        ({**PASS_THROUGH, "coupling_bore": "taper", "front_taper": {"tapered": "unknown"}}, "note"),
    ],
)
def test_the_bore_and_the_forward_end(answers: dict[str, Any], grade: str | None) -> None:
    assert said("coupling-bore-type", **answers) == grade


@pytest.mark.parametrize(("size", "grade"), [("1 1/2", None), ("2", "note")])
def test_a_desk_that_asks_for_less_room_still_asks_for_a_diameter(
    size: str, grade: str | None
) -> None:
    """1-1/2 in of bare shaft, at a desk that wants 1 in."""
    limits = replace(DEFAULT_LIMITS, gland_room=inches(1))
    sheet = a_sheet(
        dia_clean=tape(size, "caliper"),
        gland_position=tape("4", "rule"),
        hub_length_coupling=tape("2 1/2", "rule"),
    )
    assert fired(evaluate(sheet, demo_stock(), limits=limits)).get("hub-to-gland") == grade


@pytest.mark.parametrize(("new", "grade"), [("2 3/4", None), ("2 13/16", "ask")])
def test_a_new_coupling_that_reaches_further_aft(new: str, grade: str | None) -> None:
    parts = tuple(
        replace(part, length=inches(new)) if part.kind == "coupling" else part
        for part in demo_stock().parts
    )
    answers = {"gland_position": tape("9", "rule"), "hub_length_coupling": tape("2 1/2", "rule")}
    found = fired(evaluate(a_sheet(**answers), Stock(parts, 1)))
    assert found.get("hub-to-gland") == grade


@pytest.mark.parametrize(
    ("size", "keyway", "grade"),
    [
        ("7/8", {"coupling_width": "1/4"}, None),  # SAE J755
        ("7/8", {"coupling_width": "3/16"}, None),  # ANSI B17.1
        ("7/8", {"coupling_width": "5/16"}, "note"),
        ("7/8", {"coupling_width": "5/16", "width": "5/16"}, None),
        ("7/8", {"width": "5/16"}, None),
        ("25 mm", {"coupling_width": "8 mm"}, None),  # ISO 773
        ("25 mm", {"coupling_width": "10 mm"}, "note"),
    ],
)
def test_the_key_of_the_coupling(size: str, keyway: dict[str, str], grade: str | None) -> None:
    assert said("key-mismatch", dia_clean=tape(size, "caliper"), keyway=keyway) == grade


@pytest.mark.parametrize(
    ("top", "reuse", "grade"),
    [
        (ONLY_SHAFT, {"reuse": True}, "ask"),
        (ONLY_SHAFT, {"reuse": True, "sending": True}, None),
        (ONLY_SHAFT, {"reuse": False}, None),
        ({"wants": ["shaft", "coupling"]}, {"reuse": True}, None),
    ],
)
def test_the_old_coupling_comes_along(
    top: dict[str, Any], reuse: dict[str, bool], grade: str | None
) -> None:
    assert said("fit-and-face-without-parts", top=top, reuse_coupling=reuse) == grade
