"""For `intake/checks/lengths.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import NO_HUB, NO_OLD, Examples, Histories, tape

EXAMPLES: Examples = {
    "route-boat-vs-old": (
        {"old_length_face_to_thread": tape("49 3/32")},
        {"old_length_face_to_thread": tape("49 7/16")},
    ),
    "single-route": (
        {
            "without": NO_OLD,
            "face_to_strut_aft": {
                "text": "44 1/8",
                "method": "rod",
                "again": {"text": "54 1/4", "start_mark": "10"},
            },
        },
        {"without": NO_OLD},
    ),
    "route-tail-vs-hub": (
        {"tail_to_thread": tape("5", "tape_short")},
        {"tail_to_thread": tape("5 3/16", "tape_short")},
    ),
    "tail-rule-valid": (
        {"without": NO_HUB},
        {"without": NO_HUB, "dia_clean": tape("1 1/4", "caliper")},
    ),
    "barrel-difference": (
        {
            "face_to_strut_fwd": tape("41 7/8", "rod"),
            "strut_barrel": tape("2", "rule"),
        },
        {
            "face_to_strut_fwd": tape("41 27/32", "rod"),
            "strut_barrel": tape("2", "rule"),
        },
    ),
    "order-of-lengths": (
        {"face_to_strut_fwd": tape("44 7/64", "rod")},
        {"face_to_strut_fwd": tape("44 1/8", "rod")},
    ),
    "pin-end-included": (
        {"old_length_overall": tape("49 5/16")},
        {"old_length_overall": tape("49 5/8")},
    ),
    "old-shaft-only": (
        {"without": NO_OLD},
        {"without": ("face_to_strut_aft",)},
    ),
    "datum-forward": (
        {
            "forward_datum": "shaft_flange_aft",
            "face_to_strut_aft": tape("43 5/8", "rod"),
            "flange_thickness": {"coupling": "1/2"},
        },
        {"forward_datum": "shaft_flange_aft", "face_to_strut_aft": tape("43 5/8", "rod")},
    ),
    # By the fixed tail alone u is 0.159 in and the gap lands in its band 88.3 times in a hundred.
    "fit-probability": (
        {"without": NO_OLD},
        {"without": (*NO_OLD, *NO_HUB)},
    ),
}
HISTORY: Histories = {}
