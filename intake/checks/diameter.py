"""Which size the shaft is, and whether something else on the boat says so too."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_64TH, Length
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.diameter import steps_apart
from intake.domain.routes import end_of
from intake.domain.verdict import Severity

_ALL = ("shaft", "coupling", "bearing")
_SIXTEENTH_NM = 4 * NM_PER_64TH


@check(
    "dia-snap",
    Severity.ASK,
    ask="On a clean bright part away from the bearing, what does the shaft measure, and with what?",
    holds=_ALL,
    inputs=DIAMETER,
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
        yield Mismatch((_measured_by(case),), words)


@check(
    "dia-inch-metric-tie",
    Severity.ASK,
    ask="What is the propeller nut's thread, and what spanner fits the nut?",
    source="arithmetic; wear allowance common practice",
    holds=_ALL,
    inputs=DIAMETER,
)
def inch_or_metric_is_settled(case: Case) -> Iterator[Mismatch]:
    """An inch size and a metric size lie too near to each other to tell by the reading.

    A metric hull with an inch shaft, or the reverse.
    """
    found, limits = case.diameter, case.limits
    if found is None:
        return
    near = found.rival_off_nm <= limits.rival_u * found.spread_nm
    rival = near or found.rival_share >= limits.rival_share
    other_tape = {"in": "mm", "mm": "inch"}.get(case.sheet.tape_unit or "") == found.best.system
    if other_tape or (rival and not _second_evidence(case)):
        words = "The reading could be an inch size or a metric size."
        yield Mismatch((_measured_by(case), "thread"), words)


def _second_evidence(case: Case) -> bool:
    """True where thread, bearing mark or keyway speaks for the size that won."""
    sheet, size = case.sheet, case.size
    if size is None:
        return False
    mark = sheet.readings.get("bearing_id_or_mark")
    if mark and "dia_clean" in sheet.readings and mark.length == size.diameter:
        return True
    thread = sheet.part("thread", "text")
    end = end_of(size)
    if thread and end:
        return bool(thread.text == end.thread)
    if thread:
        return bool(thread.system == "mm" and size.system == "mm")
    key = sheet.part("keyway", "width")
    return bool(key and end and abs((key - end.keyway_width).nm) <= NM_PER_64TH)


@check(
    "dia-odd-sixteenth",
    Severity.ASK,
    ask=(
        "Counting from the 1 in mark, how many of the smallest marks were there, and how many make "
        "an inch on your tape?"
    ),
    holds=_ALL,
    inputs=DIAMETER,
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
    "dia-vs-bearing",
    Severity.STOP,
    ask="What is stamped on the bearing or its packaging?",
    holds=("shaft", "bearing"),
    inputs=DIAMETER | {"bearing_id_or_mark"},
)
def the_bearing_runs_on_the_shaft(case: Case) -> Iterator[Mismatch]:
    """The bearing's inside size is not the shaft's size.

    Usually the worn flutes were measured, or the journal, where the shaft is thinnest.
    """
    sheet, size, bearing = case.sheet, case.size, case.bearing_size
    if size is None or "dia_clean" not in sheet.readings:
        return
    if "bearing_id_or_mark" not in sheet.readings or bearing == size:
        return
    words = "The bearing's inside size and the shaft's size are not the same."
    one_step = bearing is not None and steps_apart(size, bearing) == 1
    severity = Severity.ASK if one_step else Severity.STOP
    yield Mismatch(("bearing_id_or_mark", "dia_clean"), words, severity=severity)


def _measured_by(case: Case) -> str:
    return "dia_clean" if "dia_clean" in case.sheet.readings else "bearing_id_or_mark"


CHECKS = (
    the_diameter_is_one_size,
    inch_or_metric_is_settled,
    the_diameter_is_not_an_odd_sixteenth,
    the_bearing_runs_on_the_shaft,
)
