"""For `intake/checks/strength.py` and `metal.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from typing import Any

from catalog.domain.lengths import inches
from intake.domain.history import History
from tests.given import a_sheet
from tests.intake.checks.examples.given import Examples, Histories


def plates(power: str = "30 hp", rpm: str = "1500", ratio: str = "1:1") -> dict[str, Any]:
    """What the engine's and the gearbox's plate say."""
    return {"engine_power": power, "engine_max_rpm": rpm, "gear_ratio": ratio}


def supported(*places: str) -> dict[str, Any]:
    """Bearings on the way, so far from the coupling face."""
    return {"supports": [{"what": "bearing", "from_face": place} for place in places]}


def in_water(alloy: str, kind: str = "salt", weeks: int = 2) -> dict[str, Any]:
    return {"top": {"alloy": alloy}, "water": {"kind": kind, "weeks_idle": weeks}}


METRIC_TAPE = {"top": {"tape_unit": "mm"}, "dia_clean": {"text": "1 in", "method": "caliper"}}
ALUMINIUM = {"hull_material": {"hull": "aluminium"}}

EXAMPLES: Examples = {
    # 104 hp at 1500 turns on 1 in of S20910 leaves 3.15 and 110 hp 2.97, where 3 is wanted.
    "torque-margin": (
        {"engine_power": "104 hp", "engine_max_rpm": "1500", "gear_ratio": "1:1"},
        {"engine_power": "110 hp", "engine_max_rpm": "1500", "gear_ratio": "1:1"},
    ),
    # 44 1/8 in of 1 in S20910, free at both ends, begin to whip at 2356 turns.
    "span-whip": (plates(rpm="2350"), plates(rpm="2360")),
    "span-short": (supported("24 1/8"), supported("24 9/64")),
    "prop-over-shaft": (
        {"prop_size": {"diameter": "18", "pitch": "12"}},
        {"prop_size": {"diameter": "18 1/4", "pitch": "12"}},
    ),
    "shaft-rpm": (plates(rpm="5000"), plates(rpm="5001")),
    # 59 kW at 1090 turns leave the shaft 3.003, and at 1085 turns 2.989, where 3 is wanted.
    "kw-as-hp": (
        {**METRIC_TAPE, **plates("59 hp", "1090")},
        {**METRIC_TAPE, **plates("59 hp", "1085")},
    ),
    "diameter-downsize": ({}, {}),
    "alloy-vs-water": (
        in_water("S31600", kind="fresh", weeks=3),
        in_water("S31600", kind="brackish", weeks=0),
    ),
    "alloy-vs-hull": (
        {"top": {"alloy": "S31600"}, **ALUMINIUM},
        {"top": {"alloy": "N05500"}, **ALUMINIUM},
    ),
    "mixed-pair-metal": ({}, {}),
}
HISTORY: Histories = {
    "diameter-downsize": (
        History(last_diameter=inches(1), last_alloy="S20910"),
        History(last_diameter=inches("1 1/8")),
    ),
    "mixed-pair-metal": (
        History(sister=a_sheet(top={"alloy": "S20910"}), sister_station="port"),
        History(sister=a_sheet(top={"alloy": "S31600"}), sister_station="port"),
    ),
}
