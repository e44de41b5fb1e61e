"""What was given: is everything there, in its range, and could it be measured like that."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from catalog.domain.lengths import Length
from intake.checks.base import Mismatch, check
from intake.domain.case import Case
from intake.domain.questions import PART_RANGES, QUESTIONS
from intake.domain.verdict import Severity

ALL = ("shaft", "coupling", "bearing")

# What a part cannot be chosen without: each row is one need, met by any of its answers together.
_DIAMETER_NEED = (("dia_clean",), ("bearing_id_or_mark",))
NEEDS: dict[str, tuple[tuple[tuple[str, ...], ...], ...]] = {
    "shaft": (
        _DIAMETER_NEED,
        (("drive_layout",),),
        (("face_to_strut_aft",), ("pieces",), ("old_length_face_to_thread", "gap_now")),
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
    sheet = case.sheet
    # A gap that cannot be measured is a known fallback: it is taken as assumed.
    there = sheet.answered | {"gap_now"} if sheet.cannot("gap_now") else sheet.answered
    for slug, parts in _missing(sheet.wants, there):
        words = f"Not answered, and nothing in its place: {QUESTIONS[slug].ask}"
        yield Mismatch((slug,), words, holds=parts)
    contact = sheet.contact
    if sheet.contact_needed and not (contact.phone or contact.email):
        words = "There is neither a phone number nor an e-mail address to reach the customer."
        ask = "What number can we ring while you can still reach the boat?"
        yield Mismatch(("contact.phone",), words, question=ask)


@lru_cache(maxsize=4096)
def _missing(
    wants: tuple[str, ...], there: frozenset[str]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The first answer of every need that nothing meets, and the parts that wait for it."""
    missing: dict[str, list[str]] = {}
    for part in wants:
        for need in NEEDS[part]:
            if not any(there.issuperset(answers) for answers in need):
                missing.setdefault(need[0][0], []).append(part)
    return tuple((slug, tuple(parts)) for slug, parts in missing.items())


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
    yield from _parts_out_of_range(case)
    yield from _plates_out_of_range(case)


def _parts_out_of_range(case: Case) -> Iterator[Mismatch]:
    """The lengths inside an answer that is given in several numbers."""
    for slug, parts in case.sheet.parts.items():
        for name, value in parts.items():
            span = PART_RANGES.get((slug, name)) if isinstance(value, Length) else None
            if span is not None and not span[0].nm <= value.nm <= span[1].nm:
                words = f"{value.both()} is outside what this measurement can be."
                yield Mismatch((slug,), words, holds=_PARTS_OF.get(slug, ("shaft",)))


def _plates_out_of_range(case: Case) -> Iterator[Mismatch]:
    """Power and speed, which the shaft's strength is reckoned from.

    A ratio turned over is seen by the speed that it gives the shaft, and asked about there.
    """
    sheet, limits = case.sheet, case.limits
    power = sheet.part("engine_power", "text")
    if power is not None and not limits.power_least <= power.horsepower <= limits.power_most:
        words = "No engine of a boat like this has that power."
        yield Mismatch(("engine_power",), words, holds=("shaft",))
    speed = sheet.part("engine_max_rpm", "text")
    if speed is not None and not limits.speed_least <= speed <= limits.speed_most:
        words = f"{speed} turns a minute is no engine's speed."
        yield Mismatch(("engine_max_rpm",), words, holds=("shaft",))


_PARTS_OF = {
    "dia_clean": ALL,
    "dia_journal": ("shaft", "bearing"),
    "flange_od": ("coupling",),
    "hub_length_coupling": ("coupling",),
    "bolts": ("coupling",),
    "pilot": ("coupling",),
    "bearing_id_or_mark": ("shaft", "bearing"),
    "shell_od": ("bearing",),
    "strut_bore": ("bearing",),
    "bearing_play": ("bearing",),
    "bearing_length": ("bearing",),
    "strut_barrel": ("bearing",),
}


@check(
    "method-impossible",
    Severity.ASK,
    ask=(
        "Walk me through it: where were you standing, and what was still fitted, when you took "
        "this?"
    ),
    source="common practice; logic",
    likely={"E-PAPERS": 2, "I-OTHER": 1},
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


@check(
    "stale-measurement",
    Severity.NOTE,
    ask="What has been done to her since that day?",
    holds=ALL,
    needs=("measured_when",),
    likely={"B-MOVED": 12, "I-OTHER": 6},
)
def the_numbers_are_fresh(case: Case) -> Iterator[Mismatch]:
    """The numbers were taken long before the request came in.

    Old notes, often of another shaft. Silent where the day of the request is not known.
    """
    today, limits = case.history.today, case.limits
    days = case.sheet.lists.get("measured_when")
    if today is None or not days:
        return
    age = (today - days[0]).days
    if age > limits.stale_ask:
        words = f"These numbers were taken {age} days before they came in."
        yield Mismatch(("measured_when",), words, severity=Severity.ASK)
    elif age > limits.stale_note:
        words = f"These numbers were taken {age} days before they came in."
        yield Mismatch(("measured_when",), words)


CHECKS = (
    everything_needed_is_there,
    every_number_is_plausible,
    the_way_of_measuring_was_possible,
    the_numbers_are_fresh,
)
