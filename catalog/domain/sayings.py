"""One number with what people say around it: its unit in words, about, shy, a half.

What has to be assumed is said in a doubt, and what stays open is refused.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import NamedTuple

from catalog.domain import refusals, shades
from catalog.domain.by_range import fitting, unit_doubt
from catalog.domain.figures import SHAPE, read_figures
from catalog.domain.lengths import NM_PER_INCH
from catalog.domain.readings import Plausible, ReadLength
from catalog.domain.refusals import LengthError, refuse
from catalog.domain.shades import Shade
from catalog.domain.words import Amount, amounts

INCHES_PER_FOOT = 12
Fits = Callable[[Sequence[ReadLength]], bool]


class Said(NamedTuple):
    """One number with what is said about it."""

    amount: Amount
    shade: Shade


def said_of(text: str, tokens: list[str]) -> Said:
    """The one way to read the tokens as one number; ``text`` is for saying why there is none."""
    bare, shade = shades.apart(tokens)
    ways = amounts(bare) if bare else []
    if not ways:
        refuse(refusals.why_unreadable(text))
    if len(ways) > 1:
        refuse(refusals.two_ways([way.figures for way in ways]))
    return Said(ways[0], shade)


def read_one(said: Said, unit: str | None, plausible: Plausible | None) -> ReadLength:
    """The number as a length, with its shade."""
    return shades.applied(said.shade, _amount(said.amount, unit, plausible))


def _amount(amount: Amount, unit: str | None, plausible: Plausible | None) -> ReadLength:
    if amount.half and not amount.unit and unit != "in":
        return _spoken_half(amount, plausible)
    if amount.guessed:
        return _guessed(amount, plausible)
    return _figures(amount.figures, unit, plausible)


def _figures(text: str, unit: str | None, plausible: Plausible | None) -> ReadLength:
    found = SHAPE.fullmatch(text)
    if found is None:
        refuse(refusals.UNKNOWN)
    return read_figures(found, unit, plausible)


def _spoken_half(amount: Amount, plausible: Plausible | None) -> ReadLength:
    """A half in words is said of inches and of millimetres; only the range can tell."""

    def read(unit: str) -> list[ReadLength]:
        return [_amount(with_unit(amount, unit), None, plausible)]

    return the_one_that_fits(amount.figures, read, all_in(plausible))[0]


def with_unit(amount: Amount, unit: str) -> Amount:
    """The same as if that unit had been written."""
    if amount.unit:
        return amount
    figures = amount.figures if amount.guessed else f"{amount.figures} {unit}"
    return amount._replace(figures=figures, unit=unit)


def the_one_that_fits(
    text: str, read: Callable[[str], list[ReadLength]], fits: Fits
) -> list[ReadLength]:
    """What is read in inches or in millimetres, whichever alone fits; with the doubt."""
    fitted = []
    for unit in ("in", "mm"):
        with suppress(LengthError):
            fitted += [reads] if fits(reads := read(unit)) else []
    if len(fitted) != 1:
        refuse(refusals.either_unit_of(text))
    first, *others = fitted[0]
    doubts = (*first.doubts, *unit_doubt(first.unit))
    return [first._replace(unit_written=False, doubts=doubts), *others]


def all_in(plausible: Plausible | None) -> Fits:
    """Whether every reading lies in the range; never without a range."""
    return lambda reads: all(fitting(read.length.nm, 1, plausible) for read in reads)


_MARKS_DOUBT = "We read this as feet and inches, {}; is that right?"


def _guessed(amount: Amount, plausible: Plausible | None) -> ReadLength:
    """Feet and inches without marks, if they fit where one number with a gap would not."""
    feet, inches = amount.figures.rstrip('"').split("' ")
    whole = inches.split()[0]
    if int(whole) >= INCHES_PER_FOOT:
        refuse(refusals.two_numbers(feet, inches))
    read = _figures(amount.figures, None, plausible)
    joined = int(feet + whole) * NM_PER_INCH
    if not fitting(read.length.nm, 1, plausible) or fitting(joined, 1, plausible):
        refuse(refusals.no_marks(amount.figures))
    doubt = _MARKS_DOUBT.format(amount.figures)
    return read._replace(unit_written=amount.unit != "", doubts=(doubt,))
