"""For `intake/checks/diameter.py` and `witnesses.py`: (accepted at the limit, questioned)."""

from __future__ import annotations

from catalog.domain.lengths import inches
from intake.domain.history import History
from tests.intake.checks.examples.given import Examples, Histories, tape

_SPANNER = tape("1", "wrench_32")

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
    "dia-two-spots": (
        {"dia_clean": tape("1", "caliper"), "dia_journal": tape("0.995", "caliper")},
        {"dia_clean": tape("1", "caliper"), "dia_journal": tape("0.994", "caliper")},
    ),
    "dia-vs-bearing": (
        {"bearing_id_or_mark": tape("1", "mark")},
        {"bearing_id_or_mark": tape("3/4", "mark")},
    ),
    "dia-vs-coupling-bore": (
        {"coupling_bore": {"kind": "straight", "size": "1.01"}},
        {"coupling_bore": {"kind": "straight", "size": "1 1/8"}},
    ),
    "dia-vs-thread": (
        {"thread": {"text": "3/4-10"}},
        {"thread": {"text": "3/4-11"}},
    ),
    "dia-method-upgrade": (
        {"dia_clean": _SPANNER, "thread": {"text": "3/4-10"}},
        {"dia_clean": _SPANNER},
    ),
    "dia-coated": (
        {"dia_clean": tape("1.01", "caliper")},
        {"dia_clean": tape("1.011", "caliper")},
    ),
    "dia-changed-vs-history": ({}, {}),
}
HISTORY: Histories = {
    "dia-changed-vs-history": (
        History(last_diameter=inches(1)),
        History(last_diameter=inches("7/8")),
    ),
}
