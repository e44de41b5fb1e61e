"""For `intake/checks/units.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    # A bare 3 is a gap in inches or in millimetres; past three inches it can only be one of them.
    "unit-mixed-record": (
        {"hub_length": tape("75 mm", "rule"), "gap_now": tape("3.1", "rule")},
        {"hub_length": tape("75 mm", "rule"), "gap_now": tape("3", "rule")},
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
}
HISTORY: Histories = {}
