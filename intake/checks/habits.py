"""How numbers come about that were not measured: rounded, copied, filled in."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_INCH
from intake.checks.base import Mismatch, check
from intake.checks.decimals import TAPES
from intake.checks.units import INCH_UNITS
from intake.domain.case import Case
from intake.domain.printed import PRINTED_NM
from intake.domain.sheet import Reading
from intake.domain.verdict import Severity

# What one tape reads off a boat, one after the other, with no reason to be whole: hubs and barrels
# are made to size, and a drill shank has no inches to round to.
_INDEPENDENT = (
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "old_length_face_to_thread",
    "tail_to_thread",
    "gap_now",
)


@check(
    "whole-inch-heaping",
    Severity.ASK,
    ask=(
        "How close to the mark did the tape fall for each of these: just over, just under, or "
        "dead on?"
    ),
    source="common practice; arithmetic",
    likely={"E-ROUND": 1},
)
def the_numbers_were_not_rounded(case: Case) -> Iterator[Mismatch]:
    """All the lengths are whole inches, or all are half inches: they look rounded.

    Rounded while talking, or judged by eye. Three whole inches read to the eighth are 90 to 1 for
    rounding; halves need more of them.
    """
    readings = [
        reading
        for slug in _INDEPENDENT
        if (reading := case.sheet.readings.get(slug)) and _read_off_inches(reading)
    ]
    limits, steps = case.limits, NM_PER_INCH // case.limits.rounding_reads_to.nm
    if len(readings) < limits.rounding_readings:
        return
    for step, chances, words in (
        (NM_PER_INCH, steps, "whole inches"),
        (NM_PER_INCH // 2, steps / 2, "halves of inches"),
    ):
        if all(reading.length.nm % step == 0 for reading in readings):
            if limits.rounding_prior * chances ** len(readings) >= limits.rounding_odds:
                said = ", ".join(reading.text for reading in readings)
                slugs = tuple(reading.slug for reading in readings)
                yield Mismatch(slugs, f"All of these lengths are {words}: {said}.")
            return


def _read_off_inches(reading: Reading) -> bool:
    tool = reading.method in TAPES or reading.method == "eye"
    return tool and reading.unit in INCH_UNITS


@check(
    "example-copycat",
    Severity.ASK,
    ask=(
        "When you measured her, what did the tape read: could you lay it on once more while we "
        "talk?"
    ),
    holds=("shaft", "coupling", "bearing"),
    likely={"E-COPY": 1},
)
def the_examples_were_not_copied(case: Case) -> Iterator[Mismatch]:
    """Several numbers are the very ones that the form prints as examples.

    One may be chance; two were copied from the page.
    """
    copied = tuple(
        slug for slug, reading in case.sheet.readings.items() if reading.length.nm in PRINTED_NM
    )
    if len(copied) >= case.limits.copied_examples:
        yield Mismatch(copied, "These numbers are the examples that our own form prints.")


@check(
    "repeated-number",
    Severity.ASK,
    ask="What did you measure for the first of these, and what for the second?",
    likely={"E-COPY": 2, "D-FWD": 1},
)
def different_lengths_have_different_numbers(case: Case) -> Iterator[Mismatch]:
    """Two lengths that cannot be the same were given the same number.

    Filled in to get past the form, or one of the two was copied from the other.
    """
    sheet = case.sheet
    for one, other in _NEVER_THE_SAME:
        first, second = sheet.readings.get(one), sheet.readings.get(other)
        if first is None or second is None or first.length != second.length:
            continue
        if other == "old_length_overall" and not _reaches_past_the_thread(case):
            continue
        words = f"{first.text} was given for two lengths that differ on every boat."
        yield Mismatch((one, other), words)


_NEVER_THE_SAME: tuple[tuple[str, str], ...] = (
    ("face_to_strut_fwd", "face_to_strut_aft"),
    ("old_length_face_to_thread", "old_length_overall"),
    ("hub_length", "tail_to_thread"),
)


def _reaches_past_the_thread(case: Case) -> bool:
    """True where it was said that a nose follows the thread, or where a front end sticks out."""
    return case.passes_through or case.sheet.choices.get("pin_end") == "yes"


CHECKS = (
    the_numbers_were_not_rounded,
    the_examples_were_not_copied,
    different_lengths_have_different_numbers,
)
