"""The coupling: its disc, the side it belongs on, and how it holds this shaft."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.keys import coupling_key_width
from intake.domain.recognised import listed_coupling
from intake.domain.routes import end_of
from intake.domain.verdict import Severity


@check(
    "reversed-vs-drive",
    Severity.STOP,
    ask="When you look at the coupling, which side of the disc is its long neck on?",
    holds=("shaft", "coupling"),
    needs=("drive_layout", "flange_direction"),
    likely={"I-REVERSED": 10},
)
def the_coupling_suits_the_drive(case: Case) -> Iterator[Mismatch]:
    """A reversed coupling goes with a gearbox the shaft passes through, and only with that.

    The word 'reversed' is often taken for the propeller's turn.
    """
    sheet = case.sheet
    layout, direction = sheet.choices.get("drive_layout"), sheet.choices.get("flange_direction")
    if not layout or not direction:
        return
    if (direction == "forward") is not (layout == "v_pass_through"):
        words = "This side of the coupling does not go with this drive."
        yield Mismatch(("flange_direction", "drive_layout"), words)


@check(
    "pass-through-fields",
    Severity.STOP,
    ask=(
        "How far is it from the front coupling face to where the shaft leaves the back of the "
        "gearbox?"
    ),
    source="logic",
    needs=("drive_layout",),
    likely={"D-REAR": 15, "I-REVERSED": 1},
)
def a_pass_through_is_told_whole(case: Case) -> Iterator[Mismatch]:
    """A shaft through the gearbox needs the gearbox's length and all of the front end.

    It was treated as an ordinary drive.
    """
    if not case.passes_through:
        return
    sheet = case.sheet
    missing = [] if "gearbox_through" in sheet.readings else ["gearbox_through"]
    if any(not sheet.part("front_end", part) for part in ("showing", "nut", "thread", "hand")):
        missing.append("front_end")
    if sheet.part("front_taper", "tapered") not in ("yes", "no"):
        missing.append("front_taper")
    if missing:
        ask = "" if missing[0] == "gearbox_through" else _FRONT_ASK[missing[0]]
        words = "The shaft passes through the gearbox, and its front end is not all described."
        yield Mismatch(tuple(missing), words, question=ask)


_FRONT_ASK = {
    "front_end": (
        "How far does the shaft reach forward of the front coupling's face, and which nut, thread, "
        "hand and lock are there?"
    ),
    "front_taper": "Does the shaft's front end taper into the coupling?",
}


@check(
    "coupling-bore-type",
    Severity.ASK,
    ask="How is the coupling held on the shaft: what would you undo first?",
    holds=("shaft", "coupling"),
    needs=("coupling_bore",),
    likely={"I-COMBO": 5, "I-REVERSED": 1},
)
def the_coupling_takes_the_shafts_end(case: Case) -> Iterator[Mismatch]:
    """The coupling's bore and the shaft's forward end are of different kinds.

    The coupling was not seen apart, or a split one was taken for a straight one. A taper that is
    told alike on both sides is only noted: its seat moves sixteen times what its bore is off, so
    the coupling has to be in hand before the final length.
    """
    sheet = case.sheet
    kind, tapered = sheet.part("coupling_bore", "kind"), sheet.part("front_taper", "tapered")
    if kind and tapered in ("yes", "no") and (kind == "taper") is not (tapered == "yes"):
        words = "The coupling's bore and the shaft's forward end are not of one kind."
        yield Mismatch(("coupling_bore", "front_taper"), words)
    elif kind == "taper":
        words = "A tapered coupling must be in hand before the final length."
        yield Mismatch(("coupling_bore",), words, severity=Severity.NOTE)


@check(
    "hub-to-gland",
    Severity.NOTE,
    ask="How much bare shaft is between the coupling and the gland?",
    holds=("shaft", "coupling"),
    needs=("gland_position", "hub_length_coupling"),
    likely={"D-HUB": 5, "I-HUB": 3},
)
def the_gland_can_be_packed(case: Case) -> Iterator[Mismatch]:
    """Between the coupling's hub and the gland there is too little bare shaft to work on the gland.

    A longer coupling than the old one, or the gland was measured from the hub and not the face.
    A new hub that reaches further aft than the old one is asked about.
    """
    sheet, limits = case.sheet, case.limits
    gland, hub = sheet.length("gland_position"), sheet.length("hub_length_coupling")
    if gland is None or hub is None:
        return
    room = limits.gland_room.nm
    wanted = max(room, case.size.diameter.nm) if case.size else room
    answers = ("gland_position", "hub_length_coupling")
    new = listed_coupling(case) if "coupling" in sheet.wants else None
    if new and new.length and new.length.nm > hub.nm + limits.hub_longer.nm:
        words = "The new coupling's hub reaches further towards the gland than the old one's."
        yield Mismatch(answers, words, severity=Severity.ASK)
    elif gland.nm - hub.nm < wanted:
        words = "There is little bare shaft between the coupling and the gland."
        yield Mismatch(answers, words)


@check(
    "key-mismatch",
    Severity.NOTE,
    ask="What width is the key at each end?",
    source="SAE J755 (propeller end); ANSI B17.1 and ISO 773 (general keys)",
    holds=("shaft", "coupling"),
    inputs=DIAMETER,
    needs=("keyway",),
    likely={"R-FLIP": 3, "I-COMBO": 3},
)
def the_keys_are_of_one_table(case: Case) -> Iterator[Mismatch]:
    """The coupling's key is neither the propeller's nor the usual one of a shaft of this size.

    A stepped key in an old coupling, or one of the two misread.
    """
    coupling, size = case.sheet.part("keyway", "coupling_width"), case.size
    if coupling is None or size is None:
        return
    end = end_of(size)
    usual = (
        case.sheet.part("keyway", "width"),
        end.keyway_width if end else None,
        coupling_key_width(size),
    )
    near = case.limits.key_near.nm
    if not any(width and abs(width.nm - coupling.nm) <= near for width in usual):
        words = "The coupling's key is not the one of a shaft of this size."
        yield Mismatch(("keyway",), words)


@check(
    "fit-and-face-without-parts",
    Severity.ASK,
    ask="How will the old coupling reach us, and when?",
    source="logic",
    needs=("reuse_coupling",),
    likely={"I-COMBO": 1},
)
def the_coupling_to_fit_is_coming(case: Case) -> Iterator[Mismatch]:
    """The old coupling stays in use, and it is not on its way to us.

    It is assumed that fitting and facing need only the new shaft; they need both parts together.
    """
    sheet = case.sheet
    stays = sheet.part("reuse_coupling", "reuse")
    if stays and not sheet.part("reuse_coupling", "sending") and "coupling" not in sheet.wants:
        words = "The old coupling is to be fitted to the new shaft, and it is not coming to us."
        yield Mismatch(("reuse_coupling",), words)


CHECKS = (
    the_coupling_suits_the_drive,
    a_pass_through_is_told_whole,
    the_coupling_takes_the_shafts_end,
    the_gland_can_be_packed,
    the_keys_are_of_one_table,
    the_coupling_to_fit_is_coming,
)
