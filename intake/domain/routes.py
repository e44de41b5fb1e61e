"""The ways to the shaft length, and their best blend.

x runs along the shaft from the coupling face, positive aft; lengths end at the last thread.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.ends import ShaftEnd, shaft_end
from catalog.domain.lengths import Length
from intake.domain.diameter import Size
from intake.domain.estimate import Estimate, blend
from intake.domain.fit import Band
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.sheet import Sheet
from intake.domain.strut import outside_u, read_twice, spacers, strut_distance

_OLD_ROUTE_KILLERS = frozenset({"engine", "gearbox", "mounts", "coupling", "strut", "log"})


@dataclass(frozen=True, slots=True)
class Routes:
    """What every route comes to, the blend that is believed, and how they stand to each other.

    ``boat`` is the boat route with the best tail; ``old`` the old shaft's, ``past`` that of the
    last shaft supplied. ``difference`` is boat less old. ``units`` gives the standard uncertainty
    of each reading that moves a route, in nanometres. ``independent`` counts routes that no single
    mistake can move together; boat and tail share the strut distance and count once.
    """

    believed: frozenset[str]
    best: Estimate | None
    boat: Estimate | None
    old: Estimate | None
    past: Estimate | None
    difference: Estimate | None
    independent: int
    hub_tail: Estimate | None
    taped_tail: Estimate | None
    tail: Estimate | None
    tail_is_rule: bool
    strut: Estimate | None
    gap_measured: bool
    units: tuple[tuple[str, float], ...]


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
    # Another propeller has another hub: what was measured behind the strut, or fitted with the
    # propeller that goes, says nothing of it.
    same_propeller = sheet.choice("propeller_stays") != "no"
    taped_tail = _taped_tail(sheet, gap, limits) if same_propeller else None
    tail, is_rule = _tail(hub_tail, taped_tail, size, limits)
    boat = strut.plus(goal).plus(tail) if strut and tail else None
    old = _old(sheet, gap, goal, band, limits) if same_propeller else None
    past = _past(history, goal, limits) if same_propeller else None
    best, believed = _best(boat, old if measured else None, past, limits)
    if best is None and old is not None:
        best, believed = old, {"old_shaft"}
    counts = (boat is not None, _witnesses(old, measured, limits), past is not None)
    return Routes(
        believed=frozenset(believed),
        best=best,
        boat=boat,
        old=old,
        past=past,
        difference=boat.minus(old) if boat and old else None,
        independent=sum(counts),
        hub_tail=hub_tail,
        taped_tail=taped_tail,
        tail=tail,
        tail_is_rule=is_rule,
        strut=strut,
        gap_measured=measured,
        units=_units(strut, hub_tail, taped_tail, tail, old, past),
    )


def _witnesses(old: Estimate | None, gap_measured: bool, limits: Limits) -> bool:
    """An old shaft speaks only with a measured gap, and of a boat known not to have changed."""
    if old is None or not gap_measured:
        return False
    return old.moves.get("changed", 0.0) <= limits.u_gap_counts_as_measured.nm


def _units(*estimates: Estimate | None) -> tuple[tuple[str, float], ...]:
    """Each reading's own standard uncertainty: a reading stands with its full u where it is read.

    In a blend it moves less, and in a difference it may cancel.
    """
    units: dict[str, float] = {}
    for estimate in estimates:
        if estimate:
            for name, move in estimate.moves.items():
                units[name] = max(units.get(name, 0.0), abs(move))
    return tuple(units.items())


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
    moves = {"hub": outside_u(sheet, hub, limits), "seat": float(limits.u_seat.nm)}
    if sheet.choice("propeller_stays") == "unknown":
        moves["propeller"] = float(limits.u_propeller_unknown.nm)
    return Estimate(hub.length.nm + standoff.nm, moves)


def _taped_tail(sheet: Sheet, gap: Estimate | None, limits: Limits) -> Estimate | None:
    tail = sheet.readings.get("tail_to_thread")
    if tail is None or gap is None:
        return None
    return Estimate(tail.length.nm, {"tail": outside_u(sheet, tail, limits)}).minus(gap)


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
    value, u = read_twice(reading, reading.u_nm, limits)
    moves = {"old": u}
    if "unknown" in changed:
        moves["changed"] = float(limits.u_changed_unknown.nm)
    now, then = spacers(sheet)
    # A spacer that goes lets the new shaft come forward by its thickness.
    return Estimate(value + now - then, moves).plus(goal).minus(gap)


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
