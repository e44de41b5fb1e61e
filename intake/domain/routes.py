"""The ways to the shaft length, each a sum of readings with its uncertainty, and their best blend.

x runs along the shaft from the coupling face, positive aft; lengths end at the last thread. Every
estimate remembers how much each reading moves it, so two routes that share a reading (boat and
tail share the strut distance; tail and old shaft share the gap) are compared honestly.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from catalog.domain.ends import ShaftEnd, shaft_end
from catalog.domain.lengths import Length
from intake.domain.diameter import Size
from intake.domain.fit import Band
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.sheet import Reading, Sheet

_OLD_ROUTE_KILLERS = frozenset({"engine", "gearbox", "mounts", "coupling", "strut", "log"})


@dataclass(frozen=True, slots=True)
class Estimate:
    """A length in nanometres and, reading by reading, what one standard deviation of it moves."""

    nm: int
    moves: Mapping[str, float]

    @property
    def u_nm(self) -> float:
        """Combined standard uncertainty, readings independent (JCGM 100, 5.1.2)."""
        return math.hypot(*self.moves.values())

    def plus(self, other: Estimate) -> Estimate:
        """The sum; a reading in both moves it twice."""
        return Estimate(self.nm + other.nm, _summed(self.moves, other.moves, 1.0))

    def minus(self, other: Estimate) -> Estimate:
        """The difference; a reading in both cancels."""
        return Estimate(self.nm - other.nm, _summed(self.moves, other.moves, -1.0))


def _summed(one: Mapping[str, float], other: Mapping[str, float], sign: float) -> dict[str, float]:
    total = dict(one)
    for name, move in other.items():
        total[name] = total.get(name, 0.0) + sign * move
    return total


def blend(one: Estimate, other: Estimate) -> Estimate:
    """The mean weighted by 1/u^2; two equal lengths give exactly that length."""
    weight_one, weight_other = one.u_nm**-2, other.u_nm**-2
    share = weight_other / (weight_one + weight_other)
    # Written as a step from the first, so that no rounding can part two equal lengths.
    nm = one.nm + round((other.nm - one.nm) * share)
    moves = {name: move * (1 - share) for name, move in one.moves.items()}
    for name, move in other.moves.items():
        moves[name] = moves.get(name, 0.0) + move * share
    return Estimate(nm, moves)


@dataclass(frozen=True, slots=True)
class Route:
    """One way to the length, by its name in the API: boat, tail, old_shaft, history."""

    name: str
    estimate: Estimate
    how: str


@dataclass(frozen=True, slots=True)
class Routes:
    """Every route there is, the blend that is believed, and how the routes stand to each other.

    ``boat`` is the boat route with the best tail; ``old`` the old shaft's. ``difference`` is boat
    less old. ``independent`` counts routes that no single mistake can move together; boat and tail
    share the strut distance and count once.
    """

    found: tuple[Route, ...]
    used: frozenset[str]
    best: Estimate | None
    boat: Estimate | None
    old: Estimate | None
    difference: Estimate | None
    independent: int
    hub_tail: Estimate | None
    taped_tail: Estimate | None
    tail: Estimate | None
    tail_is_rule: bool
    strut: Estimate | None
    gap_measured: bool


def nut_standoff(size: Size, end: ShaftEnd | None, limits: Limits) -> Length | None:
    """n, hub back face to thread end: SAE J755 for inch sizes, the desk's own copy for metric."""
    if size.system == "inch":
        return end.nut_standoff if end else None
    return limits.metric_nut_standoff.get(size.diameter)


def end_of(size: Size) -> ShaftEnd | None:
    """The standard propeller end of a size, or None where no table gives it."""
    return shaft_end(size.system, size.diameter)


def find_routes(
    sheet: Sheet, size: Size, end: ShaftEnd | None, band: Band, history: History, limits: Limits
) -> Routes:
    """All routes of a sheet to the length of a shaft of that size, and the best estimate.

    Boat: strut distance + goal gap + tail (by hub and nut, or by tape). Old shaft: its length
    corrected from its gap to the goal. Routes are blended by 1/u^2 while |z| <= 2 between them;
    beyond, the boat is believed alone.
    """
    goal = Estimate(band.goal.nm, {})
    gap, measured = _gap(sheet, limits)
    strut = strut_distance(sheet, limits)
    hub_tail = _hub_tail(sheet, nut_standoff(size, end, limits), limits)
    taped_tail = _taped_tail(sheet, gap if sheet.length("gap_now") is not None else None, limits)
    tail, is_rule = _tail(hub_tail, taped_tail, size, limits)
    boat = strut.plus(goal).plus(tail) if strut and tail else None
    old = _old(sheet, gap, goal, band, limits)
    past = _past(history, goal, limits)
    best, believed = _best(boat, old if measured else None, past, limits)
    if best is None and old is not None:
        best, believed = old, {"old_shaft"}
    found, used = _named(sheet, strut, goal, hub_tail, taped_tail, tail, old, past, believed)
    counts = (boat is not None, old is not None and measured, past is not None)
    return Routes(
        found=found,
        used=frozenset(used),
        best=best,
        boat=boat,
        old=old,
        difference=boat.minus(old) if boat and old else None,
        independent=sum(counts),
        hub_tail=hub_tail,
        taped_tail=taped_tail,
        tail=tail,
        tail_is_rule=is_rule,
        strut=strut,
        gap_measured=measured,
    )


def strut_distance(sheet: Sheet, limits: Limits) -> Estimate | None:
    """Coupling face to strut aft end, corrected for where the tape really started.

    A datum other than the gearbox face moves it by a flange or a hub once that is known; a spacer
    between the flanges is taken off; a gearbox the shaft passes through is added.
    """
    reading = sheet.readings.get("face_to_strut_aft")
    if reading is None:
        return None
    value, u = _read_twice(reading, _outside_u(sheet, reading, limits), limits)
    shift, u_shift = _datum_shift(sheet, limits)
    moves = {"strut": u}
    if u_shift:
        moves["datum"] = u_shift
    return Estimate(value + shift, moves)


def _outside_u(sheet: Sheet, reading: Reading, limits: Limits) -> float:
    """Outside lengths taken afloat are reported, not measured."""
    if sheet.choice("afloat_or_ashore") == "afloat":
        return max(reading.u_nm, float(limits.u_afloat.nm))
    return reading.u_nm


def _read_twice(reading: Reading, u: float, limits: Limits) -> tuple[int, float]:
    """Two readings that agree are averaged; two that do not leave the first as it was."""
    again = reading.again
    if again is None or not agrees(reading, limits):
        return reading.length.nm, u
    return (reading.length.nm + again.length.nm) // 2, u / math.sqrt(2.0)


def agrees(reading: Reading, limits: Limits) -> bool:
    """True where a second reading is there and within 2 sqrt 2 u of the first."""
    if reading.again is None:
        return False
    apart = abs(reading.length.nm - reading.again.length.nm)
    return apart <= limits.second_reading_u * reading.u_nm


def _datum_shift(sheet: Sheet, limits: Limits) -> tuple[int, float]:
    datum = sheet.choice("forward_datum")
    spacer = _spacer(sheet)
    if datum == "gearbox_face":
        return -spacer, 0.0
    if datum == "unknown":
        return -spacer, float(limits.u_datum_unknown.nm)
    if datum == "gearbox_back":
        through = sheet.readings.get("gearbox_through")
        return (through.length.nm, through.u_nm) if through else (0, 0.0)
    shift = _known_shift(sheet, datum, limits)
    return (shift, float(limits.u_datum_corrected.nm)) if shift is not None else (0, 0.0)


def _known_shift(sheet: Sheet, datum: str, limits: Limits) -> int | None:
    """The correction once thickness or hub is answered; half an inch where it cannot be had."""
    if datum == "hub_end":
        hub = sheet.length("hub_length_coupling")
        return hub.nm if hub else None
    half, sign = ("gearbox", -1) if datum == "gearbox_flange_back" else ("coupling", 1)
    thickness = sheet.part("flange_thickness", half)
    if thickness is None and sheet.cannot("flange_thickness"):
        thickness = limits.flange_assumed
    return sign * thickness.nm if thickness else None


def datum_is_settled(sheet: Sheet, limits: Limits) -> bool:
    """True where the tape started on the gearbox face, or what it started on has been answered."""
    datum = sheet.choice("forward_datum")
    if datum == "gearbox_face":
        return True
    if datum == "gearbox_back":
        return sheet.choice("drive_layout") == "v_pass_through"
    return datum != "unknown" and _known_shift(sheet, datum, limits) is not None


def _spacer(sheet: Sheet) -> int:
    kind, stays = sheet.part("flex_or_spacer", "kind"), sheet.part("flex_or_spacer", "stays")
    thickness = sheet.part("flex_or_spacer", "thickness")
    return thickness.nm if thickness and kind != "none" and stays != "no" else 0


def _gap(sheet: Sheet, limits: Limits) -> tuple[Estimate | None, bool]:
    """The gap as it is, and whether it counts as measured."""
    reading = sheet.readings.get("gap_now")
    if reading is None:
        return None, False
    u = reading.u_nm
    if gap_is_loose(sheet):
        u = max(u, float(limits.u_gap_state_unknown.nm))
    if sheet.choice("afloat_or_ashore") == "afloat":
        u = max(u, float(limits.u_afloat.nm))
    return Estimate(reading.length.nm, {"gap": u}), u <= limits.u_gap_counts_as_measured.nm


def gap_is_loose(sheet: Sheet) -> bool:
    """True where the coupling was not tight or the propeller not home as the gap was taken."""
    state = sheet.part("coupling_state", "is") or sheet.choice("coupling_state")
    return state != "tight" or sheet.choice("prop_seated") != "seated"


def _hub_tail(sheet: Sheet, standoff: Length | None, limits: Limits) -> Estimate | None:
    hub = sheet.readings.get("hub_length")
    if hub is None or standoff is None:
        return None
    moves = {"hub": _outside_u(sheet, hub, limits), "seat": float(limits.u_seat.nm)}
    return Estimate(hub.length.nm + standoff.nm, moves)


def _taped_tail(sheet: Sheet, gap: Estimate | None, limits: Limits) -> Estimate | None:
    tail = sheet.readings.get("tail_to_thread")
    if tail is None or gap is None:
        return None
    return Estimate(tail.length.nm, {"tail": _outside_u(sheet, tail, limits)}).minus(gap)


def _tail(
    hub: Estimate | None, taped: Estimate | None, size: Size, limits: Limits
) -> tuple[Estimate | None, bool]:
    """Hub front face to thread end: by hub, by tape, both blended, or by the fixed tail."""
    if hub and taped:
        return blend(hub, taped), False
    if hub or taped:
        return hub or taped, False
    if size.diameter not in limits.fixed_tail_sizes:
        return None, True
    fixed = limits.fixed_tail.nm - limits.gap_goal.nm
    moves = {"rule": float(limits.u_fixed_tail.nm), "seat": float(limits.u_seat.nm)}
    return Estimate(fixed, moves), True


def _old(
    sheet: Sheet, gap: Estimate | None, goal: Estimate, band: Band, limits: Limits
) -> Estimate | None:
    reading = sheet.readings.get("old_length_face_to_thread")
    changed = sheet.lists.get("changed_since_shaft", ())
    if reading is None or not _OLD_ROUTE_KILLERS.isdisjoint(changed):
        return None
    if gap is None:
        gap = Estimate(band.goal.nm, {"gap": float(limits.u_gap_assumed.nm)})
    moves = {"old": reading.u_nm}
    if "unknown" in changed:
        moves["changed"] = float(limits.u_changed_unknown.nm)
    return Estimate(reading.length.nm, moves).plus(goal).minus(gap)


def _past(history: History, goal: Estimate, limits: Limits) -> Estimate | None:
    if history.last_length is None or history.fitted_gap is None:
        return None
    moves = {"history": float(limits.u_history.nm)}
    return Estimate(history.last_length.nm - history.fitted_gap.nm + goal.nm, moves)


def _best(
    boat: Estimate | None, old: Estimate | None, past: Estimate | None, limits: Limits
) -> tuple[Estimate | None, set[str]]:
    """The boat first; each witness that agrees is blended in."""
    best: Estimate | None = None
    believed: set[str] = set()
    for name, route in (("boat", boat), ("old_shaft", old), ("history", past)):
        if route is None:
            continue
        if best is None:
            best, believed = route, {name}
        elif _agree(best, route, limits):
            best = blend(best, route)
            believed.add(name)
    return best, believed


def _agree(one: Estimate, other: Estimate, limits: Limits) -> bool:
    difference = one.minus(other)
    return abs(difference.nm) <= limits.route_z_note * difference.u_nm


def _named(
    sheet: Sheet,
    strut: Estimate | None,
    goal: Estimate,
    hub_tail: Estimate | None,
    taped_tail: Estimate | None,
    tail: Estimate | None,
    old: Estimate | None,
    past: Estimate | None,
    believed: set[str],
) -> tuple[tuple[Route, ...], set[str]]:
    """The routes as they are shown: boat and tail apart, though they are believed together."""
    found: list[Route] = []
    used = set(believed)
    if strut:
        by_hub = hub_tail if hub_tail or taped_tail else tail
        if by_hub:
            how = "strut + gap + hub + nut and thread" if hub_tail else "strut + fixed tail"
            found.append(Route("boat", strut.plus(goal).plus(by_hub), how))
        if taped_tail:
            how = "strut + gap + (tail - gap as it is)"
            found.append(Route("tail", strut.plus(goal).plus(taped_tail), how))
            if "boat" in believed:
                used.add("tail")
    if old:
        assumed = "" if sheet.length("gap_now") is not None else ", gap assumed"
        found.append(Route("old_shaft", old, f"old shaft + gap wanted - gap as it was{assumed}"))
    if past:
        found.append(Route("history", past, "last shaft supplied + gap wanted - gap as fitted"))
    return tuple(found), used
