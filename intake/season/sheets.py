"""The sheet as it is sent: the body of the API, and nothing but what the customer said."""

from __future__ import annotations

from typing import Any

from intake.season.boats import Boat
from intake.season.customers import Customer
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
    """Everything that is not one of the long numbers."""
    boat, how = customer.boat, customer.how
    said: dict[str, Any] = {
        "boat_name_and_station": {"name": "Biscuit Barrel", "station": boat.station},
        "drive_layout": boat.layout,
        "flange_direction": "forward" if boat.layout == "v_pass_through" else "aft",
    }
    if how.thread:
        said["thread"] = {"text": thread_of(boat), "method": "gauge"}
    if how.bearing_mark:
        said["bearing_id_or_mark"] = {"text": size_text(boat), "method": "mark"}
    if how.changed:
        said["changed_since_shaft"] = [how.changed]
    if how.pin_end:
        said["pin_end"] = how.pin_end
    if how.coupling_tight and how.gap:
        said["coupling_state"] = "tight"
    if how.datum_said:
        said["forward_datum"] = how.datum_said
    if how.shaft_in:
        said["shaft_in"] = how.shaft_in
    if boat.spacer:
        said["flex_or_spacer"] = spacer_of(boat)
    if boat.through:
        said.update(through_of(customer))
    if how.both_strut_ends:
        said.update(_strut_ends(customer))
    if how.overall:
        said["old_length_overall"] = _overall(customer).as_answer()
    return said


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


def _overall(customer: Customer) -> Reading:
    """The whole bar, tip to tip. It ends at the nose whatever the other number did."""
    true = customer.boat.old_length + customer.boat.nose
    return taken(customer.rng, "old", customer.how.old, true, customer.boat.system)
