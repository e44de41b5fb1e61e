"""Numbers as they came: is everything there, in its range, in its unit."""

from __future__ import annotations

import math
from collections.abc import Iterator

from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.questions import QUESTIONS
from intake.domain.verdict import Severity

ALL = ("shaft", "coupling", "bearing")

# What a part cannot be chosen without: each row is one need, met by any of its answers together.
_DIAMETER_NEED = (("dia_clean",), ("bearing_id_or_mark",))
NEEDS: dict[str, tuple[tuple[tuple[str, ...], ...], ...]] = {
    "shaft": (
        _DIAMETER_NEED,
        (("drive_layout",),),
        (("face_to_strut_aft",), ("old_length_face_to_thread", "gap_now")),
    ),
    "coupling": (_DIAMETER_NEED, (("flange_od",), ("bolts",)), (("flange_direction",),)),
    "bearing": (
        (("bearing_id_or_mark",), ("dia_clean",)),
        (("shell_od",), ("strut_bore",)),
        (("bearing_length",), ("strut_barrel",)),
    ),
}


@check(
    "missing-critical",
    Severity.STOP,
    ask="What stopped you getting this one?",
    holds=ALL,
)
def everything_needed_is_there(case: Case) -> Iterator[Mismatch]:
    """An answer that a wanted part cannot do without is missing, and so is its fallback.

    Usually skipped on a small screen; "cannot measure" with the fallback answered is enough.
    """
    missing: dict[str, list[str]] = {}
    for part in case.sheet.wants:
        for need in NEEDS[part]:
            if not any(_met(case, answers) for answers in need):
                missing.setdefault(need[0][0], []).append(part)
    for slug, parts in missing.items():
        words = f"Not answered, and nothing in its place: {QUESTIONS[slug].ask}"
        yield Mismatch((slug,), words, holds=tuple(parts))
    contact = case.sheet.contact
    if case.sheet.contact_needed and not (contact.phone or contact.email):
        words = "There is neither a phone number nor an e-mail address to reach the customer."
        ask = "What number can we ring while you can still reach the boat?"
        yield Mismatch(("contact.phone",), words, question=ask)


def _met(case: Case, answers: tuple[str, ...]) -> bool:
    """A gap that cannot be measured is a known fallback: it is taken as assumed."""
    sheet = case.sheet
    return all(sheet.has(slug) or (slug == "gap_now" and sheet.cannot(slug)) for slug in answers)


@check(
    "range-single",
    Severity.STOP,
    ask="What part were you measuring when you got that number?",
    holds=ALL,
    entry=True,
)
def every_number_is_plausible(case: Case) -> Iterator[Mismatch]:
    """A number lies outside the range that its question can have.

    A slip in typing, another unit, or another part measured.
    """
    for slug, reading in case.sheet.readings.items():
        plausible = QUESTIONS[slug].plausible(reading.unit)
        if plausible is None:
            continue
        low, high = plausible
        if not low.nm <= reading.length.nm <= high.nm:
            words = f"{reading.text} is outside what this measurement can be."
            yield Mismatch((slug,), words, holds=_PARTS_OF.get(slug, ("shaft",)))


_PARTS_OF = {
    "dia_clean": ALL,
    "dia_journal": ("shaft", "bearing"),
    "flange_od": ("coupling",),
    "hub_length_coupling": ("coupling",),
    "bearing_id_or_mark": ("shaft", "bearing"),
    "shell_od": ("bearing",),
    "strut_bore": ("bearing",),
    "bearing_play": ("bearing",),
    "strut_barrel": ("bearing",),
}


@check(
    "unit-factor-25",
    Severity.STOP,
    ask="What unit is printed on the tape you read that from?",
    source="factor exact by definition; band common practice",
    inputs=LENGTHS,
    entry=True,
)
def millimetres_and_inches_are_not_exchanged(case: Case) -> Iterator[Mismatch]:
    """A number is 25.4 times, or 1/25.4 of, what the other answers give for it.

    Millimetres typed in an inch box, or the reverse.
    """
    limits = case.limits
    factors = (limits.factor_25, 1 / limits.factor_25)
    words = "is off by the ratio of inches to millimetres against the other answers."
    yield from _off_by_factor(case, factors, limits.factor_25_band, words)


@check(
    "unit-factor-2.54-or-10",
    Severity.STOP,
    ask="Read me the number exactly as printed, including the letters beside it: what does it say?",
    inputs=LENGTHS,
    entry=True,
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
    for slug, value, expected in _against_others(case):
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


def _against_others(case: Case) -> Iterator[tuple[str, int, int]]:
    """Each long answer as (slug, its value, what the other routes or marks give for it), > 0."""
    for slug, expected in _expected(case):
        reading = case.sheet.readings.get(slug)
        if reading is not None and reading.length.nm > 0 and expected > 0:
            yield slug, reading.length.nm, expected


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
    if routes.boat and routes.old and routes.tail and routes.strut:
        shift = routes.strut.nm - sheet.readings["face_to_strut_aft"].length.nm
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
)
def feet_and_inches_are_not_run_together(case: Case) -> Iterator[Mismatch]:
    """A number is short by two for every whole foot: feet and inches written side by side.

    4 ft 1 in typed 41 stands for 49.
    """
    limits = case.limits
    for slug, value, expected in _against_others(case):
        short = 2 * (expected // limits.foot.nm) * (limits.foot.nm // 12)
        if short and abs(value + short - expected) <= limits.feet_inches.nm:
            words = f"{case.sheet.readings[slug].text} reads like feet and inches side by side."
            yield Mismatch((slug,), words)


@check(
    "method-impossible",
    Severity.ASK,
    ask=(
        "Walk me through it: where were you standing, and what was still fitted, when you took "
        "this?"
    ),
    source="common practice; logic",
)
def the_way_of_measuring_was_possible(case: Case) -> Iterator[Mismatch]:
    """The way it was measured could not have been done as the boat stood.

    A tape cannot pass a hull with a shaft in it; answers from different days or people.
    """
    sheet = case.sheet
    strut = sheet.readings.get("face_to_strut_aft")
    if strut and sheet.choices.get("shaft_in") == "in" and strut.method in _THROUGH_THE_LOG:
        words = "A rod or tape cannot pass the log with the shaft in it."
        yield Mismatch(("face_to_strut_aft", "shaft_in"), words)
    if sheet.choice("afloat_or_ashore") == "afloat":
        outside = tuple(
            slug
            for slug in _OUTSIDE
            if slug in sheet.readings and sheet.readings[slug].method != "papers"
        )
        if outside:
            words = "Lengths outside the hull were given, and the boat was afloat."
            yield Mismatch(("afloat_or_ashore", *outside), words)
    if "gap_now" in sheet.readings and sheet.part("coupling_state", "is") == "off":
        words = "A gap was given, and the coupling was off."
        yield Mismatch(("gap_now", "coupling_state"), words)


_THROUGH_THE_LOG = frozenset({"rod", "tape", "tape_helper", "tape_one_hand"})
_OUTSIDE = (
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "strut_barrel",
    "gap_now",
    "tail_to_thread",
    "hub_length",
    "rudder_clear",
)

CHECKS = (
    everything_needed_is_there,
    millimetres_and_inches_are_not_exchanged,
    centimetres_are_not_taken_for_others,
    feet_and_inches_are_not_run_together,
    every_number_is_plausible,
    the_way_of_measuring_was_possible,
)
