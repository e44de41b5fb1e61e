"""Limits of the shaft's diameter. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm


@dataclass(frozen=True)
class DiameterLimits:
    """Limits of the shaft's diameter."""

    # What a shaft has lost on a clean stretch, and how surely.
    wear: Length = inches("0.002")
    u_wear: Length = inches("0.003")
    # Who owns an inch tape meets a metric size this much more rarely, and the reverse.
    metric_rarer: float = 30.0
    inch_rarer: float = 3.2
    # When a size is believed, and when a size of the other system is too near.
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

    # How often a thread is told right: with a gauge, or counted along a rule.
    thread_gauge_right: float = 0.98
    thread_count_right: float = 0.90
    # Of the threads told wrong: peaks counted for gaps (one too many), a worn crest.
    thread_peaks_share: float = 0.5
    thread_crest_share: float = 0.3
    thread_crest_worn: Length = inches("1/16")
    # Ends that follow no standard, and ends of the other system (a metric bar with an inch end).
    end_not_standard: float = 0.05
    end_of_other_system: float = 0.05
    # Tapers on diameter: SAE J755 1:16, ISO 4566 1:10; ISO 8845 is metric and 1:16.
    taper_inch: float = 1 / 16
    taper_metric: float = 1 / 10
    metric_taper_1_in_16: float = 0.15
    taper_near: float = 0.008
    u_taper_diameter: Length = inches("0.003")
    u_taper_length: Length = inches("0.03")
    u_small_end: Length = inches("0.003")
    u_keyway: Length = inches("0.005")
    u_coupling_bore: Length = inches("0.010")
    # How often such an answer is a slip; a stamped mark is one more rarely.
    evidence_slip: float = 0.10
    mark_slip: float = 0.03
    mark_near: Length = inches("0.001")
    # How often the flange bolts are of the shaft's own system.
    bolts_share_system: float = 0.85

    # The clean stretch beside the one in the bearing: no wear, wear, worn out.
    two_spots_same: Length = inches("0.005")
    two_spots_worn: Length = inches("0.015")
    two_spots_note_u: float = 2.0
    two_spots_ask_u: float = 3.0
    # A bore within this of the shaft's size may be the same size.
    coupling_bore_near: Length = inches("0.010")
    # Ways of measuring that leave a metric size possible, and from which size on.
    coarse_ways: tuple[str, ...] = ("wrench_32", "wrench_16", "tape_across", "tape", "tape_short")
    coarse_from: Length = inches(1)
    # Oversize by this much: paint, growth, a tilted tool.
    coated_least: Length = inches("0.01")
    coated_most: Length = inches("0.06")
    coated_u: float = 2.0
