"""Limits of slips: what each moves, how often it happens, what evidence is worth.

All weights, spreads and ratios are common practice, no source: starting guesses which the desk's
own recorded causes replace.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from catalog.domain.lengths import Length, inches, mm

# cause: rows of (mean, spread, weight in a thousand sheets with two routes, what it touches).
# Mean and spread are inches of the difference "boat less old shaft", so a slip on the old shaft
# carries the other sign than the reading itself.
SlipRows = tuple[tuple[float, float, float, str], ...]

_SLIPS: dict[str, SlipRows] = {
    "R-BURN-X": ((1, 0.03, 12, "strut"),),
    "R-BURN-O": ((-1, 0.03, 10, "old"),),
    "R-TWICE": ((-1, 0.03, 3, "strut"), (1, 0.03, 3, "old")),
    "R-TEN": ((10, 0.03, 4, "strut"), (-10, 0.03, 3, "old")),
    "R-WHOLE": ((1, 0.03, 5, "either"), (-1, 0.03, 5, "either")),
    "R-FLIP": (
        (0.125, 0.02, 3, "either"),
        (-0.125, 0.02, 3, "either"),
        (0.25, 0.02, 2, "either"),
        (-0.25, 0.02, 2, "either"),
        (0.5, 0.02, 1, "either"),
        (-0.5, 0.02, 1, "either"),
    ),
    "R-DECFRAC": ((-0.09, 0.05, 6, "strut"),),
    "R-CASE": ((-3, 0.25, 4, "strut"),),
    "R-FTIN": ((-6, 0.05, 3, "strut"),),
    "R-SWAP": ((9, 0.1, 2, "either"), (-9, 0.1, 2, "either")),
    "D-GBACK": ((0.5, 0.08, 10, "strut"),),
    "D-CBACK": ((-0.5, 0.08, 14, "strut"),),
    "D-HUB": ((-2.5, 0.4, 8, "strut"),),
    "D-FWD": ((-2.0, 0.1, 10, "strut"),),
    "D-MID": ((-1.0, 0.12, 2, "strut"),),
    "D-RUB": ((0.19, 0.1, 4, "strut"), (-0.19, 0.1, 1, "strut")),
    "D-SLOPE": ((-0.6533, 0.3, 6, "strut"),),
    "D-SAG": ((0.3, 0.25, 8, "strut"),),
    "D-OPEN": ((-0.3, 0.25, 7, "strut"),),
    "D-PIN": ((-0.3125, 0.03, 14, "old"),),
    "D-TAPER": ((1.4375, 0.06, 4, "old"),),
    "D-END": ((0.1, 0.1, 4, "old"),),
    "G-ASSUME": ((0, 0.75, 45, "gap"),),
    "G-BLADE": ((0.5, 0.25, 6, "gap"),),
    "G-SLID": ((0.35, 0.25, 8, "gap"),),
    "P-RULE": ((0, 0.35, 20, "rule"),),
    "B-MOVED": ((0, 1.5, 12, "old"),),
    "I-OTHER": ((0, 4, 6, "either"),),
    "X": ((0, 3, 15, "either"),),
}

_EVIDENCE: dict[str, dict[str, float]] = {
    "started_on_a_mark": {"R-BURN-X": 6, "R-BURN-O": 6, "R-TEN": 6, "R-WHOLE": 0.5},
    "rod": {"R-*@strut": 0.5, "D-SLOPE": 0.1, "D-SAG": 0.1, "D-OPEN": 0.1},
    "hook_seen_on_the_face": {"D-GBACK": 0.05, "D-CBACK": 0.05, "D-HUB": 0.05},
    "datum_said": {"D-GBACK": 0.25, "D-CBACK": 0.25, "D-HUB": 0.25, "D-REAR": 0.25},
    "shaft_in_place": {"D-GBACK": 2, "D-CBACK": 2, "D-HUB": 2, "D-OPEN": 0.1},
    "coupling_bolted": {"G-SLID": 0.3},
    "gap_by_drill_bolted": {"G-ASSUME": 0.05, "G-SLID": 0.2, "G-BLADE": 0.2},
    "strut_read_again": {"R-*@strut": 0.02, "D-*@strut": 0.25},
    "old_read_again": {"R-*@old": 0.02, "D-*@old": 0.25},
    "gap_as_if_assumed": {"G-ASSUME": 3},
    # Who tapes the tail has strut and propeller before the eyes.
    "tail_taped": {"G-ASSUME": 0.1},
    # Who has seen the nose knows where the threads end, and stops there at the strut as well.
    "nose_seen": {"D-PIN@old": 4, "D-PIN@tail": 0.25},
    "no_nose": {"D-PIN": 0},
    "nose_left_out": {"D-PIN": 0.05},
    "both_strut_ends": {"D-FWD": 0.1, "D-MID": 0.1},
    "level_or_floor": {"D-SLOPE": 8},
    "along_the_shaft_said": {"D-SLOPE": 0.25},
    "driveline_changed": {"B-MOVED": 8},
    "nothing_changed": {"B-MOVED": 0.25},
    "practised_yard": {"R-*": 0.5, "G-ASSUME": 1.5},
    "twin": {"I-OTHER": 3},
}


@dataclass(frozen=True)
class SlipsLimits:
    """Limits of slips. Weights count in a thousand; ratios multiply a weight."""

    # How often a sheet with two routes holds no slip at all, in a thousand.
    no_slip_weight: float = 722.0
    slips: Mapping[str, SlipRows] = field(default_factory=lambda: dict(_SLIPS))
    evidence: Mapping[str, Mapping[str, float]] = field(default_factory=lambda: dict(_EVIDENCE))
    # On a shaft that passes through its gearbox: from the gearbox's back (weight in a thousand of
    # those sheets, spread in inches).
    rear_weight: float = 150.0
    rear_spread: float = 0.2
    # The nose counted in the tail alone, and in tail and old length both: no two routes show it.
    nose_in_tail_weight: float = 4.0
    nose_in_both_weight: float = 2.0
    # Boat and old shaft wrong together by something that is on no list: a stretched tape, a bent
    # hook (weight in a thousand, spread in inches).
    both_wrong_weight: float = 1.2
    both_wrong_spread: float = 0.5
    # The nose of a metric end, which no table gives.
    nose_metric_assumed: Length = mm(8)
    # Exchanged digits are thought of from this difference on.
    swap_from: Length = inches(2)
    # The desk's own causes among sheets with two routes; "OK" counts those without any.
    cause_counts: Mapping[str, int] = field(default_factory=dict)
    pseudo_sheets: float = 200.0
    practised_orders: int = 5

    # The sizes by which single slips are known: the tape's first mark, inch or centimetre; its
    # case; what lies near a level measurement, and near the gearbox a shaft passes through.
    burned: Length = inches(1)
    burned_metric: Length = mm(10)
    ten_marks: int = 10
    tape_case_least: Length = inches("2.6")
    tape_case_most: Length = inches("3.4")
    slope_near: Length = inches("0.15")
    through_near: Length = inches("0.3")
