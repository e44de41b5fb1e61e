"""Torque, span, speed and metal, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from catalog.domain.lengths import inches
from catalog.domain.standards import value
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS
from tests.given import a_sheet, fired, judged
from tests.intake.checks.examples.strength import ALUMINIUM, in_water, plates, supported


def said(name: str, history: History | None = None, **answers: Any) -> str | None:
    """The severity with which one check speaks of a sheet."""
    return fired(judged(history, **answers)).get(name)


@pytest.mark.parametrize(
    ("use", "service", "asked"),
    [
        ("pleasure", "average yachts", "104 hp"),
        ("work", "pilot and patrol boats", "65 hp"),
        ("passenger", "commercial inspected passenger", "43 hp"),
    ],
)
def test_each_service_wants_its_own_margin(use: str, service: str, asked: str) -> None:
    """1 in of S20910 at 1500 turns: 327.1 over the horsepower."""
    wanted = {
        "pleasure": DEFAULT_LIMITS.safety_pleasure,
        "work": DEFAULT_LIMITS.safety_work,
        "passenger": DEFAULT_LIMITS.safety_passenger,
    }[use]
    assert wanted == float(value("safety_factors", service, "sf_min").number)
    hp = 327.1 / wanted
    for power, severity in ((hp - 0.1, None), (hp + 0.2, "ask"), (hp * 1.5 + 0.2, "stop")):
        told = plates(f"{power:.1f} hp")
        assert said("torque-margin", top={"use": use}, **told) == severity
    assert said("torque-margin", top={"use": use}, **plates(asked)) is None


@pytest.mark.parametrize(
    ("rpm", "severity"), [("2350", None), ("2360", "note"), ("2940", "note"), ("2950", "ask")]
)
def test_a_span_is_noted_past_the_free_limit_and_asked_past_the_clamped(
    rpm: str, severity: str | None
) -> None:
    """44 1/8 in of 1 in S20910: 2355 turns free at both ends, 0.8 of 3680 with one clamped."""
    assert said("span-whip", **plates(rpm=rpm)) == severity


def test_a_bearing_on_the_way_shortens_the_span_and_a_gland_does_not() -> None:
    fast = plates(rpm="3000")
    assert said("span-whip", **fast) == "ask"
    assert said("span-whip", **fast, **supported("22")) is None
    gland = {"supports": [{"what": "the stuffing gland", "from_face": "22"}]}
    assert said("span-whip", **fast, **gland) == "ask"


def test_the_strut_named_as_a_support_is_the_strut() -> None:
    strut = {"supports": [{"what": "strut", "from_face": "43"}]}
    assert said("span-short", **strut) is None
    assert said("span-short", **supported("22", "33")) == "note"


@pytest.mark.parametrize(("diameter", "severity"), [("9", None), ("8 7/8", "ask"), ("18", None)])
def test_a_propeller_is_nine_to_eighteen_shafts_wide(diameter: str, severity: str | None) -> None:
    assert said("prop-over-shaft", prop_size={"diameter": diameter}) == severity


@pytest.mark.parametrize(
    ("rpm", "ratio", "severity"),
    [
        ("600", "2:1", None),
        ("598", "2:1", "ask"),
        ("5500", "1:1", "ask"),
        ("5501", "1:1", "stop"),
        ("4200", "0.75:1", "stop"),
    ],
)
def test_a_ratio_turned_over_gives_a_speed_no_shaft_has(
    rpm: str, ratio: str, severity: str | None
) -> None:
    assert said("shaft-rpm", **plates("1 hp", rpm, ratio)) == severity


def test_horsepower_is_doubted_only_where_the_tape_is_metric_and_the_figure_is() -> None:
    metric = {"top": {"tape_unit": "mm"}}
    assert said("kw-as-hp", **metric, engine_power="59 hp") == "note"
    assert said("kw-as-hp", **metric, engine_power="59 kW") is None
    assert said("kw-as-hp", **metric, engine_power="60 hp") is None
    assert said("kw-as-hp", engine_power="59 hp") is None


@pytest.mark.parametrize(
    ("last", "alloy", "severity"),
    [
        (History(last_diameter=inches(1), last_alloy="S20910"), "S31600", "stop"),
        (History(last_diameter=inches(1), last_alloy="S31600"), "S20910", None),
        (History(last_diameter=inches(1), last_alloy="X99999"), "S31600", None),
        (History(last_diameter=inches(1)), "S31600", None),
        (History(last_diameter=inches("7/8")), "S20910", None),
        (History(last_diameter=inches("1 1/8")), "S20910", "stop"),
        (History(), "S31600", None),
    ],
)
def test_a_weaker_metal_is_a_reduction_too(last: History, alloy: str, severity: str | None) -> None:
    assert said("diameter-downsize", last, top={"alloy": alloy}) == severity


@pytest.mark.parametrize(
    ("alloy", "kind", "weeks", "severity"),
    [
        ("S20910", "salt", 30, None),
        ("S30400", "salt", 0, "ask"),
        ("1.4401", "salt", 2, "note"),
        ("1.4401", "salt", 3, "ask"),
        ("S31600", "brackish", 30, "note"),
        ("S31600", "fresh", 30, None),
    ],
)
def test_plain_stainless_and_salt(alloy: str, kind: str, weeks: int, severity: str | None) -> None:
    assert said("alloy-vs-water", **in_water(alloy, kind, weeks)) == severity


def test_who_says_nothing_of_idle_weeks_is_told_and_not_asked() -> None:
    salt = {"top": {"alloy": "S31600"}, "water": "salt"}
    assert said("alloy-vs-water", **salt) == "note"


@pytest.mark.parametrize("alloy", ["C46400", "N04400", "N05500", "2.4360"])
def test_bronze_eats_aluminium_and_nothing_else(alloy: str) -> None:
    assert said("alloy-vs-hull", top={"alloy": alloy}, **ALUMINIUM) == "stop"
    assert said("alloy-vs-hull", top={"alloy": alloy}, hull_material={"hull": "grp"}) is None


def test_a_twin_that_names_no_metal_gets_the_desks_usual_one() -> None:
    plain = History(sister=a_sheet(), sister_station="port")
    assert said("mixed-pair-metal", plain) is None
    assert said("mixed-pair-metal", plain, top={"alloy": "S31600"}) == "note"
