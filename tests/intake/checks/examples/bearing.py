"""For `intake/checks/bearing.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, tape

EXAMPLES: Examples = {
    "bearing-wall": (
        {"shell_od": tape("1 3/4", "caliper")},
        {"shell_od": tape("1 51/64", "caliper")},
    ),
    "catalog-bearing-miss": (
        {"bearing_length": {"text": "1 7/8", "count": 1}},
        {"bearing_length": {"text": "2 1/2", "count": 1}},
    ),
}
HISTORY: Histories = {}
