"""One boat and one set of circumstances for tests of the season, and what a test changes."""

from __future__ import annotations

from random import Random
from typing import Any

from catalog.domain.lengths import inches
from intake.season.boats import Boat
from intake.season.circumstances import How
from intake.season.customers import Customer
from intake.season.mistakes import Mistake
from intake.season.tape import taken

PLAIN_BOAT: dict[str, Any] = {
    "system": "inch",
    "size": inches(1),
    "layout": "inline",
    "station": "single",
    "x": 43.0,
    "hub": 2.8125,
    "standoff": 1.1875,
    "nose": 0.3125,
    "thread_length": 1.4375,
    "thread": "3/4-10",
    "barrel": 2.0,
    "gearbox_flange": 0.5,
    "coupling_flange": 0.55,
    "coupling_hub": 2.5,
    "angle": 10.0,
    "spacer": 0.0,
    "through": 0.0,
    "least": 0.5,
    "goal": 0.75,
    "most": 1.0,
    "old_gap": 0.75,
}
# Nothing on the sheet is evidence for or against any slip.
PLAIN_HOW: dict[str, Any] = {
    "routes": "two",
    "x": "tape_helper",
    "hub": "rule",
    "gap": "rule",
    "old": "tape",
    "tail": "",
    "diameter": "caliper",
    "thread": True,
    "bearing_mark": True,
    "changed": "",
    "pin_end": "",
    "coupling_tight": False,
    "datum_said": "",
    "shaft_in": "",
    "both_strut_ends": False,
    "overall": False,
    "second_x": False,
    "second_old": False,
    "start_mark": False,
    "old_at_hand": True,
}


def a_boat(**changes: Any) -> Boat:
    """The plain boat: 1 in shaft, X 43, hub 2 13/16."""
    return Boat(**{**PLAIN_BOAT, **changes})


def a_how(**changes: Any) -> How:
    """Two routes, nothing said."""
    return How(**{**PLAIN_HOW, **changes})


def a_customer(
    *mistakes: Mistake, seed: int = 1, boat: Boat | None = None, how: How | None = None
) -> Customer:
    """Somebody who has made just these mistakes, with every long number written down."""
    customer = Customer(Random(seed), boat or a_boat(), how or a_how(), list(mistakes))
    for what in ("x", "hub", "old", "gap", "tail"):
        if method := getattr(customer.how, what):
            customer.first[what] = customer.measure(what, method)
    size = customer.boat.size.in_inches
    customer.first["diameter"] = taken(customer.rng, "diameter", "caliper", size, "inch")
    return customer
