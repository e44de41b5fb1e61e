"""What stands on a sheet before anything goes wrong: who measured what, in which way.

The mix of ways is the one the bench is asked for; the other shares are common practice without a
source.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from catalog.domain.lengths import inches
from intake.season.boats import Boat, pick

TWO, BOAT, OLD = "two", "boat", "old"
ROUTES = {TWO: 773, BOAT: 192, OLD: 35}  # of the first, 3 in 100 do not know what changed
X_WAYS = {"rod": 45, "tape_helper": 25, "tape_one_hand": 20, "pieces": 10}
HUB_WAYS = {"caliper": 30, "rule": 40, "tape_short": 30}
GAP_WAYS = {"drill_shank": 40, "rule": 30, "tape": 25, "eye": 5}
OLD_WAYS = {"tape": 70, "tape_one_hand": 30}
DIAMETER_WAYS = {"caliper": 80, "paper_strip": 10, "wrench_32": 8, "wrench_16": 2}
CHANGED = {"": 45, "nothing": 45, "propeller": 7, "unknown": 3}
PIN_SAID = {"": 57, "yes": 36, "no": 7}
RULE_SIZES = (inches(1), inches("1 1/8"))
# Who has no caliper sends the thread and the bearing's mark along; the others one of the two.
BEARING_MARK, THREAD = 0.60, 0.40
NO_HUB, TAIL, TAIL_WITHOUT_HUB = 0.07, 0.30, 0.60
SECOND_READING = 0.06
START_MARK = 0.04
BOTH_STRUT_ENDS, OVERALL, COUPLING_SAID, DATUM_SAID, SHAFT_SAID = 0.12, 0.12, 0.60, 0.30, 0.50
REPOWERED = 0.05  # of sheets with the boat's route only: old shaft known, engine changed
OLD_AT_HAND = 0.40  # of sheets without an old length, where it could be had if asked


@dataclass(frozen=True, slots=True)
class How:
    """The circumstances of one sheet. Empty text: not measured, or not said."""

    routes: str
    x: str
    hub: str
    gap: str
    old: str
    tail: str
    diameter: str
    thread: bool
    bearing_mark: bool
    changed: str
    pin_end: str
    coupling_tight: bool
    datum_said: str
    shaft_in: str
    both_strut_ends: bool
    overall: bool
    second_x: bool
    second_old: bool
    start_mark: bool
    old_at_hand: bool
    gap_is_the_goal: bool = False

    @property
    def tail_by_rule(self) -> bool:
        """True where neither hub nor tail is measured: the fixed tail is all there is."""
        return bool(self.x) and not self.hub and not self.tail

    @property
    def is_two_routes(self) -> bool:
        """True where boat and old shaft each give a length, and the boat is the old shaft's."""
        return self.routes == TWO and self.changed != "unknown"


def circumstances(rng: Random, boat: Boat) -> How:
    """Draw what is measured on a boat, how, and what else is said."""
    routes = pick(rng, ROUTES)
    x = "" if routes == OLD else pick(rng, X_WAYS)
    repowered = routes == BOAT and rng.random() < REPOWERED
    has_old = routes != BOAT or repowered
    hub, tail = _hub_and_tail(rng, boat, routes)
    diameter = pick(rng, DIAMETER_WAYS)
    mark, thread = rng.random() < BEARING_MARK, rng.random() < THREAD
    unsure = diameter != "caliper"
    return How(
        routes=routes,
        x=x,
        hub=hub,
        gap=pick(rng, GAP_WAYS) if has_old or tail else "",
        old=pick(rng, OLD_WAYS) if has_old else "",
        tail=tail,
        diameter=diameter,
        thread=thread or unsure or not mark,
        bearing_mark=mark or unsure,
        changed="engine" if repowered else pick(rng, CHANGED),
        pin_end=pick(rng, PIN_SAID),
        coupling_tight=rng.random() < COUPLING_SAID,
        datum_said=_datum(rng, boat) if x else "",
        shaft_in=_shaft_in(rng, x),
        both_strut_ends=bool(x) and rng.random() < BOTH_STRUT_ENDS,
        overall=has_old and boat.layout != "v_pass_through" and rng.random() < OVERALL,
        second_x=bool(x) and rng.random() < SECOND_READING,
        second_old=has_old and rng.random() < SECOND_READING / 2,
        start_mark=x not in ("", "pieces") and rng.random() < START_MARK,
        old_at_hand=has_old or rng.random() < OLD_AT_HAND,
    )


def _hub_and_tail(rng: Random, boat: Boat, routes: str) -> tuple[str, str]:
    """The ways for hub and tail. A tail needs the shaft still in; without a hub it is likelier,
    and needed where the fixed tail does not hold.
    """
    hub = "" if rng.random() < NO_HUB else pick(rng, HUB_WAYS)
    rule_holds = boat.system == "inch" and boat.size in RULE_SIZES
    likely = TAIL if hub else (TAIL_WITHOUT_HUB if rule_holds else 1.0)
    if routes == OLD or rng.random() >= likely:
        return hub, ""
    return hub, rng.choice(("tape_short", "rule"))


def _datum(rng: Random, boat: Boat) -> str:
    """Who measures a pass-through mostly starts at the gearbox's back; half of them say so."""
    if boat.layout == "v_pass_through" and rng.random() < 0.5:
        return "gearbox_back"
    return "gearbox_face" if rng.random() < DATUM_SAID else ""


def _shaft_in(rng: Random, x: str) -> str:
    """A rod or tape passes an empty log only; pieces are taken past a shaft as a rule."""
    if not x or rng.random() >= SHAFT_SAID:
        return ""
    return "in" if x == "pieces" and rng.random() < 0.8 else "out"
