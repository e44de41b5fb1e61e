"""Bodies as the three doors send them: one plain boat, and what a test changes about it."""

from __future__ import annotations

from typing import Any

from tests.given import CLEAN

PHONE = "+1 202 555 0100"

# Two inches short of what the old shaft says: one question, and no known slip explains it.
SHORT: dict[str, Any] = {"face_to_strut_aft": {"text": "42 1/8", "method": "rod"}}
PUT_RIGHT: dict[str, Any] = {"face_to_strut_aft": {"text": "44 1/8", "method": "rod"}}


def a_body(*, boat: str = "Biscuit Barrel", phone: str = PHONE, **answers: Any) -> dict[str, Any]:
    """A sheet that is released, but for the answers a test gives; None takes one out."""
    named = {"boat_name_and_station": {"name": boat, "station": "single"}}
    told = {**CLEAN, **named, **answers}
    return {
        "channel": "api",
        "tape_unit": "in",
        "wants": ["shaft"],
        "contact": {"name": "Wilmot Tarpley", "phone": phone, "role": "owner"},
        "answers": {slug: answer for slug, answer in told.items() if answer is not None},
    }
