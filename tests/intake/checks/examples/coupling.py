"""For `intake/checks/coupling.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import PASS_THROUGH, Examples, Histories, tape

EXAMPLES: Examples = {
    "flange-is-hub": (
        {"flange_od": tape("2 57/64", "caliper")},
        {"flange_od": tape("2 7/8", "caliper")},
    ),
    "flange-snap": (
        {"flange_od": tape("4 1/16", "caliper")},
        {"flange_od": tape("4 3/32", "caliper")},
    ),
    "flange-vs-diameter": (
        {"flange_od": tape("3 1/2", "caliper")},
        {"flange_od": tape("5", "caliper")},
    ),
    "reversed-vs-drive": (PASS_THROUGH, {"flange_direction": "forward"}),
    "pass-through-fields": (PASS_THROUGH, {**PASS_THROUGH, "front_taper": {"tapered": "unknown"}}),
}
HISTORY: Histories = {}
