"""How a customer answers a question: by looking again, and telling what is there.

A second reading is blind: it may repeat the slip. Asked for the start of the tape, the nose or the
gap, the customer looks, and says what is so.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from intake.season.customers import Customer
from intake.season.mistakes import Mistake, draw
from intake.season.sheets import SLUGS, part, size_text, spacer_of, thread_of, through_of
from intake.season.tape import WAYS, Reading, taken

ROD_INSTEAD = 0.8
CANNOT = {"state": "cannot_measure"}
BEST = {"x": "rod", "old": "tape", "gap": "drill_shank", "tail": "rule", "hub": "caliper"}
WHAT = {slug: what for what, slug in SLUGS.items()}
DATUM_OF = {
    "D-GBACK": "gearbox_flange_back",
    "D-CBACK": "shaft_flange_aft",
    "D-HUB": "hub_end",
    "D-REAR": "gearbox_back",
}
Answers = dict[str, Any]


def answer(customer: Customer, answers: Answers, slug: str) -> int:
    """Answer one question into ``answers``; the number of questions that took (0: no answer).

    A long number is read again, and once more where the two differ: what two readings agree on
    stands. Where no two agree the answers stay as they were.
    """
    what = WHAT.get(slug, "")
    if what in ("x", "old"):
        return _long_number(customer, answers, slug, what)
    answers.update(_told(customer, slug, what))
    return 1


def _long_number(customer: Customer, answers: Answers, slug: str, what: str) -> int:
    first = customer.first.get(what) or customer.later.get(what)
    if first is None:
        answers[slug] = _first_time(customer, what)
        return 1
    second = customer.first.get(f"{what} again")
    if second is None or first.method == "pieces":
        second = customer.measure(what, _next_time(customer, first.method), again=True)
    if _agree(first, second, what):
        answers[slug] = {**first.as_answer(), "again": second.as_answer()}
        return 1
    third = customer.measure(what, second.method, again=True)
    if _agree(second, third, what):
        answers[slug] = {**second.as_answer(), "again": third.as_answer()}
    else:
        # Two that agree against one between them: the slip may have come back. Nothing is settled.
        answers[slug] = {**first.as_answer(), "again": second.as_answer()}
    return 2


def _next_time(customer: Customer, method: str) -> str:
    """The same way again; asked for a rod instead of pieces, four of five draw the shaft for it."""
    return "rod" if method == "pieces" and customer.rng.random() < ROD_INSTEAD else method


def _agree(one: Reading, other: Reading, what: str) -> bool:
    """Two readings of one thing within twice the spread of their difference."""
    spread = math.hypot(WAYS[what, one.method].u, WAYS[what, other.method].u)
    return abs(one.value - other.value) <= 2 * spread


def _first_time(customer: Customer, what: str) -> Any:
    """A long number that was not on the sheet: measured now, with slips like any other."""
    if what == "old" and not customer.how.old_at_hand:
        return CANNOT
    method = BEST[what]
    late = replace(customer.how, x=method) if what == "x" else replace(customer.how, old=method)
    customer.later_mistakes += draw(customer.rng, customer.boat, late, only=what)
    customer.later[what] = customer.measure(what, method)
    return customer.later[what].as_answer()


def _told(customer: Customer, slug: str, what: str) -> Answers:
    """What is there, by the question."""
    how = customer.how
    if what in ("gap", "tail") and not (how.old or how.tail):
        return {slug: CANNOT}  # the old shaft is gone
    if what in BEST:
        reading = customer.honest(what, BEST[what]).as_answer()
        return {slug: reading, **({"coupling_state": "tight"} if what == "gap" else {})}
    tell = _TOLD.get(slug)
    return tell(customer) if tell else {slug: CANNOT}


def _made(customer: Customer, *codes: str) -> Mistake | None:
    return next((m for m in customer.mistakes if m.code in codes), None)


def _datum(customer: Customer) -> Answers:
    """What the tape touched, and the size of that piece, in one call."""
    mistake = _made(customer, *DATUM_OF)
    if mistake is None:
        return {"forward_datum": customer.how.datum_said or "gearbox_face"}
    told: Answers = {"forward_datum": DATUM_OF[mistake.code]}
    if mistake.code in ("D-GBACK", "D-CBACK"):
        told.update(_flanges(customer))
    elif mistake.code == "D-HUB":
        told.update(_coupling_hub(customer))
    return told


def _flanges(customer: Customer) -> Answers:
    boat = customer.boat
    gearbox = part(customer, boat.gearbox_flange, "caliper").text
    coupling = part(customer, boat.coupling_flange, "caliper").text
    return {"flange_thickness": {"gearbox": gearbox, "coupling": coupling, "method": "caliper"}}


def _coupling_hub(customer: Customer) -> Answers:
    return {"hub_length_coupling": part(customer, customer.boat.coupling_hub).as_answer()}


def _nose(customer: Customer) -> Answers:
    """Whoever went to the tip of the nose says so, and measures to the last thread."""
    told: Answers = {"pin_end": "yes" if customer.boat.nose else "no"}
    if _made(customer, "D-PIN", "Z-NOSE"):
        for what in ("old", "tail"):
            if what in customer.first:
                told[SLUGS[what]] = customer.honest(what, customer.first[what].method).as_answer()
    return told


def _whole_bar(customer: Customer) -> Answers:
    """The whole bar, and what is at its tip."""
    told = _nose(customer)
    if not customer.how.old_at_hand:
        return {**told, "old_length_overall": CANNOT}
    boat = customer.boat
    whole = taken(customer.rng, "old", BEST["old"], boat.old_length + boat.nose, boat.system)
    return {**told, "old_length_overall": whole.as_answer()}


def _gap_state(customer: Customer) -> Answers:
    """What was loose as the gap was taken; it is bolted up and the gap taken once more."""
    return {**_told(customer, "gap_now", "gap"), "prop_seated": "seated"}


def _changed(customer: Customer) -> Answers:
    if _made(customer, "B-MOVED"):
        return {"changed_since_shaft": ["engine"]}
    return {"changed_since_shaft": [customer.how.changed or "nothing"]}


def _slope(customer: Customer) -> Answers:
    along = "floor" if _made(customer, "D-SLOPE") else "shaft"
    return {"shaft_angle": {"text": f"{customer.boat.angle:.0f}", "along": along}}


def _forward_end(customer: Customer) -> Answers:
    """The strut's other end, told apart from this one: a slip of strut ends comes to light."""
    boat = customer.boat
    x = customer.truth("x")
    told = {"face_to_strut_fwd": customer_reading(customer, x - boat.barrel), **_barrel(customer)}
    if _made(customer, "D-FWD", "D-MID"):
        told["face_to_strut_aft"] = customer.honest("x", customer.how.x or BEST["x"]).as_answer()
    return told


def customer_reading(customer: Customer, true: float) -> Answers:
    """A long reading of another point, taken the customer's own way."""
    reading = part(customer, true).as_answer()
    return {**reading, "method": customer.how.x or BEST["x"]}


def _barrel(customer: Customer) -> Answers:
    return {"strut_barrel": part(customer, customer.boat.barrel).as_answer()}


def _state(slug: str, value: Any) -> Callable[[Customer], Answers]:
    return lambda _customer: {slug: value}


_TOLD: dict[str, Callable[[Customer], Answers]] = {
    "dia_clean": lambda c: {"dia_clean": {"text": size_text(c.boat), "method": "caliper"}},
    "bearing_id_or_mark": lambda c: {
        "bearing_id_or_mark": {"text": size_text(c.boat), "method": "mark"}
    },
    "thread": lambda c: {"thread": {"text": thread_of(c.boat), "method": "gauge"}},
    "forward_datum": _datum,
    "flange_thickness": _flanges,
    "hub_length_coupling": _coupling_hub,
    "gearbox_through": lambda c: through_of(c) if c.boat.through else {"gearbox_through": CANNOT},
    "pin_end": _nose,
    "old_length_overall": _whole_bar,
    "coupling_state": _gap_state,
    "prop_seated": _gap_state,
    "changed_since_shaft": _changed,
    "shaft_angle": _slope,
    "face_to_strut_fwd": _forward_end,
    "strut_barrel": _barrel,
    "flex_or_spacer": lambda c: {"flex_or_spacer": spacer_of(c.boat) if c.boat.spacer else "none"},
    "drive_layout": lambda c: {"drive_layout": c.boat.layout},
    "shaft_in": _state("shaft_in", "out"),
    "afloat_or_ashore": _state("afloat_or_ashore", "ashore"),
    "propeller_stays": _state("propeller_stays", "yes"),
    "between_strut_and_propeller": _state("between_strut_and_propeller", "nothing"),
    "engine_mounts": _state("engine_mounts", "rigid"),
    "bearing_place": _state("bearing_place", "strut"),
    "bearing_wear": _state("bearing_wear", "even"),
    "reason": _state("reason", "wear"),
    "rotation": _state("rotation", "right"),
}
