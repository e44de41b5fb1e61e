"""What the call page asks, in the order people say things; the last part is folded."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from intake.desk_words import Words

CALL_ORDER: tuple[tuple[str, Words, tuple[str, ...]], ...] = (
    (
        "boat",
        _("The boat"),
        ("boat_name_and_station", "drive_layout", "reason"),
    ),
    (
        "length",
        _("Length"),
        (
            "face_to_strut_aft",
            "forward_datum",
            "shaft_in",
            "gap_now",
            "coupling_state",
            "hub_length",
            "prop_seated",
            "tail_to_thread",
            "pin_end",
            "old_length_face_to_thread",
        ),
    ),
    ("shaft", _("Shaft"), ("dia_clean", "dia_journal", "thread")),
    ("coupling", _("Coupling"), ("flange_od", "flange_direction", "bolts")),
    ("bearing", _("Bearing"), ("shell_od", "bearing_id_or_mark", "bearing_length")),
    (
        "more",
        _("When a check asks for it"),
        (
            "face_to_strut_fwd",
            "strut_barrel",
            "old_length_overall",
            "hub_length_coupling",
            "flange_thickness",
            "flex_or_spacer",
            "nuts",
            "engine_power",
            "engine_max_rpm",
            "gear_ratio",
            "fuel",
            "water",
            "hull_built_by_year",
            "gearbox_through",
            "front_end",
            "front_taper",
            "engine_mounts",
            "propeller_stays",
            "between_strut_and_propeller",
            "bearing_place",
            "bearing_hours",
            "bearing_wear",
        ),
    ),
)
