"""For `intake/checks/slips.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import PASS_THROUGH, Examples, Histories, tape

# The old shaft of the clean sheet says 49 and asks for a strut at 44 1/8.
EXAMPLES: Examples = {
    "burned-inch": (
        {"face_to_strut_aft": tape("44 13/16", "rod")},
        {"face_to_strut_aft": tape("45 1/8", "rod")},
    ),
    "ten-start": (
        {"face_to_strut_aft": tape("52 13/16", "rod")},
        {"face_to_strut_aft": tape("54 1/8", "rod")},
    ),
    "tape-case": (
        {"face_to_strut_aft": tape("41 9/16", "tape")},
        {"face_to_strut_aft": tape("41 1/2", "tape")},
    ),
    # Ten degrees take 0.67 in off what would be 43 in along the shaft.
    "slope-measure": (
        {"face_to_strut_aft": tape("43 19/64", "tape"), "shaft_angle": {"text": "10"}},
        {"face_to_strut_aft": tape("43 27/64", "tape"), "shaft_angle": {"text": "10"}},
    ),
    "pass-through-datum": (
        {**PASS_THROUGH, "face_to_strut_aft": tape("35 3/16", "tape")},
        {**PASS_THROUGH, "face_to_strut_aft": tape("34 7/8", "tape")},
    ),
}
HISTORY: Histories = {}
