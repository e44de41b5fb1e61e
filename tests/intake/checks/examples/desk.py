"""For `intake/checks/desk.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from typing import Any

from tests.intake.checks.examples.given import Examples, Histories, tape


def as_long_as(strut: str, old: str, **answers: Any) -> dict[str, Any]:
    """The clean boat with another length, told by two routes alike."""
    lengths = {"face_to_strut_aft": tape(strut, "rod"), "old_length_face_to_thread": tape(old)}
    return {**lengths, **answers}


def sent_to(kind: str) -> dict[str, Any]:
    return {"ship_to": {"country": "XX", "kind": kind}}


TWO_INCH = {
    "without": ("tail_to_thread",),
    "dia_clean": tape("2", "caliper"),
    "hub_length": tape("5 3/4", "caliper"),
}
# 1:10 over 2 3/4 in.
METRIC_TAPER = {"taper_two_dia": {"large": "1", "small": "0.725", "between": "2 3/4"}}

EXAMPLES: Examples = {
    "stock-length": (
        {"face_to_strut_aft": tape("138 1/2", "rod"), "old_length_face_to_thread": tape("143 3/8")},
        {"face_to_strut_aft": tape("138 5/8", "rod"), "old_length_face_to_thread": tape("143 1/2")},
    ),
    # 44 and 4 in make the first class.
    "parcel-length": (
        as_long_as("39 1/8", "44", **sent_to("yard")),
        as_long_as("39 1/4", "44 1/8", **sent_to("yard")),
    ),
    # 2 in of S20910 weigh 0.895 lb an inch: 49.9 and 50.03 lb.
    "weight": (
        {**TWO_INCH, **as_long_as("46 3/8", "55 1/4")},
        {**TWO_INCH, **as_long_as("46 1/2", "55 3/8")},
    ),
    "long-parcel-address": (
        as_long_as("63 1/8", "68", **sent_to("home")),
        as_long_as("63 1/4", "68 1/8", **sent_to("home")),
    ),
    "impossible-combo": (
        {**METRIC_TAPER, "thread": {"text": "M20x1.5"}},
        {**METRIC_TAPER, "thread": {"text": "3/4-10"}},
    ),
}
HISTORY: Histories = {}
