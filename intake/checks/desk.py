"""Bars and parcels: whether the desk can make and send what the sheet asks for."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalog.domain.lengths import Length
from catalog.domain.materials import Material, material
from intake.checks.base import LENGTHS, Mismatch, check
from intake.checks.ends import taper_rate
from intake.domain.case import Case
from intake.domain.verdict import Severity

_LENGTH = ("face_to_strut_aft", "old_length_face_to_thread")


@check(
    "stock-length",
    Severity.STOP,
    ask="How would a one-piece shaft of that length be got into the boat?",
    source="common practice; catalogue",
    inputs=LENGTHS,
    likely={"U-MMIN": 3, "U-CM": 2, "C-MISSING": 2},
)
def a_bar_is_long_enough(case: Case) -> Iterator[Mismatch]:
    """No bar in the catalogue is long enough for this shaft in one piece.

    A very long shaft, or a length in the wrong unit.
    """
    overall, size, limits = case.overall, case.size, case.limits
    if overall is None or size is None:
        return
    needed = overall + limits.bar_facing_and_saw
    bars = case.stock.bars(size.system, size.diameter, case.alloy)
    lengths = [bar.stock_length for bar in bars if bar.stock_length]
    usual = case.metric_or_inch(limits.bar_longest, limits.bar_longest_metric)
    if needed > max(lengths, default=usual):
        words = "No bar we stock is long enough for this shaft in one piece."
        yield Mismatch(_LENGTH, words)


@check(
    "parcel-length",
    Severity.NOTE,
    ask="Where can a long tube be signed for?",
    inputs=LENGTHS,
    needs=("ship_to",),
)
def the_tube_is_a_short_parcel(case: Case) -> Iterator[Mismatch]:
    """The tube is too long for the first class of parcels.

    A tube is longer than its shaft. To a home, a really long one is asked about by itself.
    """
    tube, limits = tube_of(case), case.limits
    if tube is None or (_to_a_home(case) and tube > limits.home_tube):
        return
    metric = case.size is not None and case.size.system == "mm"
    classes = limits.tube_classes_metric if metric else limits.tube_classes
    passed = [most for most in classes if tube > most]
    if passed:
        most = f"{round(passed[-1].in_mm)} mm" if metric else f"{passed[-1].inch_text} in"
        yield Mismatch(("ship_to",), f"The tube is longer than {most}: it goes as a long parcel.")


@check(
    "weight",
    Severity.NOTE,
    ask="Who will be there to help lift it off the van?",
    source="arithmetic; limits common practice",
    inputs=LENGTHS,
)
def one_person_can_lift_it(case: Case) -> Iterator[Mismatch]:
    """The shaft is too heavy for one person to lift.

    A thick and long bar; beyond a further limit it travels on a pallet.
    """
    pounds, limits = pounds_of(case), case.limits
    if pounds is None or pounds <= limits.weight_two_people:
        return
    how = (
        "it goes on a pallet" if pounds > limits.weight_pallet else "it takes two people to lift it"
    )
    yield Mismatch(_LENGTH, f"The shaft weighs about {pounds:.0f} lb: {how}.")


@check(
    "long-parcel-address",
    Severity.NOTE,
    ask="Who is there in working hours to take a long tube?",
    inputs=LENGTHS,
    needs=("ship_to",),
)
def a_home_can_take_the_parcel(case: Case) -> Iterator[Mismatch]:
    """A long or heavy tube would go to a home.

    Nobody is in, or it does not go round the stairs; a depot or the yard takes it.
    """
    tube, pounds, limits = tube_of(case), pounds_of(case), case.limits
    if tube is None or pounds is None or not _to_a_home(case):
        return
    if tube > limits.home_tube or pounds > limits.weight_home:
        yield Mismatch(("ship_to",), "A tube as long or heavy as this would go to a home.")


@check(
    "impossible-combo",
    Severity.STOP,
    ask="Which of these two are you surest of, and how do you know?",
    source="logic",
    holds=("shaft", "coupling", "bearing"),
    needs=("thread|bearing_place",),
    likely={"I-COMBO": 5, "I-OTHER": 3},
)
def the_answers_can_be_of_one_boat(case: Case) -> Iterator[Mismatch]:
    """Two answers cannot both be true of one boat.

    Boats or parts were mixed. A coupling the wrong way round, a gearbox without its length, a
    flange too small and a shell without a wall are stopped by their own checks, and not here.
    """
    thread = case.sheet.part("thread", "text")
    if thread and thread.system == "inch" and taper_rate(case) == case.limits.taper_rate_metric:
        words = "A metric taper and an inch thread do not stand on one shaft."
        yield Mismatch(("taper_two_dia", "thread"), words, holds=("shaft",))
    if _a_strut_that_is_not_there(case):
        words = "The bearing is said to be in a strut, and the boat to have none."
        yield Mismatch(("bearing_place",), words, holds=("shaft", "bearing"))


def tube_of(case: Case) -> Length | None:
    """How long a tube the shaft travels in."""
    shaft = case.overall if case.passes_through else case.cut
    return shaft + case.limits.tube_extra if shaft is not None else None


def pounds_of(case: Case) -> float | None:
    """What the bar weighs, in pounds; by the desk's usual metal where its own is not known."""
    size, overall = case.size, case.overall
    metal = material(case.alloy) or _usual_metal(case)
    if size is None or overall is None or metal is None:
        return None
    area = math.pi / 4 * size.diameter.in_inches**2
    return area * overall.in_inches * float(metal.density_lb_in3)


def _usual_metal(case: Case) -> Material | None:
    return material(case.limits.alloy_inch)


def _to_a_home(case: Case) -> bool:
    return bool(case.sheet.part("ship_to", "kind") == "home")


def _a_strut_that_is_not_there(case: Case) -> bool:
    place = case.sheet.parts.get("bearing_place", {})
    if place.get("struts") != 0:
        return False
    return place.get("in") == "strut" or "strut_barrel" in case.sheet.readings


CHECKS = (
    a_bar_is_long_enough,
    the_tube_is_a_short_parcel,
    one_person_can_lift_it,
    a_home_can_take_the_parcel,
    the_answers_can_be_of_one_boat,
)
