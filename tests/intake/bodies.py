"""Bodies as the three doors send them: one plain boat, and what a test changes about it."""

from __future__ import annotations

from typing import Any

PHONE = "+1 202 555 0100"

# Three routes agree to the mark: nothing to ask.
_ANSWERS: dict[str, Any] = {
    "boat_name_and_station": {"name": "Biscuit Barrel", "station": "single"},
    "drive_layout": "inline",
    "flange_direction": "aft",
    "dia_clean": {"text": "1", "method": "caliper"},
    "face_to_strut_aft": {"text": "44 1/8", "method": "rod"},
    "gap_now": {"text": "3/4", "method": "drill_shank"},
    "tail_to_thread": {"text": "4 7/8", "method": "tape_short"},
    "hub_length": {"text": "2 15/16", "method": "caliper"},
    "old_length_face_to_thread": {"text": "49", "method": "tape"},
    "flange_od": {"text": "4", "method": "tape_short"},
    "shell_od": {"text": "1 1/4", "method": "caliper_in_place"},
    "bearing_length": {"text": "2", "count": 1},
}

# Two inches short of what the old shaft says: one question, and no known slip explains it.
SHORT: dict[str, Any] = {"face_to_strut_aft": {"text": "42 1/8", "method": "rod"}}
PUT_RIGHT: dict[str, Any] = {"face_to_strut_aft": {"text": "44 1/8", "method": "rod"}}


def a_body(*, boat: str = "Biscuit Barrel", phone: str = PHONE, **answers: Any) -> dict[str, Any]:
    """A sheet that is released, but for the answers a test gives; None takes one out."""
    named = {"boat_name_and_station": {"name": boat, "station": "single"}}
    told = {**_ANSWERS, **named, **answers}
    return {
        "channel": "api",
        "tape_unit": "in",
        "wants": ["shaft"],
        "contact": {"name": "Wilmot Tarpley", "phone": phone, "role": "owner"},
        "answers": {slug: answer for slug, answer in told.items() if answer is not None},
    }
