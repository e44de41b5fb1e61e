"""The words of the pictures of mistakes, and which picture belongs to which question."""

from __future__ import annotations

# What each picture is about; the right way, the wrong way.
_SAID: dict[str, tuple[str, str, str]] = {
    "flange_back": (
        "Where the hook goes",
        "hook on the machined face",
        "hooked behind the flange",
    ),
    "flange_aft_face": (
        "Where the length starts",
        "where the two faces meet",
        "from behind the shaft's flange",
    ),
    "from_gearbox_back": (
        "Where the length starts",
        "from the front face",
        "from the gearbox's back",
    ),
    "strut_front_end": (
        "Which end of the strut",
        "to the end by the propeller",
        "stopped at the front end",
    ),
    "rubber_not_metal": (
        "Metal or rubber",
        "to the strut's metal",
        "to the rubber",
    ),
    "level_not_along": (
        "How the tape lies",
        "along the shaft",
        "level, along the floor",
    ),
    "begun_on_one": (
        "Where the tape starts",
        "from the hook: reads 2",
        "from the 1 mark: reads 3",
    ),
    "gap_to_blade": (
        "Where the gap ends",
        "to the hub's front face",
        "to the root of a blade",
    ),
    "gap_to_rubber": (
        "Where the gap starts",
        "from the strut's metal",
        "from the rubber",
    ),
    "shaft_slid_aft": (
        "Shaft forward, faces together",
        "faces together, pushed in",
        "faces apart, slid aft",
    ),
    "propeller_pushed_on": (
        "Propeller home on its taper",
        "pulled home by its nut",
        "only pushed on by hand",
    ),
    "nut_counted": (
        "The hub alone",
        "hub, face to face",
        "nuts counted in",
    ),
    "blade_edge": (
        "The hub alone",
        "hub, face to face",
        "to the edge of a blade",
    ),
    "tail_to_nose": (
        "Where the tail ends",
        "to the end of the thread",
        "to the tip of the nose",
    ),
    "old_to_pin_end": (
        "Where the old shaft ends",
        "to the end of the thread",
        "to the tip of the nose",
    ),
    "old_from_bar_end": (
        "Where the old shaft starts",
        "from the coupling's face",
        "from the end of the bar",
    ),
    "two_end_to_end": (
        "One bearing or two",
        "two: each by itself",
        "two taken for one",
    ),
    "worn_journal": (
        "Where the shaft is its full size",
        "on bright, unworn metal",
        "where the bearing wore it",
    ),
    "jaws_tilted": (
        "How the jaws stand",
        "square across",
        "tilted: reads large",
    ),
    "hub_for_flange": (
        "Which disc",
        "the big disc, bolts in it",
        "the hub behind it",
    ),
    "rim_to_centre": (
        "Across the flange",
        "rim to rim",
        "rim to the centre",
    ),
    "shell_on_strut": (
        "Which ring",
        "across the shell",
        "across the strut",
    ),
    "side_facing_aft": (
        "Which side is port",
        "port: facing the bow",
        "not while facing aft",
    ),
}

# Every word of the pictures, by key, for another language.
WORDS: dict[str, str] = {
    "right": "right",
    "wrong": "wrong",
    "port": "port",
    "gearbox": "gearbox",
    "description": "Right: {right}. Wrong: {wrong}.",
} | {
    f"{name}.{part}": word
    for name, said in _SAID.items()
    for part, word in zip(("title", "right", "wrong"), said, strict=True)
}

# The usual mistakes of each question, the commonest first.
MISTAKES_OF: dict[str, tuple[str, ...]] = {
    "face_to_strut_aft": ("flange_back", "strut_front_end", "flange_aft_face", "rubber_not_metal",
                          "level_not_along", "begun_on_one", "from_gearbox_back"),
    "face_to_strut_aft.again": ("begun_on_one", "flange_back"),
    "face_to_strut_fwd": ("flange_back", "strut_front_end"),
    "forward_datum": ("flange_back", "flange_aft_face", "from_gearbox_back"),
    "shaft_angle": ("level_not_along",),
    "gap_now": ("gap_to_blade", "shaft_slid_aft", "propeller_pushed_on", "gap_to_rubber"),
    "coupling_state": ("shaft_slid_aft",),
    "prop_seated": ("propeller_pushed_on",),
    "hub_length": ("nut_counted", "blade_edge"),
    "tail_to_thread": ("tail_to_nose",),
    "pin_end": ("old_to_pin_end",),
    "old_length_face_to_thread": ("old_to_pin_end", "old_from_bar_end", "begun_on_one"),
    "dia_clean": ("worn_journal", "jaws_tilted"),
    "dia_journal": ("jaws_tilted",),
    "flange_od": ("hub_for_flange", "rim_to_centre"),
    "shell_od": ("shell_on_strut",),
    "bearing_length": ("two_end_to_end",),
    "gearbox_through": ("from_gearbox_back",),
    "boat_name_and_station": ("side_facing_aft",),
}  # fmt: skip
