"""A customer: a boat, the circumstances, what went wrong, and the numbers as written."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from random import Random

from intake.season.boats import Boat, a_boat
from intake.season.circumstances import How, circumstances
from intake.season.mistakes import (
    FIXED_TAIL_HUB,
    OF_THE_BOAT,
    Mistake,
    boat_as_it_is,
    draw,
    repeats,
)
from intake.season.tape import Reading, look, taken, written

RULE_HUB_SPREAD = 0.15  # of the hubs that are left to the fixed tail and are about right for it
WEAR, WEAR_SPREAD = 0.002, 0.003


@dataclass(slots=True)
class Customer:
    """Somebody who measures. ``first`` holds the numbers of the sheet, by reading; ``later`` the
    long numbers that were not on it, and ``later_mistakes`` the slips made over them.
    """

    rng: Random
    boat: Boat
    how: How
    mistakes: list[Mistake]
    first: dict[str, Reading] = field(default_factory=dict)
    later: dict[str, Reading] = field(default_factory=dict)
    later_mistakes: list[Mistake] = field(default_factory=list)

    @property
    def is_clean(self) -> bool:
        """True where nothing went wrong."""
        return not self.mistakes

    @property
    def kind(self) -> str:
        """The cause: OK, a code, or double."""
        if not self.mistakes:
            return "OK"
        return self.mistakes[0].code if len(self.mistakes) == 1 else "double"

    def truth(self, what: str, *, now: bool = False) -> float:
        """What a perfect tape would find, in inches, from the points that are meant.

        ``now``: with the boat as she is today; else as she was when the old shaft ran.
        """
        boat = self.boat
        gap = boat.gap_now if now else boat.old_gap
        if what == "x":
            back = boat.through if self.how.datum_said == "gearbox_back" else 0.0
            return boat.x + boat.spacer - back
        return {"old": boat.old_length, "gap": gap, "tail": gap + boat.tail, "hub": boat.hub}[what]

    def measure(self, what: str, method: str, *, again: bool = False) -> Reading:
        """Take a reading, with this customer's own mistake in it.

        ``again``: taken blind a second time; the mistake may or may not come back.
        """
        every = self.mistakes + self.later_mistakes
        made = [m for m in every if not again or repeats(self.rng, m)]
        return self._taken(what, method, made)

    def honest(self, what: str, method: str) -> Reading:
        """A reading with the customer shown what to do, of the boat as she is today."""
        return self._taken(what, method, [], now=True)

    def _taken(self, what: str, method: str, made: list[Mistake], *, now: bool = False) -> Reading:
        true = self.truth(what, now=now)
        for mistake in made:
            if mistake.code not in OF_THE_BOAT:
                true += mistake.off.get(what, 0.0)
            if what in ("x", "old"):
                true *= mistake.scale
        reading = taken(self.rng, what, method, max(true, 0.0), self.boat.system)
        for mistake in made:
            if mistake.rewrite and mistake.touches == what:
                reading = mistake.rewrite(reading, self.boat.system, self.rng)
        return reading


def a_customer(seed: int | str, index: int) -> Customer:
    """Customer ``index`` of a season: the same one whenever seed and index are the same."""
    rng = Random(f"{seed}/{index}")  # noqa: S311  (chance, not secrecy)
    boat = a_boat(rng)
    how = circumstances(rng, boat)
    boat = _suited(rng, boat, how)
    gap = _gap_before(rng, boat, how)
    if gap:
        how = replace(how, gap_is_the_goal=gap.text in ("3/4", "19"))
    mistakes = draw(rng, boat, how)
    for mistake in mistakes:
        boat = boat_as_it_is(boat, mistake, gap.value if gap else None)
    customer = Customer(rng, boat, how, mistakes)
    return _with_readings(customer, gap)


def _suited(rng: Random, boat: Boat, how: How) -> Boat:
    """The boat that goes with what is said: without a nose; with a hub the fixed tail is for."""
    if how.pin_end == "no":
        boat = replace(boat, nose=0.0)
    if how.tail_by_rule:
        boat = replace(boat, hub=rng.gauss(FIXED_TAIL_HUB, RULE_HUB_SPREAD))
    return boat


def _gap_before(rng: Random, boat: Boat, how: How) -> Reading | None:
    """The gap is written first: whether it is just the goal is evidence for an assumed one."""
    return taken(rng, "gap", how.gap, boat.old_gap, boat.system) if how.gap else None


def _with_readings(customer: Customer, gap: Reading | None) -> Customer:
    how, first = customer.how, customer.first
    for what, method in (("x", how.x), ("old", how.old), ("tail", how.tail), ("hub", how.hub)):
        if method:
            first[what] = customer.measure(what, method)
    if gap:
        first["gap"] = _gap_as_written(customer, gap)
    if how.second_x:
        first["x again"] = customer.measure("x", how.x, again=True)
    if how.second_old:
        first["old again"] = customer.measure("old", how.old, again=True)
    if how.start_mark:
        first["x"] = _from_a_mark(first["x"], customer.boat.system)
    first["diameter"] = _diameter(customer)
    return customer


def _gap_as_written(customer: Customer, gap: Reading) -> Reading:
    """The honest gap, with what the slip adds to it; an assumed gap is written as it is."""
    off = sum(m.off.get("gap", 0.0) for m in customer.mistakes if m.code not in OF_THE_BOAT)
    if not off:
        return gap
    return customer.measure("gap", gap.method)


def _from_a_mark(reading: Reading, system: str) -> Reading:
    """Held at the 1 in (100 mm) mark, and both numbers told."""
    mark = 100 / 25.4 if system == "mm" else 1.0
    text = written(reading.value + mark, system)
    return replace(reading, text=text, start_mark=written(mark, system))


def _diameter(customer: Customer) -> Reading:
    """A worn bar, read with the customer's own tool."""
    method, system = customer.how.diameter, customer.boat.system
    true = customer.boat.size.in_inches - customer.rng.gauss(WEAR, WEAR_SPREAD)
    value = look(customer.rng, "diameter", method, true, system)
    return Reading(written(value, system), value, method)
