"""For `intake/checks/gap.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import NO_OLD, Examples, Histories, tape

EXAMPLES: Examples = {
    "gap-now-plausible": (
        {"gap_now": tape("1 1/2", "rule")},
        {"gap_now": tape("0", "rule")},
    ),
    "gap-state-unknown": (
        {"coupling_state": "tight", "prop_seated": "seated"},
        {"coupling_state": {"is": "loose", "opening": "1/8"}},
    ),
    # C + 1/4 - hub = 1/8: with a hub of 2 7/8 the taper starts in the gap; with 2 1/8, 1/8 inside.
    "taper-in-bearing": (
        {"without": ("tail_to_thread", *NO_OLD), "hub_length": tape("2 1/4", "caliper")},
        {"without": ("tail_to_thread", *NO_OLD), "hub_length": tape("2 1/8", "caliper")},
    ),
}
HISTORY: Histories = {}
