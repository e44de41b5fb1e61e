"""Every word the drawing can print, by key: the browser's drawing gets the same, translated.

``slug.name`` is what the dimension is called, ``slug.first`` and ``slug.last`` stand at its ends.
"""

from __future__ import annotations

from collections.abc import Mapping

Words = Mapping[str, str]

# Every answer the drawing can light: its name, and what is at its two ends.
ASKED: dict[str, tuple[str, str, str]] = {
    "face_to_strut_aft": ("face to strut", "hook: flange face", "thumb: strut's metal"),
    "face_to_strut_fwd": ("face to strut, front", "hook: flange face", "thumb: strut's front"),
    "strut_barrel": ("strut", "front end", "aft end"),
    "gap_now": ("gap", "strut's metal end", "hub's front face"),
    "hub_length": ("hub", "hub's front face", "back face"),
    "tail_to_thread": ("tail", "hook: strut's metal end", "thumb: thread end"),
    "old_length_face_to_thread": ("shaft", "hook: coupling face", "thumb: thread end"),
    "old_length_overall": ("overall", "one tip", "other tip"),
    "bearing_length": ("bearing", "one end", "other end"),
    "gearbox_through": ("gearbox", "front face", "back of gearbox"),
    "front_end": ("front end", "tip", "mating face"),
    "hub_length_coupling": ("coupling", "face", "end of its hub"),
    "flange_thickness": ("one flange", "its back", "its face"),
    "gland_position": ("face to gland", "coupling face", "front of the gland"),
    "nuts": ("nuts", "hub's back face", "thread end"),
    "pin_end": ("nose", "thread end", "tip"),
    "dia_clean": ("diameter", "bright, unworn stretch", ""),
    "dia_journal": ("diameter", "where it runs in the bearing", ""),
    "flange_od": ("flange", "the big disc, rim to rim", ""),
    "shell_od": ("shell", "outside of the shell, not of the strut", ""),
    "strut_bore": ("bore", "inside of the strut, bearing out", ""),
    "flange_direction": ("hub points", "the long hub points", ""),
    "forward_datum": ("hook", "the tape's hook touched", "this face?"),
    "coupling_state": ("coupling", "between the two flanges", "together, or apart?"),
    "drive_layout": ("drive", "gearbox", ""),
    "boat_name_and_station": ("which shaft", "seen from above", "face the bow: port is left"),
}

# What else it prints or says.
PLAIN: dict[str, str] = {
    "nut_standoff": "nut",
    "front_length": "front",
    "datum": "datum",
    "engine": "engine",
    "port": "port",
    "starboard": "starboard",
    "centre": "centre",
    "bow": "bow",
    "inline": "straight back from the engine",
    "down_angle": "straight back, output angled down",
    "v_rear_flange": "V-drive, flange at the back",
    "v_pass_through": "V-drive, shaft passes through",
    "aft": "aft, toward the propeller",
    "forward": "forward, toward the engine",
    "inches": "inches",
    "mm": "mm",
    "mark.measured": "measured",
    "mark.computed": "computed",
    "mark.assumed": "assumed (dashed)",
    "mark.table": "from the standard's table",
    "mark.desk": "the desk's own figure, to be verified",
    "letter.measured": "M",
    "letter.computed": "C",
    "letter.assumed": "A",
    "letter.table": "T",
    "letter.desk": "D",
    "title": "Drive line",
    "title.through": "Drive line, shaft passing through the gearbox",
    "title.lit": "{line}: {name} shown",
    "said": "{name} {text}",
    "said.mark": "{name} {text}, {mark}",
    "first": "gearbox flange, half coupling",
    "first.through": "front coupling and its nut, gearbox",
    "description": "Side view from the engine on the left to the propeller on the right: {first}, "
    "gland, log through the hull, strut with bearing, gap, propeller hub on its taper, nut and "
    "jam nut, nose. Every length counts from the coupling face. {scale}{twin}{listed}",
    "to_scale": "Drawn to scale.",
    "shortened": "The plain shaft is shortened at a break.",
    "twin": " A small view from above shows which shaft it is: {station}.",
}

# The picture of the gap with its fog.
GAP: dict[str, str] = {
    "gap.title": "The gap behind the strut, with how sure we are",
    "gap.least": "least",
    "gap.goal": "goal",
    "gap.most": "most",
    "gap.hub": "propeller hub",
    "gap.strut": "strut",
    "gap.unknown": "not known yet",
    "gap.doubt": "{gap}, give or take {doubt} (2 of 3)",
    "gap.touch": "no gap: they would touch",
    "gap.under": "under 1/32 in",
    "gap.fair": "A fair gap is {least} to {most}.",
    "gap.cannot": "The gap cannot be told yet. {fair}",
    "gap.inside": "The whole fog lies inside the fair band.",
    "gap.outside": "Part of the fog lies outside the fair band: the propeller could stand too near "
    "or too far.",
    "gap.expected": "The propeller hub is expected {gap} behind the strut, give or take {doubt} in "
    "2 of 3 cases. {fair} {verdict}",
}

ENGLISH: dict[str, str] = (
    PLAIN
    | GAP
    | {
        f"{slug}.{part}": word
        for slug, words in ASKED.items()
        for part, word in zip(("name", "first", "last"), words, strict=True)
        if word
    }
)
