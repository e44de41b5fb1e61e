"""For `intake/checks/bearing.py` and `wear.py`: (accepted at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories, Sheet, tape

_NO_BEARING: Sheet = {"top": {"wants": ["shaft", "coupling"]}}

EXAMPLES: Examples = {
    "bearing-wall": (
        {"shell_od": tape("1 3/4", "caliper")},
        {"shell_od": tape("1 51/64", "caliper")},
    ),
    "shell-vs-strut-bore": (
        {"strut_bore": tape("1.259", "caliper")},
        {"strut_bore": tape("1.261", "caliper")},
    ),
    "bearing-vs-barrel": (
        {"strut_barrel": tape("1 3/4", "rule")},
        {"strut_barrel": tape("1 11/16", "rule")},
    ),
    "bearing-length-ratio": (
        {"bearing_length": {"text": "2 1/8", "count": 1}},
        {"bearing_length": {"text": "2 3/16", "count": 1}},
    ),
    "shell-material": (
        {"hull_material": {"hull": "aluminium", "strut": "bronze"}},
        {"hull_material": {"hull": "aluminium", "strut": "aluminium"}},
    ),
    "bearing-with-shaft": (
        {**_NO_BEARING, "bearing_hours": "200 h"},
        {**_NO_BEARING, "bearing_hours": "201 h"},
    ),
    "bearing-play": (
        {"bearing_play": tape("1/16", "feeler")},
        {"bearing_play": tape("5/64", "feeler")},
    ),
    "strut-moved": ({"reason": "bend"}, {"reason": "strike"}),
    "catalog-bearing-miss": (
        {"bearing_length": {"text": "1 7/8", "count": 1}},
        {"bearing_length": {"text": "2 1/2", "count": 1}},
    ),
}
HISTORY: Histories = {}
