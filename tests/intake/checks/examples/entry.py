"""For `intake/checks/entry.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "missing-critical": (
        {"without": ("dia_clean",), "bearing_id_or_mark": tape("1", "mark")},
        {"without": ("flange_direction",)},
    ),
    "range-single": (
        {"flange_od": tape("8", "caliper")},
        {"flange_od": tape("8 1/64", "caliper")},
    ),
    # X by the old shaft is 44.125: 25.4 x 1.0399 of it passes the band of 4 %.
    "unit-factor-25": (
        {"face_to_strut_aft": tape("1166", "rod")},
        {"face_to_strut_aft": tape("1121", "rod")},
    ),
    "unit-factor-2.54-or-10": (
        {"face_to_strut_aft": tape("115.5", "rod")},
        {"face_to_strut_aft": tape("112.1", "rod")},
    ),
    # The old shaft says 44.125, which is 3 ft 8 1/8 in: short by six and a quarter is the limit.
    "feet-inch-run-together": (
        {"face_to_strut_aft": tape("37.85", "rod")},
        {"face_to_strut_aft": tape("38 1/8", "rod")},
    ),
    "method-impossible": (
        {"shaft_in": "in", "face_to_strut_aft": tape("44 1/8", "along_old_shaft")},
        {"shaft_in": "in"},
    ),
}
HISTORY: Histories = {}
