"""The coupling: a disc that was measured as a disc, on the side it belongs, for this shaft."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.recognised import flange_of
from intake.domain.verdict import Severity

_FLANGE = frozenset({"flange_od"})


@check(
    "flange-is-hub",
    Severity.ASK,
    ask="On the round disc that has the bolts through it, how wide is it edge to edge?",
    holds=("coupling",),
)
def the_flange_is_not_its_hub(case: Case) -> Iterator[Mismatch]:
    """The flange was measured on its neck: no flange is that small, every hub is.

    The barrel is easier to reach than the disc.
    """
    flange = case.sheet.length("flange_od")
    if flange is not None and _is_hub(case, flange):
        yield Mismatch(("flange_od",), "That is the width of a coupling's neck, not of its disc.")


@check(
    "flange-snap",
    Severity.ASK,
    ask="How wide is the disc straight across through the middle?",
    source="common practice (the general flange standard SAE J756 was withdrawn in 2005)",
    holds=("coupling",),
)
def the_flange_is_a_known_size(case: Case) -> Iterator[Mismatch]:
    """The flange is not near any flange that is usual.

    Measured across the bolts, or half of it to the centre.
    """
    flange = case.sheet.length("flange_od")
    if flange is None or _is_hub(case, flange):
        return
    if flange_of(case) is None:
        yield Mismatch(("flange_od",), "No usual flange is this wide.")


@check(
    "flange-vs-diameter",
    Severity.ASK,
    ask="What does the gearbox plate say, and how wide is its own flange?",
    holds=("coupling",),
    inputs=_FLANGE | DIAMETER,
)
def flange_and_shaft_go_together(case: Case) -> Iterator[Mismatch]:
    """The flange is not one that is usual with this shaft.

    A slip in typing, or a small flange left from an older engine.
    """
    flange, size, limits = flange_of(case), case.size, case.limits
    if flange is None or size is None:
        return
    words = "This flange is not usual with a shaft of this size."
    answers = ("flange_od", "dia_clean")
    small = abs((flange - limits.small_flange).nm) <= limits.flange_near.nm
    if small and size.diameter >= limits.small_flange_stop_from:
        yield Mismatch(answers, words, severity=Severity.STOP)
        return
    for usual, least, most in limits.flange_diameters:
        if abs((flange - usual).nm) <= limits.flange_near.nm:
            near = limits.metric_twin.nm
            if not least.nm - near <= size.diameter.nm <= most.nm + near:
                yield Mismatch(answers, words)
            return


@check(
    "reversed-vs-drive",
    Severity.STOP,
    ask="When you look at the coupling, which side of the disc is its long neck on?",
    holds=("shaft", "coupling"),
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


def _is_hub(case: Case, flange: Length) -> bool:
    low, high = case.limits.hub_not_flange
    return low <= flange <= high


CHECKS = (
    the_flange_is_not_its_hub,
    the_flange_is_a_known_size,
    flange_and_shaft_go_together,
    the_coupling_suits_the_drive,
    a_pass_through_is_told_whole,
)
