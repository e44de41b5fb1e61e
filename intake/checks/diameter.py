"""Which size the shaft is, and whether its own readings settle that."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_64TH, Length
from intake.checks.base import DIAMETER, Mismatch, check
from intake.checks.wear import journal_wear_nm
from intake.domain.case import Case
from intake.domain.verdict import Severity

ALL_PARTS = ("shaft", "coupling", "bearing")
_EITHER = ("dia_clean|bearing_id_or_mark",)
_SIXTEENTH_NM = 4 * NM_PER_64TH


@check(
    "dia-snap",
    Severity.ASK,
    ask="On a clean bright part away from the bearing, what does the shaft measure, and with what?",
    holds=ALL_PARTS,
    inputs=DIAMETER,
    needs=_EITHER,
    likely={"I-DIAREAD": 12, "I-SYSTEM": 3},
)
def the_diameter_is_one_size(case: Case) -> Iterator[Mismatch]:
    """The diameter as measured does not settle on one stocked size.

    Wear, a tilted tool, paint or growth.
    """
    found, limits = case.diameter, case.limits
    if found is None:
        return
    far = abs(found.residual_nm) > limits.diameter_residual_u * found.spread_nm
    if far or found.probability < limits.diameter_sure:
        words = "The diameter as measured does not settle on one stocked size."
        yield Mismatch((measured_by(case),), words)


@check(
    "dia-inch-metric-tie",
    Severity.ASK,
    ask="What is the propeller nut's thread, and what spanner fits the nut?",
    source="arithmetic; wear allowance common practice",
    holds=ALL_PARTS,
    inputs=DIAMETER,
    needs=_EITHER,
    likely={"I-SYSTEM": 10, "I-DIAREAD": 3},
)
def inch_or_metric_is_settled(case: Case) -> Iterator[Mismatch]:
    """An inch size and a metric size lie too near to each other to tell by the reading.

    A metric hull with an inch shaft, or the reverse. However likely one of them is, it takes a
    second kind of evidence; a size of the other system than the tape's is always confirmed.
    """
    found = case.diameter
    if found is None:
        return
    other_tape = {"in": "mm", "mm": "inch"}.get(case.sheet.tape_unit or "") == found.best.system
    if other_tape or (_has_rival(case) and not found.agreed):
        words = "The reading could be an inch size or a metric size."
        yield Mismatch((measured_by(case), "thread"), words)


def _has_rival(case: Case) -> bool:
    """True where a size of the other system could have given this reading."""
    found, limits = case.diameter, case.limits
    if found is None:
        return False
    near = found.rival_off_nm <= limits.rival_u * found.spread_nm
    return near or found.rival_share >= limits.rival_share


@check(
    "dia-odd-sixteenth",
    Severity.ASK,
    ask=(
        "Counting from the 1 in mark, how many of the smallest marks were there, and how many make "
        "an inch on your tape?"
    ),
    holds=ALL_PARTS,
    needs=("dia_clean",),
    likely={"I-DIAREAD": 12, "I-SYSTEM": 3},
)
def the_diameter_is_not_an_odd_sixteenth(case: Case) -> Iterator[Mismatch]:
    """The diameter reads as an odd sixteenth, which nobody stocks.

    Most likely the next eighth misread or worn, or a metric size.
    """
    reading = case.sheet.readings.get("dia_clean")
    if reading is None or reading.unit not in ("in", "ft"):
        return
    nearest = Length(round(reading.length.nm / _SIXTEENTH_NM) * _SIXTEENTH_NM)
    if nearest in case.limits.odd_sixteenths:
        yield Mismatch(("dia_clean",), f"{reading.text} is near a size that nobody stocks.")


@check(
    "dia-two-spots",
    Severity.NOTE,
    ask="Which of the two readings was in the bearing?",
    holds=("shaft", "bearing"),
    needs=("dia_clean", "dia_journal"),
    likely={"I-DIAREAD": 12, "O-OLDBEARING": 10},
)
def the_two_spots_tell_of_wear(case: Case) -> Iterator[Mismatch]:
    """The shaft is thinner in its bearing than beside it, or is said to be thicker there.

    Wear, or the two answers were exchanged: no shaft grows in its bearing. A difference that the
    two tools cannot tell counts for nothing.
    """
    found, limits = journal_wear_nm(case), case.limits
    if found is None:
        return
    wear, u = found
    same = limits.two_spots_same.nm
    answers = ("dia_clean", "dia_journal")
    if wear < -max(same, limits.two_spots_ask_u * u):
        words = "The shaft is said to be thicker in its bearing than beside it."
        yield Mismatch(answers, words, severity=Severity.ASK)
    elif wear > max(limits.two_spots_worn.nm, limits.two_spots_note_u * u):
        words = "The shaft has worn in its bearing, and the bearing will have worn with it."
        yield Mismatch(answers, words, likely=_WORN)
    elif wear > max(same, limits.two_spots_note_u * u):
        yield Mismatch(answers, "The shaft has worn a little in its bearing.", likely=_WORN)


_WORN = (("O-OLDBEARING", 1.0),)


@check(
    "dia-method-upgrade",
    Severity.NOTE,
    ask=(
        "Could you wrap a strip of paper round it, prick the overlap with a pin and measure "
        "between the holes?"
    ),
    source="common practice; arithmetic: the strip's length is 3.1416 times the diameter",
    holds=ALL_PARTS,
    needs=("dia_clean",),
    likely={"I-DIAREAD": 12, "I-SYSTEM": 3},
)
def a_better_tool_would_settle_it(case: Case) -> Iterator[Mismatch]:
    """The diameter was taken with a tool too coarse to tell an inch size from a metric one.

    Only a spanner and a tape were to hand; a strip of paper is finer than either.
    """
    reading, found, limits = case.sheet.readings.get("dia_clean"), case.diameter, case.limits
    if reading is None or found is None or reading.method not in limits.coarse_ways:
        return
    if found.best.diameter >= limits.coarse_from and _has_rival(case) and not found.agreed:
        yield Mismatch(("dia_clean",), "A finer way of measuring would settle the diameter.")


@check(
    "dia-coated",
    Severity.NOTE,
    ask="What is on the surface where you measured?",
    holds=ALL_PARTS,
    needs=("dia_clean",),
    likely={"I-DIAREAD": 1},
)
def the_surface_was_clean(case: Case) -> Iterator[Mismatch]:
    """The shaft reads a little over its size.

    Paint, growth, scale or a burr; or the tool was tilted.
    """
    reading, size, limits = case.sheet.readings.get("dia_clean"), case.size, case.limits
    if reading is None or size is None or case.diameter is None:
        return
    over = reading.length.nm - size.diameter.nm
    least = max(limits.coated_least.nm, limits.coated_u * case.diameter.spread_nm)
    if least < over <= limits.coated_most.nm:
        yield Mismatch(("dia_clean",), "The shaft reads a little over its size.")


def measured_by(case: Case) -> str:
    """The answer the diameter was judged from."""
    return "dia_clean" if "dia_clean" in case.sheet.readings else "bearing_id_or_mark"


CHECKS = (
    the_diameter_is_one_size,
    inch_or_metric_is_settled,
    the_diameter_is_not_an_odd_sixteenth,
    the_two_spots_tell_of_wear,
    a_better_tool_would_settle_it,
    the_surface_was_clean,
)
