"""For `intake/checks/slips.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories

EXAMPLES: Examples = {}
HISTORY: Histories = {}
