"""For `intake/checks/decimals.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    # The hub by caliper and the old shaft leave 44 1/8; 2 u of the two ways together is about 0.15.
    "fraction-as-decimal": (
        {
            "without": ("tail_to_thread",),
            "face_to_strut_aft": tape("44.5", "rod"),
            "old_length_face_to_thread": tape("49 1/2"),
        },
        {
            "without": ("tail_to_thread",),
            "face_to_strut_aft": tape("44.5", "rod"),
            "old_length_face_to_thread": tape("49 9/16"),
        },
    ),
    # 44.125 is a mark of the tape, in three decimals too.
    "resolution-vs-tool": (
        {"face_to_strut_aft": tape("44.156", "rod")},
        {"face_to_strut_aft": tape("44.140", "rod")},
    ),
}
HISTORY: Histories = {}
