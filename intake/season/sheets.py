"""The sheet as it is sent: the body of the API, and nothing but what the customer said."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from intake.season.boats import Boat
from intake.season.customers import Customer
from intake.season.mistakes import OF_THE_BOAT
from intake.season.tape import Reading, taken, written

SLUGS = {
    "x": "face_to_strut_aft",
    "old": "old_length_face_to_thread",
    "gap": "gap_now",
    "tail": "tail_to_thread",
    "hub": "hub_length",
    "diameter": "dia_clean",
}
METRIC_THREADS = {"25": "M16x1.5", "30": "M20x1.5", "40": "M24x2"}


def a_body(customer: Customer) -> dict[str, Any]:
    """The body of a request for a shaft."""
    return {
        "channel": "form",
        "tape_unit": "mm" if customer.boat.system == "mm" else "in",
        "wants": ["shaft"],
        "contact": {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "role": "owner"},
        "answers": {**_readings(customer), **_said(customer)},
    }


def _readings(customer: Customer) -> dict[str, Any]:
    first = customer.first
    answers = {slug: first[what].as_answer() for what, slug in SLUGS.items() if what in first}
    for what in ("x", "old"):
        if f"{what} again" in first:
            answers[SLUGS[what]]["again"] = first[f"{what} again"].as_answer()
    return answers


def _said(customer: Customer) -> dict[str, Any]:
    """Everything that is not one of the long numbers; what was not said is left out."""
    boat, how = customer.boat, customer.how
    said: dict[str, Any] = {
        "boat_name_and_station": {"name": "Biscuit Barrel", "station": boat.station},
        "drive_layout": boat.layout,
        "flange_direction": "forward" if boat.layout == "v_pass_through" else "aft",
        "changed_since_shaft": [how.changed] if how.changed else None,
        "pin_end": how.pin_end,
        "coupling_state": "tight" if how.coupling_tight and how.gap else None,
        "forward_datum": how.datum_said,
        "shaft_in": how.shaft_in,
        **_measured_beside(customer),
    }
    return {slug: value for slug, value in said.items() if value}


def _measured_beside(customer: Customer) -> dict[str, Any]:
    """Readings that are a witness to the long numbers, or go with the layout."""
    boat, how = customer.boat, customer.how
    beside: dict[str, Any] = {}
    if how.thread:
        beside["thread"] = {"text": thread_of(boat), "method": "gauge"}
    if how.bearing_mark:
        beside["bearing_id_or_mark"] = {"text": size_text(boat), "method": "mark"}
    if boat.spacer:
        beside["flex_or_spacer"] = spacer_of(boat)
    if boat.through:
        beside.update(through_of(customer))
    if how.both_strut_ends:
        beside.update(_strut_ends(customer))
    if how.overall:
        beside["old_length_overall"] = _overall(customer).as_answer()
    return beside


def thread_of(boat: Boat) -> str:
    """The propeller nut's thread."""
    return boat.thread or METRIC_THREADS[size_text(boat)]


def size_text(boat: Boat) -> str:
    """The nominal size as it is stamped."""
    return written(boat.size.in_inches, boat.system)


def spacer_of(boat: Boat) -> dict[str, str]:
    """What sits between the flanges and stays there."""
    return {"kind": "disc", "thickness": written(boat.spacer, boat.system), "stays": "yes"}


def through_of(customer: Customer) -> dict[str, Any]:
    """What a shaft through the gearbox needs to be told whole."""
    boat = customer.boat
    return {
        "gearbox_through": part(customer, boat.through).as_answer(),
        "front_end": {
            "showing": "100" if boat.system == "mm" else "4",
            "nut": "castle",
            "thread": thread_of(boat),
            "hand": "right",
            "lock": "pin",
        },
        "front_taper": {"tapered": "no"},
    }


def part(customer: Customer, true: float, method: str = "tape_short") -> Reading:
    """A reading of some other part."""
    return taken(customer.rng, "part", method, true, customer.boat.system)


def _strut_ends(customer: Customer) -> dict[str, Any]:
    """Both strut ends, a barrel apart: who takes the wrong strut end takes both of them wrong."""
    barrel = customer.boat.barrel
    forward = part(customer, customer.first["x"].value - barrel)
    method = customer.how.x
    return {
        "face_to_strut_fwd": {"text": forward.text, "method": method},
        "strut_barrel": part(customer, barrel).as_answer(),
    }


# Slips by which the whole bar is read as wrongly as its part: the same start, the same shaft.
_SHARED = ("R-BURN-O", "R-TWICE", "R-TEN", "I-OTHER", "Z-TAPE")


def _overall(customer: Customer) -> Reading:
    """The whole bar, tip to tip, off the same tape in one go: the end at the nose is what differs.

    A bar without a nose ends at its last thread, and the number is the same.
    """
    old, nose = customer.first["old"], customer.boat.nose
    alone = [m for m in customer.mistakes if m.code not in (*_SHARED, *OF_THE_BOAT)]
    whole = old.value - old.pen - sum(m.off.get("old", 0.0) for m in alone)
    if not nose:
        return Reading(written(whole, customer.boat.system), whole, old.method)
    return replace(part(customer, whole + nose), method=old.method)
