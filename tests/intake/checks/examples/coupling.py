"""For `intake/checks/flange.py`, `bolts.py` and `coupling.py`: (accepted, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import PASS_THROUGH, Examples, Histories, Sheet, tape

_PLATES: Sheet = {"engine_max_rpm": "4600", "gear_ratio": "2:1"}
_ONLY_SHAFT: Sheet = {"top": {"wants": ["shaft"]}}

EXAMPLES: Examples = {
    "flange-is-hub": (
        {"flange_od": tape("2 57/64", "caliper")},
        {"flange_od": tape("2 7/8", "caliper")},
    ),
    "flange-snap": (
        {"flange_od": tape("4 1/16", "caliper")},
        {"flange_od": tape("4 3/32", "caliper")},
    ),
    "flange-102-vs-4": (
        {"flange_od": tape("102 mm"), "bolts": {"count": 4, "size": "M10"}},
        {"flange_od": tape("102 mm")},
    ),
    "flange-vs-diameter": (
        {"flange_od": tape("3 1/2", "caliper")},
        {"flange_od": tape("5", "caliper")},
    ),
    "flange-vs-torque": (
        {**_PLATES, "engine_power": "255 hp"},
        {**_PLATES, "engine_power": "256 hp"},
    ),
    "bolt-circle-from-neighbours": (
        {"bolts": {"count": 4, "spacing": "2 5/16"}},
        {"bolts": {"count": 4, "spacing": "3 1/4"}},
    ),
    "bolt-circle-vs-od": (
        {"bolts": {"count": 4, "spacing": "2 3/8"}},
        {"bolts": {"count": 4, "spacing": "2 1/2"}},
    ),
    "bolt-edge": (
        {"bolts": {"count": 4, "spacing": "2 21/64", "size": "1/2-13"}},
        {"bolts": {"count": 4, "spacing": "2 23/64", "size": "1/2-13"}},
    ),
    "bolt-count": ({"bolts": {"count": 6}}, {"bolts": {"count": 5}}),
    "pilot": (
        {"pilot": {"shape": "raised", "width": "2 1/2", "depth": "1/16"}},
        {"pilot": {"shape": "raised", "width": "2 1/2", "depth": "1/32"}},
    ),
    "reversed-vs-drive": (PASS_THROUGH, {"flange_direction": "forward"}),
    "pass-through-fields": (PASS_THROUGH, {**PASS_THROUGH, "front_taper": {"tapered": "unknown"}}),
    "coupling-bore-type": (
        {"coupling_bore": "straight"},
        {"coupling_bore": "taper"},
    ),
    "hub-to-gland": (
        {"gland_position": tape("4 1/2", "rule"), "hub_length_coupling": tape("2 1/2", "rule")},
        {"gland_position": tape("4 7/16", "rule"), "hub_length_coupling": tape("2 1/2", "rule")},
    ),
    "key-mismatch": (
        {"keyway": {"width": "1/4", "coupling_width": "17/64"}},
        {"keyway": {"width": "1/4", "coupling_width": "9/32"}},
    ),
    "fit-and-face-without-parts": (
        {**_ONLY_SHAFT, "reuse_coupling": {"reuse": True, "sending": True}},
        {**_ONLY_SHAFT, "reuse_coupling": {"reuse": True, "sending": False}},
    ),
}
HISTORY: Histories = {}
