"""The flange: a disc that was measured as a disc, for this shaft and this engine."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import DIAMETER, Mismatch, check
from intake.checks.diameter import measured_by
from intake.domain.case import Case
from intake.domain.diameter_evidence import thread_system
from intake.domain.flange import torque_lb_in
from intake.domain.recognised import flange_of, flanges_near, is_coupling_hub, is_near
from intake.domain.verdict import Severity

_FLANGE = frozenset({"flange_od"})


@check(
    "flange-is-hub",
    Severity.ASK,
    ask="On the round disc that has the bolts through it, how wide is it edge to edge?",
    holds=("coupling",),
    needs=("flange_od",),
    likely={"I-HUB": 20, "I-HOLE": 3},
)
def the_flange_is_not_its_hub(case: Case) -> Iterator[Mismatch]:
    """The flange was measured on its neck: no flange is that small, every hub is.

    The barrel is easier to reach than the disc; or half the disc was measured, to its centre.
    """
    if is_coupling_hub(case):
        yield Mismatch(("flange_od",), "That is the width of a coupling's neck, not of its disc.")


@check(
    "flange-snap",
    Severity.ASK,
    ask="How wide is the disc straight across through the middle?",
    source="common practice (the general flange standard SAE J756 was withdrawn in 2005)",
    holds=("coupling",),
    needs=("flange_od",),
    likely={"I-DIAREAD": 8, "I-HUB": 3},
)
def the_flange_is_a_known_size(case: Case) -> Iterator[Mismatch]:
    """The flange is not near any flange that is usual.

    Measured across the bolts, or half of it to the centre.
    """
    if not is_coupling_hub(case) and not flanges_near(case):
        yield Mismatch(("flange_od",), "No usual flange is this wide.")


@check(
    "flange-102-vs-4",
    Severity.NOTE,
    ask="What size are the flange bolts, and what spanner fits?",
    source="arithmetic: 102 mm is 4.016 in, 100 mm is 3.937 in, 127 mm is 5 in",
    holds=("coupling",),
    inputs=DIAMETER,
    needs=("flange_od",),
    likely={"I-SYSTEM": 1},
)
def the_flange_has_a_twin(case: Case) -> Iterator[Mismatch]:
    """The flange has a twin in the other system that a tape reads alike.

    On a metric boat only the bolts and their circle tell which of the two it is.
    """
    reading, size = case.sheet.readings.get("flange_od"), case.size
    if reading is None or flange_of(case) not in case.limits.flange_twins:
        return
    metric = reading.unit in ("mm", "cm", "m") or (size is not None and size.system == "mm")
    if metric and not thread_system(case.sheet.part("bolts", "size") or ""):
        words = "An inch flange and a metric one read alike here; the bolts tell which it is."
        yield Mismatch(("flange_od", "bolts"), words)


@check(
    "flange-vs-diameter",
    Severity.ASK,
    ask="What does the gearbox plate say, and how wide is its own flange?",
    holds=("coupling",),
    inputs=_FLANGE | DIAMETER,
    needs=("flange_od", "dia_clean|bearing_id_or_mark"),
    likely={"I-DIAREAD": 8, "K-TYPED": 3, "I-COMBO": 3},
)
def flange_and_shaft_go_together(case: Case) -> Iterator[Mismatch]:
    """The flange is not one that is usual with this shaft.

    A slip in typing, or a small flange left from an older engine.
    """
    size, limits = case.size, case.limits
    found = flanges_near(case)
    if size is None or not found:
        return
    words = "This flange is not usual with a shaft of this size."
    answers = ("flange_od", measured_by(case))
    small = is_near(found[0], limits.small_flange, limits)
    twin, across = limits.metric_twin.nm, size.diameter.nm
    spans = [
        least.nm - twin <= across <= most.nm + twin
        for usual, least, most in limits.flange_diameters
        if any(is_near(flange, usual, limits) for flange in found)
    ]
    if small and size.diameter >= limits.small_flange_stop_from:
        yield Mismatch(answers, words, severity=Severity.STOP)
    elif spans and not any(spans):
        yield Mismatch(answers, words)


@check(
    "flange-vs-torque",
    Severity.ASK,
    ask="What is the gearbox's own flange size and bolt size?",
    source="torque arithmetic; limits common practice, no source: the gearbox maker's data decide",
    holds=("coupling",),
    needs=("flange_od", "engine_power", "engine_max_rpm", "gear_ratio"),
    likely={"I-DIAREAD": 5, "U-MIX": 10, "I-HUB": 3},
)
def the_flange_carries_the_torque(case: Case) -> Iterator[Mismatch]:
    """The engine's torque is more than such a flange usually carries.

    Kilowatts and horsepower exchanged, or the flange misread.
    """
    sheet, limits = case.sheet, case.limits
    power, speed = sheet.part("engine_power", "text"), sheet.part("engine_max_rpm", "text")
    ratio = sheet.part("gear_ratio", "text")
    if not power or not speed or not ratio:
        return
    torque = torque_lb_in(power.horsepower, speed / float(ratio))
    carried = [
        most
        for usual, most in limits.flange_torque
        if any(is_near(flange, usual, limits) for flange in flanges_near(case))
    ]
    if carried and torque > max(carried):
        words = f"The torque of {torque:,.0f} lb-in is more than such a flange usually carries."
        yield Mismatch(("flange_od", "engine_power", "engine_max_rpm", "gear_ratio"), words)


CHECKS = (
    the_flange_is_not_its_hub,
    the_flange_is_a_known_size,
    the_flange_has_a_twin,
    flange_and_shaft_go_together,
    the_flange_carries_the_torque,
)
