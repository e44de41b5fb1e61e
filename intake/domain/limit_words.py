"""Limits in the words of the desk, for the manager's page and the page of checks.

A limit without an entry here is shown by its own name, opened up: a new one reads well at once.
"""

from __future__ import annotations

LABELS: dict[str, str] = {
    # Entry.
    "factor_25": "millimetres in an inch, for a wrong unit",
    "factor_25_band": "how near to that ratio two numbers must be, as a share",
    "factors_cm": "ratios of centimetres, inches and millimetres taken for each other",
    "factors_cm_band": "how near to such a ratio two numbers must be, as a share",
    "feet_inches": "how near feet and inches run together must come to the truth",
    "foot": "inches of one foot",
    "power_least": "least horsepower of an engine",
    "power_most": "most horsepower of an engine",
    "speed_least": "lowest full speed of an engine, turns a minute",
    "speed_most": "highest full speed of an engine, turns a minute",
    "stale_note": "numbers older than this many days are noted",
    "stale_ask": "numbers older than this many days are asked about",
    "decimal_apart": "a decimal for eighths matters from this difference",
    "decimal_closes_u": "a reading goes with the others within this many doubts",
    "tape_mark": "finest mark of an inch tape",
    "rule_mark": "finest mark of a steel rule in inches",
    "tape_mark_metric": "finest step of a metric tape",
    "decimal_fine": "a decimal this fine was worked out, not read",
    "decimal_rounding": "unless it is as near as this to a mark",
    "caliper_coarse": "coarser than a caliper is written",
    "rounding_prior": "odds that somebody rounds, before any number is seen",
    "rounding_readings": "lengths that must be whole before rounding is suspected",
    "rounding_odds": "rounding is asked about from these odds",
    "rounding_reads_to": "what a tape is read to by who does not round",
    "copied_examples": "numbers of our own examples that make a copied sheet",
    "both_wrong_weight": "boat and old shaft wrong together, sheets in a thousand",
    "both_wrong_spread": "and by how much, in inches",
    "nose_metric_assumed": "nose of a metric shaft, where nobody measured it",
    "swap_from": "exchanged digits come to mind from this difference of the routes",
    # Pieces, and what rounding costs.
    "implied_hub_share": "shortest hub, as a share of its taper",
    "implied_hub_past_taper": "longest hub: its taper and this",
    "pieces_near": "pieces against the whole: asked beyond",
    "pieces_u": "pieces against the whole: asked beyond this many doubts",
    "u_pieces": "doubt of a length added up from pieces",
    "rubber_least": "a bearing stands proud of the strut from",
    "u_polished_band": "doubt of where a bright band ends",
    "polished_near": "bright band against the strut: asked beyond",
    "polished_u": "bright band against the strut: asked beyond this many doubts",
    "u_share_of_half_band": "doubt the gap bears, as a share of half its band",
    "rounding_cost": "rounding is noted when it costs more of the chance to fit",
    "cost_short": "cost of a shaft cut short",
    "cost_long": "cost of a shaft cut long",
    "long_shift": "a lean to the long side counts from",
    # The ways to the length.
    "rounding_inch": "inch shafts are cut to the nearest",
    "rounding_metric": "metric shafts are cut to the nearest",
    "u_seat": "doubt from the propeller's seat and nut",
    "u_fixed_tail": "doubt of the fixed tail",
    "u_gap_assumed": "doubt of a gap that was assumed",
    "u_gap_state_unknown": "doubt of a gap taken with the coupling loose or the propeller unseated",
    "u_datum_corrected": "doubt of a start point that was put right",
    "u_datum_unknown": "doubt of a start point that is not known",
    "u_afloat": "doubt of a length taken afloat",
    "u_propeller_unknown": "doubt when nobody knows whether this propeller goes back on",
    "u_changed_unknown": "doubt when engine, gearbox or strut was changed",
    "u_gap_counts_as_measured": "a gap counts as measured up to this doubt",
    "u_history": "doubt of a shaft we made before",
    "flange_assumed": "flange thickness where none was given",
    "fixed_tail": "the fixed tail, strut to thread end",
    "fixed_tail_sizes": "shaft sizes the fixed tail is used for",
    "metric_nut_standoff": "metric ends: hub to thread end, by shaft size",
    "route_z_note": "boat against old shaft: noted beyond this many doubts",
    "route_z_ask": "boat against old shaft: asked beyond this many doubts",
    "route_ask": "boat against old shaft: asked beyond (inch shafts)",
    "route_ask_metric": "boat against old shaft: asked beyond (metric shafts)",
    "route_stop": "boat against old shaft: stopped beyond (inch shafts)",
    "route_stop_metric": "boat against old shaft: stopped beyond (metric shafts)",
    "second_reading_u": "a second reading agrees within this many doubts",
    "tail_vs_hub": "tail against hub: asked beyond",
    "tail_vs_hub_u": "tail against hub: asked beyond this many doubts",
    "barrel": "strut ends against strut barrel: asked beyond",
    "old_past_strut": "an old shaft ends at least this far behind the strut",
    "nose_near": "how near to a nose a difference must be",
    "slip_u": "a known slip explains a difference within this many doubts",
    "burned": "what is lost when the tape starts on the 1 mark",
    "fit_stop": "chance that the gap is right: stopped below",
    "fit_ask": "chance that the gap is right: asked below",
    "worth_asking": "a question is worth asking from this gain in that chance",
    # The gap.
    "gap_least": "least gap (inch shafts)",
    "gap_goal": "gap aimed at (inch shafts)",
    "gap_most": "most gap (inch shafts)",
    "gap_least_metric": "least gap (metric shafts)",
    "gap_goal_metric": "gap aimed at (metric shafts)",
    "gap_most_metric": "most gap (metric shafts)",
    "gap_goal_full_from_metric": "metric shafts have the full gap from this size up",
    "gap_now_ask": "the gap as it is: asked beyond",
    "gap_now_stop": "the gap as it is: stopped beyond",
    "gap_doubts": "how many doubts to either side of the gap are looked at",
    "soft_mount_room": "room for soft engine mounts, over the least gap",
    "room_between": "room beside what sits between strut and propeller",
    "blade_least": "a gap taken to the blade is too wide by at least",
    "blade_most": "a gap taken to the blade is too wide by at most",
    # Diameter.
    "wear": "how much a worn shaft has lost",
    "u_wear": "doubt of that wear",
    "diameter_sure": "a size is sure from this probability",
    "diameter_residual_u": "a reading fits a size within this many doubts",
    "rival_u": "a size of the other system is a rival within this many doubts",
    "rival_share": "a rival counts from this probability",
    "odd_sixteenths": "sixteenths that are hardly ever a shaft",
    "snap_u": "a reading is taken for a stocked size within this many doubts",
    "snap_least": "and always within",
    "metric_rarer": "with an inch tape a metric size is rarer by",
    "inch_rarer": "with a metric tape an inch size is rarer by",
    "thread_gauge_right": "threads told right with a gauge, as a share",
    "thread_count_right": "threads told right along a rule, as a share",
    "thread_peaks_share": "of the threads told wrong, peaks counted for gaps",
    "thread_crest_share": "of the threads told wrong, a worn crest",
    "thread_crest_worn": "how much a worn crest reads small",
    "end_not_standard": "propeller ends that follow no standard, as a share",
    "end_of_other_system": "propeller ends of the other system, as a share",
    "taper_inch": "taper of inch ends",
    "taper_metric": "taper of metric ends",
    "metric_taper_1_in_16": "metric ends with the inch taper, as a share",
    "taper_near": "a taper is told within",
    "u_taper_diameter": "doubt of a taper's diameters",
    "u_taper_length": "doubt of a taper's length",
    "u_small_end": "doubt of a taper's small end",
    "u_keyway": "doubt of a keyway's width",
    "u_coupling_bore": "doubt of a coupling's bore",
    "evidence_slip": "such answers that are a slip, as a share",
    "mark_slip": "bearing marks that are a slip, as a share",
    "mark_near": "how near a mark must be to a size",
    "bolts_share_system": "flange bolts of the shaft's own system, as a share",
    "two_spots_same": "clean stretch and bearing stretch are alike within",
    "two_spots_worn": "the bearing stretch is worn beyond",
    "two_spots_note_u": "and wear is noted beyond this many doubts",
    "two_spots_ask_u": "thicker in the bearing: asked beyond this many doubts",
    "coupling_bore_near": "a coupling's bore may be the shaft's size within",
    "coarse_ways": "ways of measuring too coarse for inch against metric",
    "coarse_from": "and from this shaft size up",
    "coated_least": "a shaft reads over its size: noted beyond",
    "coated_most": "and up to",
    "coated_u": "and beyond this many doubts",
    # Bearing.
    "wall_least": "thinnest wall of a bearing",
    "wall_most": "thickest wall of a bearing",
    "bearing_od_near": "how near a shell must be to a listed one",
    "bearing_length_near": "how near a bearing's length must be to a listed one",
    "shell_press": "a shell may be wider than its strut's bore by",
    "shell_slip": "a shell may be narrower than its strut's bore by",
    "shell_fit_ask": "shell against strut bore: asked beyond",
    "shell_fit_note_u": "shell against strut bore: noted beyond this many doubts",
    "shell_fit_ask_u": "shell against strut bore: asked beyond this many doubts",
    "past_barrel": "bearings may stand out of their barrel by",
    "barrel_share": "bearings fill at least this share of their barrel",
    "bearing_ratio_least": "a bearing's length is at least this many bores",
    "bearing_ratio_most": "a bearing's length is at most this many bores",
    "bearing_ratio_usual": "usual lengths of a bearing in bores, least and most",
    "bearing_lengths_usual": "usual bearings of short struts",
    "shells_of_metal": "shells that corrode in such a strut",
    "struts_that_mind": "strut metals that a metal shell harms",
    "bearing_old_hours": "a bearing is old from this many hours",
    "play_worn": "a shaft may lift in its bearing by",
    # Coupling.
    "hub_not_flange": "widths that are a hub rather than a flange",
    "flange_near": "how near a flange must be to a usual one",
    "flanges": "usual flanges",
    "flange_diameters": "shaft sizes that go with a flange, smallest and largest",
    "metric_twin": "how far a metric size may be from the inch size it stands for",
    "small_flange": "a small flange",
    "small_flange_stop_from": "a small flange is stopped from this shaft size up",
    "flange_twins": "flanges that an inch tape and a metric one read alike",
    "flange_torque": "torque in lb-in that a flange carries",
    "bolt_circles": "bolt circles that go with a flange",
    "bolt_circle_near": "how near a bolt circle must be to its flange's",
    "u_bolt_spacing": "doubt of the distance between two holes",
    "bolt_circle_u": "and within this many doubts",
    "bolt_counts": "usual numbers of flange bolts",
    "bolt_edge": "metal outside a flange hole, in hole sizes",
    "pilot_depth": "depths of the ring in a flange, least and most",
    "gland_room": "bare shaft between coupling and gland, at least",
    "hub_longer": "a new coupling's hub may be longer by",
    "key_near": "how near a key must be to a table's",
    # Strength.
    "safety_pleasure": "least safety factor, pleasure",
    "safety_work": "least safety factor, work",
    "safety_passenger": "least safety factor, passengers",
    "safety_stop_share": "stopped below this share of the least safety factor",
    "alloy_inch": "usual alloy of inch shafts",
    "alloy_metric": "usual alloy of metric shafts",
    # The desk.
    "bar_facing_and_saw": "bar lost to facing and saw",
    "bar_longest": "longest bar (inch)",
    "bar_longest_metric": "longest bar (metric)",
    # Slips.
    "no_slip_weight": "sheets without any slip, in a thousand",
    "slips": "known slips: what each moves and how often it happens",
    "evidence": "what each piece of evidence is worth for a slip",
    "rear_weight": "measured from the gearbox's back where the shaft passes through, in a thousand",
    "rear_spread": "spread of that slip, in inches",
    "nose_in_tail_weight": "the nose counted in the tail alone, in a thousand",
    "nose_in_both_weight": "the nose counted in tail and old length both, in a thousand",
    "pseudo_sheets": "sheets that the starting guesses count for beside the desk's own",
    "practised_orders": "a yard is practised from this many fitted orders",
}

_LAST_WORD = {
    "ask": "asked beyond",
    "stop": "stopped beyond",
    "note": "noted beyond",
    "least": "least",
    "most": "most",
    "near": "how near counts",
    "share": "as a share",
    "u": "in doubts",
}


def label(name: str) -> str:
    """A limit's name in words.

    >>> label("gap_least"), label("u_rudder"), label("log_ring_ask"), label("key_width_metric")
    ('least gap (inch shafts)', 'doubt of rudder', 'log ring: asked beyond', 'key width (metric)')
    """
    return LABELS.get(name) or _opened(name)


def _opened(name: str) -> str:
    words, metric = name.removesuffix("_metric"), name.endswith("_metric")
    if words.startswith("u_"):
        said = f"doubt of {words[2:].replace('_', ' ')}"
    else:
        stem, _, last = words.rpartition("_")
        said = f"{stem}: {_LAST_WORD[last]}" if stem and last in _LAST_WORD else words
    return said.replace("_", " ") + (" (metric)" if metric else "")


def group_title(about: str) -> str:
    """The heading of a group of limits, from what the group says of itself.

    >>> group_title("Limits of the gap behind the strut")
    'The gap behind the strut'
    """
    said = about.removeprefix("Limits of ")
    return said[:1].upper() + said[1:]
