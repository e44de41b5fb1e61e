"""Short words for the call page: how a field is named and how its choices read on a screen.

The counter knows the trade; the long open questions stand in `intake.domain.questions`.
"""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

Words = str | Promise
Options = tuple[tuple[str, Words], ...]

LABELS: dict[str, Words] = {
    "boat_name_and_station": _("Boat and shaft"),
    "drive_layout": _("Drive"),
    "reason": _("Why now"),
    "dia_clean": _("Diameter, bright and unworn"),
    "dia_journal": _("Diameter in the bearing"),
    "dia_marks": _("Stamped on the shaft"),
    "face_to_strut_aft": _("Face to strut, aft end"),
    "forward_datum": _("Tape began at"),
    "shaft_in": _("Old shaft then"),
    "face_to_strut_fwd": _("Face to strut, forward end"),
    "strut_barrel": _("Strut barrel"),
    "gap_now": _("Gap"),
    "coupling_state": _("Coupling then"),
    "prop_seated": _("Propeller then"),
    "hub_length": _("Propeller hub"),
    "tail_to_thread": _("Strut to thread end"),
    "pin_end": _("Nose past the thread"),
    "old_length_face_to_thread": _("Old shaft, face to thread end"),
    "old_length_overall": _("Old shaft, tip to tip"),
    "flange_od": _("Flange outside"),
    "bolts": _("Flange bolts"),
    "flange_direction": _("Coupling hub points"),
    "hub_length_coupling": _("Coupling, face to hub end"),
    "bearing_id_or_mark": _("Bearing inside or mark"),
    "shell_od": _("Bearing shell outside"),
    "bearing_length": _("Bearing length"),
    "thread": _("Propeller nut thread"),
    "engine_power": _("Engine power"),
    "engine_max_rpm": _("Highest engine speed"),
    "gear_ratio": _("Gear ratio"),
    "fuel": _("Fuel"),
    "water": _("Water"),
    "gearbox_through": _("Through the gearbox"),
    "front_end": _("Front end"),
    "flange_thickness": _("Flange thickness"),
    "flex_or_spacer": _("Between the flanges"),
    "nuts": _("Propeller nuts"),
    "hull_built_by_year": _("Hull"),
    "shaft_angle": _("Measured along"),
    "changed_since_shaft": _("Changed since the old shaft"),
    "rubber_proud": _("Rubber past the metal"),
    "between_strut_and_propeller": _("Between strut and propeller"),
    "engine_mounts": _("Engine mounts"),
    "propeller_stays": _("Same propeller again"),
    "bearing_place": _("Bearing sits in"),
    "bearing_hours": _("Bearing hours"),
    "bearing_wear": _("Rubber is thin"),
    "front_taper": _("Front taper"),
}

_YES_NO: Options = (("yes", _("yes")), ("no", _("no")), ("unknown", _("not known")))

CHOICES: dict[str, Options] = {
    "drive_layout": (
        ("inline", _("straight back")),
        ("down_angle", _("down-angle")),
        ("v_rear_flange", _("V-drive, flange at the back")),
        ("v_pass_through", _("V-drive, shaft passes through")),
    ),
    "flange_direction": (("aft", _("aft, to the propeller")), ("forward", _("forward"))),
    "forward_datum": (
        ("gearbox_face", _("face of the gearbox flange")),
        ("gearbox_flange_back", _("back of the gearbox flange")),
        ("gearbox_back", _("back of the gearbox")),
        ("shaft_flange_aft", _("aft side of the shaft flange")),
        ("hub_end", _("end of the coupling hub")),
        ("unknown", _("not known")),
    ),
    "shaft_in": (("in", _("in the boat")), ("out", _("out")), ("unknown", _("not known"))),
    "rotation": (("right", _("right-hand")), ("left", _("left-hand"))),
    "afloat_or_ashore": (
        ("afloat", _("afloat")),
        ("trailer", _("on a trailer")),
        ("slings", _("in slings")),
        ("ashore", _("blocked ashore")),
    ),
    "pin_end": _YES_NO,
    "propeller_stays": _YES_NO,
    "prop_seated": (("seated", _("pulled home")), ("pushed_on", _("just pushed on"))),
    "reason": (
        ("wear", _("wear")),
        ("bend", _("bend")),
        ("strike", _("strike")),
        ("corrosion", _("corrosion")),
        ("repower", _("new engine")),
        ("first_fit", _("first fit")),
    ),
    "fuel": (
        ("petrol", _("petrol")),
        ("diesel", _("diesel")),
        ("electric", _("electric")),
        ("steam", _("steam")),
    ),
    "gland_type": (("packed", _("packed")), ("face", _("face seal")), ("lip", _("lip seal"))),
    "engine_mounts": (("soft", _("soft")), ("rigid", _("rigid"))),
    "bearing_wear": (("even", _("evenly round")), ("one_side", _("one side"))),
    "front_shape": (("flush", _("flush")), ("sunk", _("sunk")), ("proud", _("proud"))),
    "coupling_state": (("tight", _("bolted tight")), ("loose", _("loose")), ("off", _("off"))),
    "coupling_bore": (
        ("straight", _("straight with a key")),
        ("taper", _("taper with a nut")),
        ("split", _("split clamp")),
    ),
}

# What is told in parts: the part's name, its word and, where it is one of few, its choices.
PARTS: dict[str, tuple[tuple[str, Words, Options], ...]] = {
    "boat_name_and_station": (
        ("name", _("name"), ()),
        (
            "station",
            _("shaft"),
            (
                ("single", _("single")),
                ("port", _("port")),
                ("starboard", _("starboard")),
                ("centre", _("centre")),
            ),
        ),
    ),
    "bolts": (
        ("count", _("how many"), ()),
        ("size", _("size"), ()),
        ("spacing", _("hole to neighbour"), ()),
    ),
    "bearing_length": (("text", _("length"), ()), ("count", _("how many"), ())),
    "water": (
        (
            "kind",
            _("kind"),
            (("fresh", _("fresh")), ("brackish", _("brackish")), ("salt", _("salt"))),
        ),
        ("weeks_idle", _("weeks idle"), ()),
    ),
    "hull_built_by_year": (
        ("builder", _("builder"), ()),
        ("year", _("year"), ()),
        ("length", _("length"), ()),
    ),
    "engine_power": (("text", _("with its unit"), ()),),
    "engine_max_rpm": (("text", _("per minute"), ()),),
    "gear_ratio": (("text", _("like 2:1"), ()),),
    "dia_marks": (("text", _("as stamped"), ()),),
    "thread": (
        ("text", _("like 3/4-10"), ()),
        (
            "method",
            _("how"),
            (("gauge", _("thread gauge")), ("rule_count", _("rule and count"))),
        ),
    ),
    "front_end": (
        ("showing", _("showing, tip included"), ()),
        ("nut", _("nut"), ()),
        ("thread", _("thread"), ()),
        ("hand", _("hand"), (("right", _("right")), ("left", _("left")))),
        ("lock", _("lock"), ()),
    ),
    "front_taper": (("tapered", _("tapered"), _YES_NO), ("rate", _("rate"), ())),
    "flange_thickness": (("gearbox", _("gearbox half"), ()), ("coupling", _("shaft half"), ())),
    "flex_or_spacer": (
        (
            "kind",
            _("what"),
            (
                ("none", _("nothing")),
                ("disc", _("flexible disc")),
                ("spacer", _("spacer")),
                ("shim", _("shim")),
            ),
        ),
        ("thickness", _("how thick"), ()),
        ("stays", _("stays in"), _YES_NO),
    ),
    "nuts": (
        (
            "kind",
            _("kind"),
            (
                ("nut_and_jam", _("nut and jam nut")),
                ("self_locking", _("self-locking nut")),
                ("castle", _("castle nut and pin")),
                ("cap", _("cap")),
            ),
        ),
        ("showing", _("thread past it"), ()),
    ),
    "pieces": (
        ("inner", _("face to log"), ()),
        ("log", _("log"), ()),
        ("outer", _("log to strut aft end"), ()),
    ),
    "taper_two_dia": (
        ("large", _("big end"), ()),
        ("small", _("small end"), ()),
        ("between", _("between them"), ()),
    ),
    "keyway": (("width", _("wide"), ()), ("depth", _("deep"), ())),
    "prop_size": (
        ("diameter", _("diameter"), ()),
        ("pitch", _("pitch"), ()),
        ("bore", _("bore"), ()),
    ),
    "pilot": (
        (
            "shape",
            _("shape"),
            (("raised", _("raised")), ("sunk", _("sunk")), ("flat", _("flat"))),
        ),
        ("width", _("wide"), ()),
        ("depth", _("deep"), ()),
    ),
    "shaft_angle": (
        ("text", _("degrees"), ()),
        ("along", _("along"), (("shaft", _("the shaft")), ("floor", _("the floor")))),
    ),
    "between_strut_and_propeller": (
        (
            "kind",
            _("what"),
            (
                ("nothing", _("nothing")),
                ("anode", _("anode")),
                ("cutter", _("cutter")),
                ("spacer", _("spacer")),
            ),
        ),
        ("length", _("how long"), ()),
    ),
    "bearing_place": (
        ("in", _("sits in"), (("strut", _("a strut")), ("hull", _("the hull")))),
        ("struts", _("how many struts"), ()),
    ),
    "bearing_hours": (("text", _("hours run"), ()),),
    "set_screws": (
        (
            "kind",
            _("held by"),
            (("press", _("press")), ("screws", _("screws")), ("adhesive", _("adhesive"))),
        ),
        ("count", _("how many"), ()),
        ("size", _("size"), ()),
    ),
    "hull_material": (
        (
            "hull",
            _("hull"),
            (
                ("grp", _("glass")),
                ("wood", _("wood")),
                ("steel", _("steel")),
                ("aluminium", _("aluminium")),
            ),
        ),
        (
            "strut",
            _("strut"),
            (("bronze", _("bronze")), ("steel", _("steel")), ("aluminium", _("aluminium"))),
        ),
    ),
}
