"""The demo day's submissions against an experienced clerk's verdicts (invented scenario).

S07 is the one difference. Its body gives the strut distance from the back of the gearbox without
saying so, and leaves out whether the front end tapers. An absent datum reads as the front mating
face, so the sheet is nine and a quarter inches from its own old shaft, and it is stopped. Said as
the customer said it, it is released, and that is tested too.
"""

from __future__ import annotations

import copy
import json
from importlib import resources
from pathlib import Path
from typing import Any

import pytest

from intake.domain.reading import read_sheet
from intake.domain.verdict import Verdict
from intake.evaluate import evaluate
from tests.given import as_inches, demo_stock, fired

HERE = Path(__file__).parent.parent
BODIES = {
    row["ref"]: row["body"]
    for row in json.loads(resources.files("quotes").joinpath("demo/bodies.json").read_text("utf-8"))
}
EXPERT = {
    row["ref"]: row for row in json.loads((HERE / "data/expert_verdicts.json").read_text("utf-8"))
}
WORDS = {
    "release": "release",
    "release pair": "release",
    "release with note": "release",
    "call back": "ask",
    "call back (short)": "ask",
    "stop": "stop",
}
# What the expert names and our checks of this issue also name.
NAMED = {
    "S02": {"gap-goal-by-diameter"},
    "S04": {"flange-102-vs-4"},
    "S08": {"strut-moved"},
    "S09": {"single-route"},
    "S11": {"route-boat-vs-old", "pin-end-included"},
    "S13": {"datum-forward", "route-boat-vs-old"},
    "S15": {"dia-two-spots", "bearing-with-shaft"},
    "S16": {"dia-odd-sixteenth"},
    "S19": {"flange-is-hub"},
    "S20": {"dia-inch-metric-tie"},
    "S24": {"unit-factor-25", "range-single"},
    "S26": {"feet-inch-run-together"},
    "S28": {"reversed-vs-drive"},
}
CUT = {
    "S01": "49",
    "S02": "40 3/4",
    "S06 port": "67",
    "S06 starboard": "67 3/8",
    "S08": "49",
    "S09": "59 1/2",
    "S11": "46 1/4",
    "S15": "55 5/8",
    "S16": "49 3/8",
    "S19": "52 1/2",
    "S20": "44 1/2",
    "S24": "48 1/4",
    "S26": "53 3/4",
    "S28": "49 1/2",
}


def verdict(body: dict[str, Any]) -> Verdict:
    return evaluate(read_sheet(body), demo_stock())


@pytest.mark.parametrize("ref", [ref for ref in BODIES if ref != "S07"])
def test_the_verdict_is_the_experts(ref: str) -> None:
    found = verdict(BODIES[ref])
    assert found.verdict.value == WORDS[EXPERT[ref.split()[0]]["verdict"]]
    assert NAMED.get(ref, set()) <= set(fired(found))


@pytest.mark.parametrize("ref", CUT)
def test_the_cut_length_is_the_experts(ref: str) -> None:
    shaft = verdict(BODIES[ref]).shaft
    assert shaft is not None
    assert as_inches(shaft.cut) == CUT[ref]


def test_the_metric_shaft_is_cut_to_950() -> None:
    shaft = verdict(BODIES["S04"]).shaft
    assert shaft is not None
    assert shaft.cut.mm_text == "950.000000"


def test_a_pass_through_without_its_datum_is_stopped() -> None:
    found = fired(verdict(BODIES["S07"]))
    assert found == {
        "route-boat-vs-old": "stop",
        "pass-through-fields": "stop",
        "pass-through-datum": "ask",
    }


def test_a_pass_through_told_whole_is_released() -> None:
    body = copy.deepcopy(BODIES["S07"])
    body["answers"] |= {"forward_datum": "gearbox_back", "front_taper": {"tapered": "yes"}}
    found = verdict(body)
    assert found.verdict.value == "release"
    assert found.shaft is not None
    assert as_inches(found.shaft.cut) == "41 3/8"
    assert as_inches(found.shaft.overall) == "45 5/16"


def test_the_customers_thickness_puts_the_datum_right() -> None:
    body = copy.deepcopy(BODIES["S13"])
    body["answers"]["flange_thickness"] = {"coupling": "1/2"}
    found = verdict(body)
    assert found.verdict.value == "release"
    assert found.shaft is not None
    assert as_inches(found.shaft.cut) == "52 3/8"
