"""Every limit a check compares with, as data: the desk's defaults, common practice unless named.

Checks never hold a number of their own, so a limit can be changed and a season judged again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True, slots=True)
class Limits:
    """One set of limits. Probabilities 0 to 1; factors are ratios; u is one standard deviation."""

    name: str = "2026.1"

    # The gap behind the strut: 1/2 least, 3/4 goal, 1 most, and never more than one diameter
    # (ABYC P-6 overhang, from memory: verify).
    gap_least: Length = inches("1/2")
    gap_goal: Length = inches("3/4")
    gap_most: Length = inches(1)
    gap_goal_metric: Length = mm(19)
    gap_least_metric: Length = mm("12.7")
    gap_most_metric: Length = mm("25.4")
    gap_goal_full_from_metric: Length = mm(25)

    # Cut lengths: to the eighth, to five millimetres.
    rounding_inch: Length = inches("1/8")
    rounding_metric: Length = mm(5)

    # Uncertainties that belong to no method.
    u_seat: Length = inches("0.02")
    u_fixed_tail: Length = inches("0.15")
    u_gap_assumed: Length = inches("0.5")
    u_gap_state_unknown: Length = inches("0.35")
    u_datum_corrected: Length = inches("0.06")
    u_datum_unknown: Length = inches("0.30")
    u_afloat: Length = inches("0.5")
    u_changed_unknown: Length = inches("0.75")
    u_gap_counts_as_measured: Length = inches("0.25")
    u_history: Length = inches("0.06")
    flange_assumed: Length = inches("1/2")

    # The fixed tail, strut to thread end, for hubs of about 2-13/16 on 1 and 1-1/8 in shafts.
    fixed_tail: Length = inches("4 3/4")
    fixed_tail_sizes: tuple[Length, ...] = (inches(1), inches("1 1/8"))

    # Nut stand-off of metric ends: the desk's own copy, invented for the demo. No other size.
    metric_nut_standoff: Mapping[Length, Length] = field(
        default_factory=lambda: {mm(25): mm(28), mm(30): mm(29), mm(40): mm(40)}
    )

    # Routes against each other.
    route_z_note: float = 2.0
    route_z_ask: float = 3.0
    route_ask: Length = inches("3/8")
    route_ask_metric: Length = mm(10)
    route_stop: Length = inches(3)
    route_stop_metric: Length = mm(75)
    second_reading_u: float = 2.0 * 2.0**0.5
    tail_vs_hub: Length = inches("1/8")
    tail_vs_hub_u: float = 3.0
    barrel: Length = inches("1/4")
    old_past_strut: Length = inches("2 1/2")
    nose_near: Length = inches("3/32")
    slip_u: float = 2.0
    burned: Length = inches(1)

    # Units.
    factor_25: float = 25.4
    factor_25_band: float = 0.04
    factors_cm: tuple[float, ...] = (2.54, 1 / 2.54, 10.0, 0.1)
    factors_cm_band: float = 0.03
    feet_inches: Length = inches("1/4")
    foot: Length = inches(12)

    # Fit probability.
    fit_stop: float = 0.90
    fit_ask: float = 0.97

    # The gap as it is.
    gap_now_ask: Length = inches("1 1/2")
    gap_now_stop: Length = inches(3)

    # Diameter.
    wear: Length = inches("0.002")
    u_wear: Length = inches("0.003")
    diameter_sure: float = 0.95
    diameter_residual_u: float = 3.0
    rival_u: float = 2.0
    rival_share: float = 0.02
    odd_sixteenths: tuple[Length, ...] = (
        inches("15/16"),
        inches("1 1/16"),
        inches("1 3/16"),
        inches("1 5/16"),
    )
    snap_u: float = 3.0
    snap_least: Length = mm("0.198437")  # half of 1/64 in: what no tape can tell

    # Bearing.
    wall_least: Length = inches("1/8")
    wall_most: Length = inches("3/8")
    bearing_od_near: Length = inches("0.010")
    bearing_length_near: Length = inches("1/8")

    # Flange.
    hub_not_flange: tuple[Length, Length] = (inches("1 3/4"), inches("2 7/8"))
    flange_near: Length = inches("1/16")
    flanges: tuple[Length, ...] = (
        inches("3 1/2"),
        inches(4),
        inches("4 1/2"),
        inches(5),
        inches("5 3/4"),
        inches("7 1/4"),
        mm(100),
        mm(102),
        mm(127),
    )
    flange_diameters: tuple[tuple[Length, Length, Length], ...] = (
        (inches("3 1/2"), inches("3/4"), inches(1)),
        (inches(4), inches("7/8"), inches("1 1/4")),
        (inches(5), inches("1 1/8"), inches("1 3/4")),
    )
    metric_twin: Length = mm("0.5508")  # 45 mm stands for 1-3/4 in
    small_flange: Length = inches("3 1/2")
    small_flange_stop_from: Length = inches("1 1/4")

    # Strength: least safety factor by service (Gerr; school note citing ABYC P-6 practice).
    safety_pleasure: float = 3.0
    safety_work: float = 5.0
    safety_passenger: float = 7.5
    safety_stop_share: float = 2 / 3

    # Bar.
    bar_facing_and_saw: Length = inches("1/4")
    bar_longest: Length = inches(144)
    bar_longest_metric: Length = mm(4000)

    # The desk's default alloys.
    alloy_inch: str = "S20910"
    alloy_metric: str = "1.4462"

    # Worth asking on a sheet nothing else is asked of.
    worth_asking: float = 0.005


DEFAULT_LIMITS = Limits()
