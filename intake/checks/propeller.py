"""The propeller on its taper, and the nuts at both ends of the shaft."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity

_HANDS = ("l", "r")


@check(
    "hub-vs-taper",
    Severity.ASK,
    ask="Front face to back face of the hub only - what is it?",
    source="SAE J755 geometry; limits common practice",
    inputs=DIAMETER,
    needs=("hub_length",),
    likely={"I-OTHER": 5, "I-DIAREAD": 3, "R-WHOLE": 2},
)
def the_hub_suits_the_taper(case: Case) -> Iterator[Mismatch]:
    """The propeller's hub is too long or too short for the taper it sits on.

    The nut or a fairing cap was measured with it, or the hub is a short one.
    """
    hub, end, limits = case.sheet.length("hub_length"), case.end, case.limits
    if hub is None or end is None:
        return
    taper = end.taper_length.nm
    if not limits.hub_least_of_taper * taper <= hub.nm <= taper + limits.hub_past_taper.nm:
        words = "The propeller's hub does not go with the taper of a shaft of this size."
        yield Mismatch(("hub_length", "dia_clean"), words)


@check(
    "prop-bore-vs-shaft",
    Severity.STOP,
    ask="What bore size is stamped on the hub?",
    inputs=DIAMETER,
    needs=("prop_size",),
    likely={"I-OTHER": 6, "I-DIAREAD": 3, "I-SYSTEM": 2},
)
def the_propeller_is_bored_for_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The propeller's bore is not the shaft's size.

    The propeller of another boat, or the shaft misread. A propeller that will not go back on is
    not held against the shaft.
    """
    bore, size = case.sheet.part("prop_size", "bore"), case.size
    if bore is None or size is None or case.sheet.choice("propeller_stays") == "no":
        return
    if abs(bore.nm - size.diameter.nm) > case.limits.snap_least.nm:
        words = "The bore stamped on the propeller is not the size of the shaft."
        yield Mismatch(("prop_size", "dia_clean"), words)


@check(
    "nut-stack",
    Severity.NOTE,
    ask="With the nuts tight, how much thread sticks out, or how far short is it?",
    source="ASME B18.2.2; SAE J755; limits common practice",
    needs=("nuts",),
    likely={"I-OTHER": 5, "P-SEAT": 4, "S-LENGTH": 1},
)
def the_nuts_fill_the_thread(case: Case) -> Iterator[Mismatch]:
    """Too little or too much thread shows past the propeller's nuts.

    A lock nut is missing, the propeller is not home, or the shaft is another one. Under a cap
    nobody sees the thread.
    """
    showing, limits = case.sheet.part("nuts", "showing"), case.limits
    if showing is None or case.sheet.part("nuts", "kind") == "cap":
        return
    pitch = _pitch_nm(case)
    if pitch is not None and showing.nm < limits.thread_showing_pitches * pitch:
        words = "Too little thread shows for the nut to be full."
        yield Mismatch(("nuts",), words, severity=Severity.ASK)
    elif showing > limits.thread_showing_most:
        yield Mismatch(("nuts",), "More thread shows past the nuts than is usual.")


@check(
    "front-nut-hand",
    Severity.ASK,
    ask="Which way do you turn the front nut to undo it, and what stops it coming loose?",
    needs=("drive_layout", "front_end"),
)
def the_front_nut_is_told_whole(case: Case) -> Iterator[Mismatch]:
    """The front nut of a shaft through the gearbox has a hand and a lock, and both must be told.

    Nobody looked. Where the hand is missing altogether the front end is asked for whole.
    """
    if not case.passes_through:
        return
    hand, lock = (case.sheet.part("front_end", name) for name in ("hand", "lock"))
    unclear = hand and not hand.casefold().startswith(_HANDS)
    if unclear or not lock:
        words = "It is not told which way the front nut turns and what locks it."
        yield Mismatch(("front_end",), words)


def _pitch_nm(case: Case) -> float | None:
    """The nut thread's pitch: as it was told, else the standard end's; None where neither is."""
    told = case.sheet.part("thread", "text")
    if told:
        if not told.pitch:
            return None
        each = float(told.pitch)
        return NM_PER_INCH / each if told.system == "inch" else each * NM_PER_MM
    if case.end is None:
        return None
    return NM_PER_INCH / int(case.end.thread.rpartition("-")[2])


CHECKS = (
    the_hub_suits_the_taper,
    the_propeller_is_bored_for_the_shaft,
    the_nuts_fill_the_thread,
    the_front_nut_is_told_whole,
)
