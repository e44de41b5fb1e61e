"""For `intake/checks/desk.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "stock-length": (
        {"face_to_strut_aft": tape("138 1/2", "rod"), "old_length_face_to_thread": tape("143 3/8")},
        {"face_to_strut_aft": tape("138 5/8", "rod"), "old_length_face_to_thread": tape("143 1/2")},
    ),
}
HISTORY: Histories = {}
