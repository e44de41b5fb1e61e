"""For `intake/checks/diameter.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "dia-snap": (
        {"dia_clean": tape("1.006", "caliper")},
        {"dia_clean": tape("1 1/16", "wrench_16")},
    ),
    "dia-inch-metric-tie": (
        {"dia_clean": tape("0.992", "paper_strip"), "thread": {"text": "3/4-10"}},
        {"dia_clean": tape("0.992", "paper_strip")},
    ),
    "dia-odd-sixteenth": (
        {"dia_clean": tape("1.03", "wrench_32")},
        {"dia_clean": tape("1.04", "wrench_32")},
    ),
    "dia-vs-bearing": (
        {"bearing_id_or_mark": tape("1", "mark")},
        {"bearing_id_or_mark": tape("3/4", "mark")},
    ),
}
HISTORY: Histories = {}
