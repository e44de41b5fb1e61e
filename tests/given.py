"""People, boats and parts for tests; each helper takes only what the test is about."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import Any

from catalog.domain.lengths import Length, inches
from catalog.domain.stock import Stock
from catalog.tables import read_parts
from intake.domain.case import Case, build_case
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet
from intake.domain.verdict import Verdict
from intake.evaluate import evaluate

# A clean sheet: three routes agree to the mark, every part is in stock.
CLEAN: dict[str, Any] = {
    "boat_name_and_station": {"name": "Biscuit Barrel", "station": "single"},
    "drive_layout": "inline",
    "flange_direction": "aft",
    "dia_clean": {"text": "1", "method": "caliper"},
    "face_to_strut_aft": {"text": "44 1/8", "method": "rod"},
    "gap_now": {"text": "3/4", "method": "drill_shank"},
    "tail_to_thread": {"text": "4 7/8", "method": "tape_short"},
    "hub_length": {"text": "2 15/16", "method": "caliper"},
    "old_length_face_to_thread": {"text": "49", "method": "tape"},
    "flange_od": {"text": "4", "method": "tape_short"},
    "shell_od": {"text": "1 1/4", "method": "caliper_in_place"},
    "bearing_length": {"text": "2", "count": 1},
}


def a_body(
    *, without: tuple[str, ...] = (), top: dict[str, Any] | None = None, **answers: Any
) -> dict[str, Any]:
    """The clean sheet's body with some answers changed, and some left out."""
    kept = {slug: answer for slug, answer in CLEAN.items() if slug not in without}
    return {
        "channel": "form",
        "tape_unit": "in",
        "wants": ["shaft", "coupling", "bearing"],
        "contact": {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "role": "owner"},
        "answers": {**kept, **answers},
        **(top or {}),
    }


def a_sheet(**changes: Any) -> Sheet:
    return read_sheet(a_body(**changes))


@cache
def demo_stock() -> Stock:
    text = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
    return Stock(tuple(read_parts(text)), 1)


def a_case(**changes: Any) -> Case:
    return build_case(a_sheet(**changes), demo_stock(), History(), DEFAULT_LIMITS)


def judged(history: History | None = None, **changes: Any) -> Verdict:
    return evaluate(a_sheet(**changes), demo_stock(), history or History())


def fired(verdict: Verdict) -> dict[str, str]:
    """check id -> severity of everything that fired."""
    return {finding.check: finding.severity.value for finding in verdict.findings}


def as_inches(length: Length | None) -> str:
    assert length is not None
    return length.inch_text


ONE_64TH = inches("1/64")
