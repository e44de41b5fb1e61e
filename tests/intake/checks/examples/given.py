"""What the examples are written with."""

from __future__ import annotations

from typing import Any

from intake.domain.history import History

Sheet = dict[str, Any]
Examples = dict[str, tuple[Sheet, Sheet]]
Histories = dict[str, tuple[History, History]]

NO_HUB = ("hub_length", "tail_to_thread")
NO_OLD = ("old_length_face_to_thread",)
PASS_THROUGH: Sheet = {
    "drive_layout": "v_pass_through",
    "flange_direction": "forward",
    "gearbox_through": {"text": "9 1/4", "method": "rule"},
    "front_end": {"showing": "3 15/16", "nut": "3/4-10", "thread": "3/4-10", "hand": "right"},
    "front_taper": {"tapered": "yes"},
}


def tape(text: str, method: str = "tape") -> dict[str, str]:
    """A measured answer."""
    return {"text": text, "method": method}
