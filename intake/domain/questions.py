"""Every question a sheet may answer: its words, its shape, its plausible range, its methods."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm
from intake.domain.question_words import WORDS, Words

_DIAMETER_WAYS = ("caliper", "paper_strip", "wrench_32", "wrench_16", "tape_across", "papers")
_LONG_WAYS = (
    "rod",
    "tape_helper",
    "tape_one_hand",
    "tape",
    "pieces",
    "laser",
    "along_old_shaft",
    "papers",
)
_SHORT_WAYS = ("tape_short", "rule", "caliper", "papers")
_OLD_WAYS = ("tape", "tape_one_hand", "papers")

# slug: (inch range, metric range or "", methods people use, method when none is named)
_MEASURED: dict[str, tuple[str, str, tuple[str, ...], str]] = {
    "dia_clean": ("0.72..3.05", "18.3..78", _DIAMETER_WAYS, "wrench_16"),
    "dia_journal": ("0.66..3.05", "17..78", _DIAMETER_WAYS, "tape_short"),
    "face_to_strut_aft": ("8..240", "200..6000", _LONG_WAYS, "tape_one_hand"),
    "face_to_strut_fwd": ("4..240", "100..6000", _LONG_WAYS, "tape_one_hand"),
    "strut_barrel": ("1.5..12", "40..300", _SHORT_WAYS, "tape_short"),
    "old_length_face_to_thread": ("12..260", "", _OLD_WAYS, "tape"),
    "old_length_overall": ("12..270", "", _OLD_WAYS, "tape"),
    "gap_now": ("0..3", "0..75", ("drill_shank", "rule", "tape", "eye"), "tape"),
    "tail_to_thread": ("3..12", "", _SHORT_WAYS, "tape_short"),
    "hub_length": ("2..8", "50..200", ("caliper", "rule", "tape_short"), "tape_short"),
    "rudder_clear": ("0.5..24", "", _SHORT_WAYS, "tape_short"),
    "bearing_id_or_mark": ("0.74..3.15", "19..80", ("mark", "plug", "caliper"), "tape_short"),
    "shell_od": ("0.9..4.5", "22..115", ("caliper", "caliper_in_place"), "caliper_in_place"),
    "strut_bore": ("0.9..4.5", "22..115", ("caliper", "tape_short"), "tape_short"),
    "bearing_play": ("0..0.5", "", ("feeler", "eye"), "tape_short"),
    "flange_od": ("1.5..8", "38..200", ("caliper", "tape_short"), "tape_short"),
    "hub_length_coupling": ("1.75..5", "", _SHORT_WAYS, "tape_short"),
    "gland_position": ("2..60", "", _SHORT_WAYS, "tape_short"),
    "log_id": ("0.9..6", "", _SHORT_WAYS, "tape_short"),
    "gearbox_through": ("6..14", "150..360", ("rule", "tape_short", "tape"), "tape_short"),
    "rubber_proud": ("0..0.5", "", ("rule", "tape_short"), "tape_short"),
}

CHOICES: dict[str, tuple[str, ...]] = {
    "drive_layout": ("inline", "down_angle", "v_rear_flange", "v_pass_through"),
    "flange_direction": ("aft", "forward"),
    "forward_datum": (
        "gearbox_face",
        "gearbox_flange_back",
        "gearbox_back",
        "shaft_flange_aft",
        "hub_end",
        "unknown",
    ),
    "shaft_in": ("in", "out", "unknown"),
    "rotation": ("right", "left"),
    "afloat_or_ashore": ("afloat", "trailer", "slings", "ashore"),
    "pin_end": ("yes", "no", "unknown"),
    "prop_seated": ("seated", "pushed_on"),
    "propeller_stays": ("yes", "no", "unknown"),
    "reason": ("wear", "bend", "strike", "corrosion", "repower", "first_fit"),
    "fuel": ("petrol", "diesel", "electric", "steam"),
    "gland_type": ("packed", "face", "lip"),
    "engine_mounts": ("soft", "rigid"),
    "bearing_wear": ("even", "one_side"),
    "front_shape": ("flush", "sunk", "proud"),
}

# What an unasked question says by its own words.
WHEN_UNASKED: dict[str, str] = {
    "forward_datum": "gearbox_face",
    "coupling_state": "tight",
    "prop_seated": "seated",
    "afloat_or_ashore": "ashore",
    "pin_end": "yes",
}

CHANGED = ("engine", "gearbox", "mounts", "coupling", "strut", "propeller", "log", "nothing")
CHANGED_CHOICES = (*CHANGED, "unknown")

# The parts of a composite answer. A tuple is a choice; "length" is read by the tape language.
COMPOSITES: dict[str, dict[str, str | tuple[str, ...]]] = {
    "boat_name_and_station": {
        "name": "text",
        "station": ("single", "port", "starboard", "centre"),
    },
    "hull_built_by_year": {"builder": "text", "year": "text", "length": "text"},
    "engine_power": {"text": "power"},
    "engine_max_rpm": {"text": "speed"},
    "gear_ratio": {"text": "ratio"},
    "dia_marks": {"text": "text"},
    "bolts": {"count": "count", "size": "text", "spacing": "length"},
    "pilot": {"shape": ("raised", "sunk", "flat"), "width": "length", "depth": "length"},
    "pieces": {"inner": "length", "log": "length", "outer": "length"},
    "nuts": {"kind": ("nut_and_jam", "self_locking", "castle", "cap"), "showing": "length"},
    "bearing_length": {"text": "length", "method": "method", "count": "count"},
    "bearing_hours": {"text": "text"},
    "taper_two_dia": {"large": "length", "small": "length", "between": "length"},
    "thread": {"text": "thread", "method": ("gauge", "rule_count")},
    "keyway": {"width": "length", "depth": "length", "coupling_width": "length"},
    "prop_size": {"diameter": "length", "pitch": "length", "bore": "length"},
    "front_end": {
        "showing": "length",
        "nut": "text",
        "thread": "text",
        "hand": "text",
        "lock": "text",
    },
    "front_taper": {"tapered": ("yes", "no", "unknown"), "rate": "text"},
    "flex_or_spacer": {
        "kind": ("none", "disc", "spacer", "shim"),
        "thickness": "length",
        "stays": ("yes", "no", "unknown"),
    },
    "flange_thickness": {"gearbox": "length", "coupling": "length", "method": "method"},
    "coupling_state": {"is": ("tight", "loose", "off"), "opening": "length"},
    "coupling_bore": {"kind": ("straight", "taper", "split"), "size": "length"},
    "shaft_angle": {"text": "angle", "along": ("shaft", "floor")},
    "set_screws": {"kind": ("press", "screws", "adhesive"), "count": "count", "size": "text"},
    "reuse_coupling": {"reuse": "yes_no", "sending": "yes_no"},
    "between_strut_and_propeller": {
        "kind": ("nothing", "anode", "cutter", "spacer"),
        "length": "length",
    },
    "bearing_place": {"in": ("strut", "hull"), "struts": "count"},
    "water": {"kind": ("fresh", "brackish", "salt"), "weeks_idle": "count"},
    "hull_material": {
        "hull": ("grp", "wood", "steel", "aluminium"),
        "strut": ("bronze", "steel", "aluminium"),
    },
    "needed_by": {"run": "date", "lift": "date"},
    "ship_to": {"country": "text", "postcode": "text", "kind": ("home", "yard", "depot")},
}

# What a length inside a composite answer can be; it decides the unit of a bare number.
PART_RANGES: dict[tuple[str, str], tuple[Length, Length]] = {
    ("bearing_length", "text"): (inches("1 1/2"), inches(12)),
    ("front_end", "showing"): (inches("2 1/2"), inches(6)),
    ("bolts", "spacing"): (inches("1 1/2"), inches(6)),
    ("pilot", "width"): (inches("1 1/2"), inches("3 1/2")),
    ("pieces", "inner"): (inches(2), inches(120)),
    ("pieces", "log"): (inches(2), inches(120)),
    ("pieces", "outer"): (inches(2), inches(120)),
    ("flange_thickness", "gearbox"): (inches("1/4"), inches("1 1/2")),
    ("flange_thickness", "coupling"): (inches("1/4"), inches("1 1/2")),
    ("prop_size", "diameter"): (inches(8), inches(48)),
    ("prop_size", "bore"): (inches("3/4"), inches(3)),
}

# A bare string for these is the part named here.
BARE_PART: dict[str, str] = {
    "boat_name_and_station": "name",
    "engine_power": "text",
    "engine_max_rpm": "text",
    "gear_ratio": "text",
    "dia_marks": "text",
    "bearing_length": "text",
    "bearing_hours": "text",
    "thread": "text",
    "front_taper": "tapered",
    "coupling_state": "is",
    "coupling_bore": "kind",
    "shaft_angle": "text",
    "flex_or_spacer": "kind",
    "between_strut_and_propeller": "kind",
    "bearing_place": "in",
    "nuts": "kind",
    "set_screws": "kind",
    "water": "kind",
    "hull_material": "hull",
}

# Answers that are a list, or a day.
LISTS = ("changed_since_shaft", "supports", "polished_bands")
DAYS = ("measured_when",)


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its words, how it is answered, and the range an answer must lie in."""

    slug: str
    section: str
    ask: str
    why: str
    slip: str
    cannot: str
    kind: str
    methods: tuple[str, ...] = ()
    default_method: str = ""
    inch_range: tuple[Length, Length] | None = None
    metric_range: tuple[Length, Length] | None = None

    def plausible(self, unit: str) -> tuple[Length, Length] | None:
        """The range for an answer given in that unit (metric units by the metric range)."""
        return self.metric_range if unit in ("mm", "cm", "m") else self.inch_range

    @property
    def widest(self) -> tuple[Length, Length] | None:
        """The range whatever the unit, for deciding the unit of a bare number."""
        if self.inch_range is None or self.metric_range is None:
            return None
        return (
            min(self.inch_range[0], self.metric_range[0]),
            max(self.inch_range[1], self.metric_range[1]),
        )


def _span(text: str, unit: str) -> tuple[Length, Length]:
    low, high = text.split("..")
    make = mm if unit == "mm" else inches
    return make(low), make(high)


def _question(row: Words) -> Question:
    if row.slug not in _MEASURED:
        return Question(*row, kind=_kind(row.slug))
    in_inches, in_mm, methods, default = _MEASURED[row.slug]
    inch_range = _span(in_inches, "in")
    metric_range = _span(in_mm, "mm") if in_mm else inch_range
    return Question(*row, "measured", methods, default, inch_range, metric_range)


def _kind(slug: str) -> str:
    if slug in CHOICES:
        return "choice"
    if slug in COMPOSITES:
        return "composite"
    if slug in LISTS:
        return "list"
    return "day" if slug in DAYS else "elsewhere"


QUESTIONS: Mapping[str, Question] = {row.slug: _question(row) for row in WORDS}
MEASURED: tuple[str, ...] = tuple(_MEASURED)

# These travel as contact.* and as the method of a reading.
ELSEWHERE: dict[str, str] = {
    "contact_phone": "contact.phone",
    "role": "contact.role",
    "dia_method": "the method of dia_clean",
    "face_to_strut_how": "the method of face_to_strut_aft",
}
