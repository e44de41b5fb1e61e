"""For `intake/checks/gap_now.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "gap-now-plausible": (
        {"gap_now": tape("1 1/2", "rule")},
        {"gap_now": tape("0", "rule")},
    ),
    "gap-state-unknown": (
        {"coupling_state": "tight", "prop_seated": "seated"},
        {"coupling_state": {"is": "loose", "opening": "1/8"}},
    ),
    # Tail 4 7/8 and hub leave 3/4: a quarter more is a blade's root.
    "gap-to-blade": (
        {"gap_now": tape("63/64", "rule")},
        {"gap_now": tape("1", "rule")},
    ),
}
HISTORY: Histories = {}
