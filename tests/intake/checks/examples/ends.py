"""For `intake/checks/ends.py` and `propeller.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from typing import Any

from tests.intake.checks.examples.given import PASS_THROUGH, Examples, Histories, tape


def taper(large: str = "1", small: str = "0.828", between: str = "2 3/4") -> dict[str, Any]:
    """The propeller end of a 1 in shaft, but for what an example changes."""
    return {"taper_two_dia": {"large": large, "small": small, "between": between}}


def front(**told: str) -> dict[str, Any]:
    """A shaft through its gearbox with those words about its front end besides the usual."""
    return {**PASS_THROUGH, "front_end": {**PASS_THROUGH["front_end"], **told}}


EXAMPLES: Examples = {
    # 1:16 and three standard uncertainties of two calipers and a tape.
    "taper-rate": (taper(small="0.815"), taper(small="0.814")),
    "taper-system-vs-dia": (taper(), taper(small="0.725")),
    "small-end": (taper("1.020", "0.848"), taper("1.021", "0.849")),
    "taper-length": (taper(between="2 5/8"), taper(between="2 19/32")),
    "thread-system": ({"thread": {"text": "5/8-11"}}, {"thread": {"text": "M16x2"}}),
    "keyway-width": ({"keyway": {"width": "0.255"}}, {"keyway": {"width": "0.256"}}),
    "hub-vs-taper": (
        {"hub_length": tape("3 1/4", "caliper")},
        {"hub_length": tape("3 17/64", "caliper")},
    ),
    "prop-bore-vs-shaft": (
        {"prop_size": {"diameter": "14", "pitch": "12", "bore": "1.0078"}},
        {"prop_size": {"diameter": "14", "pitch": "12", "bore": "25 mm"}},
    ),
    "nut-stack": (
        {"nuts": {"kind": "nut_and_jam", "showing": "0.05"}},
        {"nuts": {"kind": "nut_and_jam", "showing": "0.049"}},
    ),
    "front-nut-hand": (front(hand="LH", lock="tab washer"), front(hand="left")),
}
HISTORY: Histories = {}
