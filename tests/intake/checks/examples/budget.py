"""For `intake/checks/budget.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import NO_OLD, Examples, Histories, tape

EXAMPLES: Examples = {
    # One-handed and a taped hub make 0.088 in; with a tail's gap by eye as well it is 0.15.
    "u-budget": (
        {
            "without": (*NO_OLD, "tail_to_thread"),
            "face_to_strut_aft": tape("44 1/8", "tape_one_hand"),
            "hub_length": tape("2 15/16", "tape_short"),
        },
        {"without": (*NO_OLD, "hub_length"), "gap_now": tape("3/4", "eye")},
    ),
    # A sixteenth off the mark at u = 0.081 costs a point; at u = 0.129 it costs two and a half.
    "rounding-worth": (
        {"without": NO_OLD, "face_to_strut_aft": tape("44 3/16", "tape_one_hand")},
        {
            "without": (*NO_OLD, "hub_length"),
            "face_to_strut_aft": tape("44 3/16", "rod"),
            "gap_now": tape("3/4", "eye"),
        },
    ),
    # The exact length lies a 32nd over its mark; u = 0.133 leans 0.034, u = 0.08 only 0.012.
    "round-long": (
        {"without": NO_OLD, "face_to_strut_aft": tape("44 5/32", "tape_one_hand")},
        {
            "without": (*NO_OLD, "hub_length"),
            "face_to_strut_aft": tape("44 5/32", "rod"),
            "gap_now": tape("3/4", "eye"),
        },
    ),
}
HISTORY: Histories = {}
