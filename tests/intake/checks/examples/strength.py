"""For `intake/checks/strength.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import Examples, Histories

EXAMPLES: Examples = {
    # 104 hp at 1500 turns on 1 in of S20910 leaves 3.15 and 110 hp 2.97, where 3 is wanted.
    "torque-margin": (
        {"engine_power": "104 hp", "engine_max_rpm": "1500", "gear_ratio": "1:1"},
        {"engine_power": "110 hp", "engine_max_rpm": "1500", "gear_ratio": "1:1"},
    ),
}
HISTORY: Histories = {}
