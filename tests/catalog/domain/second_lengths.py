"""For the second reader: from a number, its unit and its shade to a length in nanometres."""

from __future__ import annotations

import math
from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from tests.catalog.domain.second_numbers import Number

Span = tuple[int, int] | None  # the plausible range in nanometres
MM, INCH = Fraction(1_000_000), Fraction(25_400_000)
SIZE = {"in": INCH, "ft": 12 * INCH, "mm": MM, "cm": 10 * MM, "m": 1000 * MM}
MOST = 100 * 1000 * MM


class Read(NamedTuple):
    """What a text means: nanometres, the smallest mark, the unit, what is assumed."""

    nm: Fraction
    mark: Fraction
    unit: str
    written: bool
    assumed: bool
    extra: float = 0.0


class Refused(Exception):
    """Not read, or not in one way only."""


class Piece(NamedTuple):
    """One number and how it is shaded: 1 up, -1 down, 0 about, None not at all."""

    number: Number
    shade: int | None


def inside(nm: Fraction, span: Span) -> bool:
    return span is not None and span[0] <= nm <= span[1]


def _only(ways: Iterable[Read]) -> Read:
    found = list(ways)
    if len(found) != 1:
        raise Refused
    return found[0]


def _resolve(number: Number, unit: str | None, span: Span) -> Read:
    sort, written = number.sort, number.unit != ""
    known = number.unit or unit
    if sort == "wrong" or (sort == "feet" and number.other < 0):
        raise Refused
    if sort == "bare feet":
        if not inside(number.value * INCH, span) or inside(number.other * INCH, span):
            raise Refused
        return Read(number.value * INCH, number.step * INCH, "in", written, True)
    if sort == "mark" and not written:
        return Read(number.value * INCH, number.step * INCH, "in", False, unit != "in")
    if sort == "half" and not written and unit != "in":
        return _fitting([_sized(number, known, False) for known in ("in", "mm")], span)
    if sort in ("mark", "half") and (known not in ("in", "mm") or _not_half_a_mm(number, known)):
        raise Refused
    if sort == "comma":
        return _comma(number, (known,) if known else ("in", "mm"), written, span)
    if known is None:
        if not number.value:
            return _sized(number, "in", False)
        return _fitting([_sized(number, known, False) for known in ("in", "mm")], span)
    return _sized(number, "in" if sort == "feet" else known, written)


def _not_half_a_mm(number: Number, unit: str) -> bool:
    return unit == "mm" and number.step != Fraction(1, 2)


def _sized(number: Number, unit: str, written: bool) -> Read:
    size = SIZE[unit]
    two_senses = number.sort == "feet" and number.other > 0
    return Read(number.value * size, number.step * size, unit, written, two_senses)


def _fitting(ways: list[Read], span: Span) -> Read:
    return _only(way._replace(assumed=True) for way in ways if inside(way.nm, span))


def _comma(number: Number, units: Iterable[str], written: bool, span: Span) -> Read:
    senses = [(number.value, number.step)]
    if number.other:
        senses.append((number.other, Fraction(1)))
    assumed = len(senses) > 1 or len(list(units)) > 1
    return _only(
        Read(value * SIZE[unit], step * SIZE[unit], unit, written, assumed)
        for unit in units
        for value, step in senses
        if inside(value * SIZE[unit], span)
    )


def shaded(piece: Piece, unit: str | None, span: Span) -> Read:
    read = _resolve(piece.number, unit, span)
    mark = read.mark if read.mark.denominator == 1 else Fraction(0)
    read = read._replace(mark=mark)
    if read.nm.denominator != 1 or not 0 <= read.nm <= MOST:
        raise Refused
    if piece.shade is None:
        return read
    inch = read.unit in ("in", "ft")
    if piece.shade == 0:
        width = max(mark, INCH / 16 if inch else MM)
        return read._replace(assumed=True, extra=float(width) / math.sqrt(3))
    quarter = min(mark, INCH / 8 if inch else MM) / 4
    moved = quarter if quarter.denominator == 1 else Fraction(0)
    nm = read.nm + piece.shade * moved
    if not 0 <= nm <= MOST:
        raise Refused
    return read._replace(nm=nm, assumed=True, extra=float(quarter) / math.sqrt(3))
