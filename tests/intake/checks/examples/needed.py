"""For `intake/checks/needed.py`: (accepted, questioned), under limits that name the question."""

from __future__ import annotations

from intake.domain.limit_values import limits_from
from tests.intake.checks.examples.given import Examples, Histories

EXAMPLES: Examples = {"must-be-answered": ({"fuel": "diesel"}, {})}
HISTORY: Histories = {}
LIMITS = {"must-be-answered": limits_from("desk 1", {"needed:fuel": "yes"}, {})}
