"""Numbers in the unit they were meant in: inches, millimetres, centimetres, feet."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.questions import QUESTIONS
from intake.domain.sheet import Reading
from intake.domain.verdict import Severity

INCH_UNITS = ("in", "ft")

# Lengths that one tape is held to, one after the other; a drill or a mark is no tape. Diameters
# are not here: no number is a shaft in inches and in millimetres both.
_TAPED = (
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "old_length_face_to_thread",
    "old_length_overall",
    "tail_to_thread",
    "hub_length",
    "gap_now",
)
_NO_TAPE = frozenset({"drill_shank", "mark", "plug", "papers"})


# By definition, so no limit of the desk.
_MM_IN_AN_INCH = NM_PER_INCH / NM_PER_MM
_FOOT_NM = 12 * NM_PER_INCH


@check(
    "unit-mixed-record",
    Severity.ASK,
    ask=(
        "Which side of the tape did you read for the long measurement, and what were the small "
        "marks?"
    ),
    likely={"U-MIX": 1},
    entry=True,
)
def no_number_would_do_in_either_unit(case: Case) -> Iterator[Mismatch]:
    """Inches and millimetres stand in one sheet, and a bare number would do in either.

    A tape with two scales, or a metric hull with an inch shaft. A number with its unit beside it,
    or one that only one unit can mean, is taken as it is.
    """
    readings = case.sheet.readings
    there = [readings[slug] for slug in _TAPED if slug in readings]
    if len({reading.unit in INCH_UNITS for reading in there}) < 2:
        return
    unsure = tuple(reading.slug for reading in there if _fits_either_unit(reading))
    if unsure:
        words = f"{readings[unsure[0]].text} would do in inches as well as in millimetres."
        yield Mismatch(unsure, words)


def _fits_either_unit(reading: Reading) -> bool:
    if reading.unit_written or reading.method in _NO_TAPE or not is_bare(reading.text):
        return False
    nm, question = reading.length.nm, QUESTIONS[reading.slug]
    in_inches = nm if reading.unit in INCH_UNITS else nm * 127 // 5
    return _within(question.inch_range, in_inches) and _within(
        question.metric_range, in_inches * 5 // 127
    )


def _within(span: tuple[Length, Length] | None, nm: int) -> bool:
    return span is not None and span[0].nm <= nm <= span[1].nm


def is_bare(text: str) -> bool:
    """True for figures and at most one point: no fraction, no unit, no words.

    >>> is_bare("44.5"), is_bare("44 1/2"), is_bare("44 in")
    (True, False, False)
    """
    plain = text.strip().replace(",", ".", 1).replace(".", "", 1)
    return plain.isascii() and plain.isdigit()


@check(
    "unit-factor-25",
    Severity.STOP,
    ask="What unit is printed on the tape you read that from?",
    source="factor exact by definition; band common practice",
    inputs=LENGTHS,
    entry=True,
    likely={"U-MMIN": 1},
)
def millimetres_and_inches_are_not_exchanged(case: Case) -> Iterator[Mismatch]:
    """A number is 25.4 times, or 1/25.4 of, what the other answers give for it.

    Millimetres typed in an inch box, or the reverse.
    """
    limits = case.limits
    factors = (_MM_IN_AN_INCH, 1 / _MM_IN_AN_INCH)
    words = "is off by the ratio of inches to millimetres against the other answers."
    yield from _off_by_factor(case, factors, limits.factor_25_band, words)


@check(
    "unit-factor-2.54-or-10",
    Severity.STOP,
    ask="Read me the number exactly as printed, including the letters beside it: what does it say?",
    inputs=LENGTHS,
    entry=True,
    likely={"U-CM": 1},
)
def centimetres_are_not_taken_for_others(case: Case) -> Iterator[Mismatch]:
    """A number is 2.54 or 10 times, or that part of, what the other answers give for it.

    Centimetres typed as inches, or as millimetres.
    """
    words = "is off by the ratio of centimetres to another unit against the other answers."
    yield from _off_by_factor(case, case.limits.factors_cm, case.limits.factors_cm_band, words)


def _off_by_factor(
    case: Case, factors: tuple[float, ...], band: float, words: str
) -> Iterator[Mismatch]:
    """The answer that fits a factor best; one wrong number makes its partners look wrong too."""
    hits = []
    for slug, value, expected in against_others(case):
        for factor in factors:
            ratio = value / expected / factor
            if abs(ratio - 1) <= band:
                hits.append((_in_range(case, slug), abs(math.log(ratio)), slug))
    if hits:
        slug = min(hits)[2]
        yield Mismatch((slug,), f"{case.sheet.readings[slug].text} {words}")


def _in_range(case: Case, slug: str) -> bool:
    reading = case.sheet.readings[slug]
    plausible = QUESTIONS[slug].plausible(reading.unit)
    return plausible is None or plausible[0].nm <= reading.length.nm <= plausible[1].nm


@lru_cache(maxsize=4)
def against_others(case: Case) -> tuple[tuple[str, int, int], ...]:
    """Each long answer as (slug, its value, what the other routes or marks give for it), > 0."""
    found = []
    for slug, expected in _expected(case):
        reading = case.sheet.readings.get(slug)
        if reading is not None and reading.length.nm > 0 and expected > 0:
            found.append((slug, reading.length.nm, expected))
    return tuple(found)


def _expected(case: Case) -> Iterator[tuple[str, int]]:
    routes, band, sheet = case.routes, case.band, case.sheet
    mark = sheet.length("bearing_id_or_mark")
    if mark is not None:
        yield "dia_clean", mark.nm
    if routes is None or band is None:
        return
    gap = sheet.length("gap_now")
    if routes.hub_tail and gap is not None:
        yield "tail_to_thread", routes.hub_tail.nm + gap.nm
    strut = sheet.length("face_to_strut_aft")
    if strut and routes.boat and routes.old and routes.tail and routes.strut:
        shift = routes.strut.nm - strut.nm
        yield "face_to_strut_aft", routes.old.nm - band.goal.nm - routes.tail.nm - shift
        seen = gap.nm if gap is not None else band.goal.nm
        yield "old_length_face_to_thread", routes.boat.nm - band.goal.nm + seen


@check(
    "feet-inch-run-together",
    Severity.STOP,
    ask="How many whole feet, and then how many inches, did the tape show?",
    source="common practice; arithmetic",
    inputs=LENGTHS,
    entry=True,
    likely={"R-FTIN": 1},
)
def feet_and_inches_are_not_run_together(case: Case) -> Iterator[Mismatch]:
    """A number is short by two for every whole foot: feet and inches written side by side.

    4 ft 1 in typed 41 stands for 49.
    """
    limits = case.limits
    for slug, value, expected in against_others(case):
        short = 2 * (expected // _FOOT_NM) * (NM_PER_INCH)
        if short and abs(value + short - expected) <= limits.feet_inches.nm:
            reading = case.sheet.readings[slug]
            if reading.unit == "in" and not _FEET_MARKS.intersection(reading.text.lower()):
                words = f"{reading.text} reads like feet and inches side by side."
                yield Mismatch((slug,), words)


_FEET_MARKS = frozenset("f'′’")

CHECKS = (
    no_number_would_do_in_either_unit,
    millimetres_and_inches_are_not_exchanged,
    centimetres_are_not_taken_for_others,
    feet_and_inches_are_not_run_together,
)
