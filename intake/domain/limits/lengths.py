"""Limits of the ways to the length, the cut and the fit. Common practice unless named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class LengthsLimits:
    """Limits of the ways to the length, the cut and the fit."""

    # Cut lengths: to the eighth, to five millimetres.
    rounding_inch: Length = inches("1/8")
    rounding_metric: Length = mm(5)
    # Finer where the usual step alone would spoil the fit: narrow bands, witnesses that differ.
    rounding_fine: Length = inches("1/16")
    rounding_fine_metric: Length = mm(1)
    # Such a cut is looked for below this fit, taken where it brings so much, and lies so near.
    fit_sure: float = 0.995
    fine_worth: float = 0.002
    cut_reach: Length = inches("1/4")

    # How much is left on at the coupling end of a shaft that a yard faces to length.
    left_long: Length = inches(1)
    left_long_metric: Length = mm(25)

    # Uncertainties that belong to no method.
    u_seat: Length = inches("0.02")
    u_fixed_tail: Length = inches("0.15")
    u_gap_assumed: Length = inches("0.5")
    u_gap_state_unknown: Length = inches("0.35")
    u_datum_corrected: Length = inches("0.06")
    u_datum_unknown: Length = inches("0.30")
    u_afloat: Length = inches("0.5")
    u_changed_unknown: Length = inches("0.75")
    u_propeller_unknown: Length = inches("0.35")
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

    # Fit probability.
    fit_stop: float = 0.90
    fit_ask: float = 0.97

    # A length taken level: how well an angle is read, in degrees (a phone's level).
    u_angle_degrees: float = 0.5

    # Worth asking on a sheet nothing else is asked of.
    worth_asking: float = 0.005
