"""For `intake/checks/habits.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "whole-inch-heaping": (
        {"face_to_strut_aft": tape("44", "rod")},
        {"face_to_strut_aft": tape("44", "rod"), "tail_to_thread": tape("5", "tape_short")},
    ),
    # The clean sheet has one of the form's examples, 44 1/8, by chance.
    "example-copycat": (
        {},
        {"old_length_face_to_thread": tape("58 5/8")},
    ),
    "repeated-number": (
        {"face_to_strut_fwd": tape("44 1/16", "rod")},
        {"face_to_strut_fwd": tape("44 1/8", "rod")},
    ),
}
HISTORY: Histories = {}
