"""For `intake/checks/history.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from intake.domain.history import History
from tests.intake.checks.examples.given import Examples, Histories

EXAMPLES: Examples = {
    "duplicate": ({}, {}),
}
HISTORY: Histories = {"duplicate": (History(), History(same_open=("FG-7K3M9Q",)))}
