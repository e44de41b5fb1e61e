"""The cautions, each at the step it belongs to: once, briefly.

A question may carry several; along a path each is said at the first question that carries it
(`cautions_along`). They are common practice, no source; where class, flag, yard or local rules say
more, those come first.
"""

from __future__ import annotations

from collections.abc import Iterable

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

CAUTIONS: dict[str, Promise] = {
    "fumes": _(
        "Smell for fuel first, and run the blower before any lamp, spark or grinder. Do not work "
        "alone in a closed space."
    ),
    "engine": _(
        "Battery off with its key in your pocket, or its terminals off; remote starts off; gear "
        "lever tied in neutral; exhaust cool. Never turn shaft or propeller by hand while the "
        "engine could start."
    ),
    "boat": _(
        "Go under her only when her keel stands on blocks, stands chained in pairs, wheels "
        "chocked, on firm ground. Never trust a jack, a trailer winch or slings alone, and move "
        "no stand to reach the strut. Somebody knows you are there."
    ),
    "afloat": _("An open log or gland floods a boat afloat: pull a shaft ashore only."),
    "diving": _(
        "Outside lengths are taken ashore. Diving to measure is for qualified divers, engines "
        "locked off."
    ),
    "hands": _(
        "Keyways, barnacles and propeller edges cut, and the propeller can swing: gloves, eye "
        "protection, fingers out of the gap."
    ),
    "pull": _(
        "Couplings and propellers leave a taper with a jump. Leave the nut on by a few turns and "
        "stand aside. No hammer on the shaft's end or thread, no heat near rubber, fuel or fumes, "
        "a press only with its guards, and never jack against the gearbox."
    ),
    "lift": _(
        "A shaft is heavy: eight feet of 2 in bar weigh about 86 lb. Two people carry it, its "
        "ends capped."
    ),
    "dust": _("Paint and antifouling dust harms lungs: wear a mask while you clean."),
    "strike": _("After a blow, sight the strut before a new shaft goes in: it may have moved."),
    "limits": _(
        "We do not certify strength or whip. Changed power, ratio, diameter or alloy goes to a "
        "qualified designer; on commercial and passenger boats class, flag and local rules decide."
    ),
    "fitting": _(
        "A qualified yard fits and aligns, with the boat afloat and settled. Faces are never "
        "pulled together with their bolts."
    ),
}

# Lengths that are taken outside, under the boat and beside her propeller.
_OUTSIDE = (
    "dia_clean",
    "dia_journal",
    "face_to_strut_how",
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "pieces",
    "strut_barrel",
    "gap_now",
    "tail_to_thread",
    "hub_length",
    "rudder_clear",
    "bearing_id_or_mark",
    "shell_od",
    "bearing_length",
    "bearing_play",
)
_MORE: dict[str, tuple[str, ...]] = {
    "drive_layout": ("engine", "fumes"),
    "rotation": ("engine",),
    "gear_ratio": ("engine", "limits"),
    "engine_power": ("limits",),
    "afloat_or_ashore": ("boat", "afloat", "diving"),
    "face_to_strut_how": ("afloat", "diving"),
    "face_to_strut_aft": ("afloat", "diving"),
    "gland_position": ("afloat",),
    "gland_type": ("afloat",),
    "strut_bore": ("afloat",),
    "dia_journal": ("afloat",),
    "hub_length": ("hands",),
    "gap_now": ("hands",),
    "tail_to_thread": ("hands",),
    "prop_seated": ("pull",),
    "nuts": ("hands",),
    "keyway": ("hands",),
    "taper_two_dia": ("hands",),
    "coupling_state": ("engine",),
    "coupling_bore": ("pull",),
    "front_taper": ("pull",),
    "front_end": ("engine",),
    "gearbox_through": ("engine",),
    "old_length_face_to_thread": ("pull", "lift"),
    "old_length_overall": ("lift",),
    "shell_od": ("dust",),
    "reason": ("strike",),
}


def cautions_at(slug: str) -> tuple[str, ...]:
    """Keys of `CAUTIONS` that belong to a question; none for most.

    >>> cautions_at("gap_now")
    ('boat', 'engine', 'hands')
    """
    first = ("boat", "engine") if slug in _OUTSIDE else ()
    return (*first, *_MORE.get(slug, ()))


def caution_for(slug: str) -> str | None:
    """All that is to be careful about at a question that is asked by itself, in words."""
    return " ".join(str(CAUTIONS[key]) for key in cautions_at(slug)) or None


def cautions_along(slugs: Iterable[str], before: Iterable[str] = ()) -> dict[str, tuple[str, ...]]:
    """The keys of what is said at each question of a path, every caution once.

    ``before`` are the keys that were said already.

    >>> cautions_along(["gap_now", "hub_length", "old_length_overall"])
    {'gap_now': ('boat', 'engine', 'hands'), 'old_length_overall': ('lift',)}
    """
    said = set(before)
    along: dict[str, tuple[str, ...]] = {}
    for slug in slugs:
        new = tuple(key for key in cautions_at(slug) if key not in said)
        said.update(new)
        if new:
            along[slug] = new
    return along
