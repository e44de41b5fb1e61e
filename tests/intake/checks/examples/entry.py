"""For `intake/checks/entry.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from datetime import date

from intake.domain.history import History
from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "missing-critical": (
        {"without": ("dia_clean",), "bearing_id_or_mark": tape("1", "mark")},
        {"without": ("flange_direction",)},
    ),
    "range-single": (
        {"flange_od": tape("8", "caliper")},
        {"flange_od": tape("8 1/64", "caliper")},
    ),
    "method-impossible": (
        {"shaft_in": "in", "face_to_strut_aft": tape("44 1/8", "along_old_shaft")},
        {"shaft_in": "in"},
    ),
    "stale-measurement": (
        {"measured_when": "2026-03-02"},
        {"measured_when": "2026-03-01"},
    ),
}
# Sixty days after the second of March, and sixty-one after the first.
_IN_MAY = History(today=date(2026, 5, 1))
HISTORY: Histories = {"stale-measurement": (_IN_MAY, _IN_MAY)}
