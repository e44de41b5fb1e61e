"""The quote's standing words: terms, cautions, what to confirm. One text for page and paper."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

VERIFY = "verify before metal is cut"

LIMITS = (
    "We check whether measured lengths agree. We do not certify strength, whip or alignment. A "
    "changed diameter, alloy, power or ratio goes to a qualified designer; fitting and alignment "
    "go to a qualified yard; class, flag and local rules decide."
)

CAUTIONS = (
    "Boat: never work under a boat held only by a jack, a trailer winch or slings. Keel blocked, "
    "stands chained, firm ground, and someone knows you are there.",
    "Engine: battery switch off and the key in your pocket; gear lever tied in neutral. Never turn "
    "a propeller by hand with an engine that could start.",
    "Afloat: drawing a shaft or opening a gland afloat floods the boat. Ashore only.",
    "Hands and eyes: keyways, barnacles and propeller edges cut. Gloves and eye protection.",
    "Pullers: leave the nut on a few turns and stand aside. No hammer on the shaft end, no heat "
    "near rubber, fuel or fumes. Never jack a coupling against the gearbox.",
    "Lifting: a long bar is heavy. Two people, ends capped.",
    "Bilge: check for fuel vapour, blower on before any spark; a mask for paint dust.",
    "Fitting: alignment with the boat afloat and settled, by a qualified yard; coupling faces "
    "within about 0.001 in per inch of flange diameter. Do not pull faces together with bolts.",
    "Nuts: the order of plain and jam nut is disputed; follow the propeller's or the yard's word, "
    "always cotter or lock, check again after the first run.",
    "Strut: after a strike, sight the strut before a new shaft goes in.",
    "Strength: not engineered by us. Commercial and passenger boats follow class or flag rules; "
    "published standards are voluntary unless adopted where you are.",
    "Corrosion: no graphite packing on stainless; keep bronze and stainless apart from aluminium; "
    "renew anodes; no paint in the bearing or on the taper. Stainless pits where water stands.",
    "Sea trial: watch the gland's heat and leak; a packed gland drips a few drops a minute. Stop "
    "for vibration.",
)

OFFERS = (
    "Worth doing while the shaft is out, if you wish; not in this price: bearing, gland packing, "
    "a spare key and nut set, flange bolts, anode, a bar certificate, two shafts from one heat."
)

TERMS = (
    "A shaft is cut to your size and cannot be returned.",
    "If our numbers were wrong, we make it again at our cost.",
    "If the boat was measured wrong, we shorten at cost, or make it again for material and "
    "freight.",
    "Freight goes by the tube's length, its weight or its girth, whichever costs most.",
)
TERMS_OF_PARTS = ("If our numbers were wrong, we send the right part at our cost.",)

_DATUM = ("datum", "Lengths start at the machined face of the gearbox flange.")
_GAP = ("gap", "The gap was taken with the coupling bolted up and the shaft pushed hard forward.")
_NOSE = (
    "nose",
    "Lengths stop at the end of the threads; the plain nose past them is not counted.",
)
_SPACER = ("spacer", "Nothing sits between the two flanges that the sheet does not name.")
_HUB = ("hub", "The propeller's hub is the one that will be fitted, and its length is right.")
_CHANGED = ("changed", "Nothing on the drive line has changed since these numbers were taken.")
_SIDE = ("side", "This is the boat and the side named above.")
_ONE_SHAFT = ("side", "This is the boat named above, and this is her only shaft.")
_ROTATION = ("rotation", "The propeller's hand of rotation fits the nut and the gearbox.")
_DRAWING = ("drawing", "I have checked the numbers on the drawing.")
_PARTS = ("parts", "The sizes of the parts named above are right.")
_TO_THE_THREAD = frozenset({"old_length_face_to_thread", "old_length_overall", "tail_to_thread"})
_FROM_THE_FACE = frozenset({"face_to_strut_aft", "face_to_strut_fwd", "old_length_face_to_thread"})


def to_confirm(
    has_shaft: bool, measured: Collection[str] = (), station: str = ""
) -> dict[str, str]:
    """What the customer ticks before a quote can be accepted, by its short name.

    Only what applies: of a length that nobody measured (``measured``: slugs) nothing is to be said.

    >>> list(to_confirm(False))
    ['side', 'parts']
    >>> list(to_confirm(True, {"face_to_strut_aft", "hub_length"}, "single"))
    ['datum', 'spacer', 'hub', 'changed', 'side', 'rotation', 'drawing']
    """
    side = _ONE_SHAFT if station == "single" else _SIDE
    if not has_shaft:
        return dict([side, _PARTS])
    told = frozenset(measured)
    lengths = [
        *([_DATUM] if told & _FROM_THE_FACE else ()),
        *([_GAP] if "gap_now" in told else ()),
        *([_NOSE] if told & _TO_THE_THREAD else ()),
        _SPACER,
        *([_HUB] if "hub_length" in told else ()),
        _CHANGED,
    ]
    return dict([*lengths, side, _ROTATION, _DRAWING])


ROLES = {
    "owner": "the owner",
    "yard": "the yard",
    "crew": "the crew",
    "surveyor": "a surveyor",
}
CHANNELS = {
    "form": "on our form",
    "phone": "by telephone",
    "email": "by e-mail",
    "paper": "on paper",
    "api": "through the shop's website",
}
METHODS = {
    "caliper": "caliper",
    "caliper_in_place": "caliper, in place",
    "paper_strip": "paper strip",
    "wrench_32": "wrench, read to 1/32",
    "wrench_16": "wrench, read to 1/16",
    "tape_across": "tape laid across",
    "tape_short": "short tape",
    "tape": "tape",
    "tape_helper": "tape with a helper",
    "tape_one_hand": "tape, one hand",
    "rod": "rod through the log",
    "pieces": "in pieces",
    "laser": "laser off a card",
    "along_old_shaft": "along the old shaft",
    "drill_shank": "drill shank",
    "rule": "rule",
    "eye": "by eye",
    "papers": "from papers",
    "mark": "mark on the part",
    "plug": "plug",
    "feeler": "feeler",
}
LABELS = {
    "dia_clean": "Shaft diameter, bright stretch",
    "dia_journal": "Shaft in the bearing",
    "face_to_strut_aft": "Flange face to strut, aft end",
    "face_to_strut_fwd": "Flange face to strut, front end",
    "strut_barrel": "Strut barrel",
    "old_length_face_to_thread": "Old shaft, face to thread end",
    "old_length_overall": "Old shaft, tip to tip",
    "gap_now": "Gap as it is now",
    "tail_to_thread": "Strut to thread end",
    "hub_length": "Propeller hub",
    "rudder_clear": "Shaft tip to rudder",
    "bearing_id_or_mark": "Bearing, inside",
    "shell_od": "Bearing shell, outside",
    "strut_bore": "Strut bore",
    "bearing_length": "Bearing length",
    "bearing_play": "Play in the bearing",
    "flange_od": "Coupling flange, outside",
    "hub_length_coupling": "Coupling, face to hub end",
    "gland_position": "Flange face to gland",
    "log_id": "Shaft log, inside",
    "gearbox_through": "Gearbox, front to back",
    "rubber_proud": "Rubber past the strut",
}


def tape_words(tape_unit: Any) -> str:
    """What the tape showed."""
    return {"in": "tape in inches", "mm": "tape in millimetres"}.get(tape_unit, "unit as written")


def measured_by(body: Mapping[str, Any]) -> str:
    """Who measured and how it reached us, in one line."""
    contact = body.get("contact") or {}
    who = ROLES.get(str(contact.get("role")), "the customer")
    how = CHANNELS.get(str(body.get("channel")), "as sent")
    return f"By {who}, {how}, {tape_words(body.get('tape_unit'))}"


# Whom a tube goes to, by the answer about delivery.
PLACES = {"home": "a home", "yard": "a yard", "depot": "a depot, to be collected"}
