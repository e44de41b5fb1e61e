"""Figures on a tape: whole numbers, decimals, fractions, feet and inches, each with its unit.

One pattern reads them all; what people say around the figures is the business of `sayings`.
"""

from __future__ import annotations

import re

from catalog.domain import refusals
from catalog.domain.by_range import either_comma, which_unit
from catalog.domain.lengths import LONGEST_NM, NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.readings import NM, STEPS, TEN, Plausible, ReadLength
from catalog.domain.refusals import refuse

_new = tuple.__new__  # half the price of calling the class, and every reading pays it

UNITS = {"inches": "in", "inch": "in", "in": "in", "feet": "ft", "foot": "ft", "ft": "ft"}
UNITS |= {"mm": "mm", "cm": "cm", "m": "m"}
UNITS |= dict.fromkeys(('"', "″", "”", "''", "′′", "’’"), "in") | dict.fromkeys("'′’", "ft")
_SIGNS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_BOTTOMS = {str(bottom): Length(NM_PER_INCH // bottom) for bottom in (2, 4, 8, 16, 32, 64)}
# Every mark below an inch, and the smallest mark of a tape on which it is written so.
_FRACTIONS = {
    f"{top}/{bottom}": (top * mark.nm, mark)
    for bottom, mark in _BOTTOMS.items()
    for top in range(1, int(bottom))
}
_UNDER_A_FOOT = (Length(0), Length(12 * NM_PER_INCH))
_HALF_MM = Length(NM_PER_MM // 2)


_WHOLE_MARKS = {unit: steps[0] for unit, steps in STEPS.items()}

# Every part takes what it can and gives nothing back (``*+``), so that reading is one pass.
SHAPE = re.compile(
    r"""(?:[ø⌀][ ]*+)?
    ([0-9]*+)
    (?: [ ]*+ ((?:ft|feet|foot)\.?|['′’]) [ ]*+ (?:-[ ]*+)? (?=[.]?[0-9]|[½¼¾⅛⅜⅝⅞]) ([0-9]*+) )?+
    (?: (?<=[0-9]) [ ]*+ -? [ ]*+ ( [0-9]++ [ ]? [/⁄] [ ]? [0-9]++ )
      | ([.,]) ([0-9]*+)
      | (?<=[0-9]) [ ]? [/⁄] [ ]? ([0-9]++)
      | (?: (?<=[0-9]) [ ]*+ -? [ ]*+ )?+ ([½¼¾⅛⅜⅝⅞]) )?
    [ ]*+ (in(?:ch(?:es)?+)?+|["″”]|''|′′|’’|mm|cm|m|ft|feet|foot|['′’])?+ \.?""",
    re.VERBOSE,
)


_PLAIN = re.compile(r"([0-9]++)(?: ([0-9]++/[0-9]++))?+")


def read_plainest(text: str, unit: str | None) -> ReadLength | None:
    """``58`` and ``58 5/8`` off the tape they belong to, as most are; None for anything else.

    `read_figures` reads the same; this costs half of it.
    """
    found = _PLAIN.fullmatch(text)
    if found is None or unit is None:
        return None
    whole, part = found.groups()
    if part is None:
        nm, mark = int(whole) * NM[unit], _WHOLE_MARKS[unit]
    elif unit == "in" and part in _FRACTIONS:
        nm, mark = _FRACTIONS[part]
        nm += int(whole) * NM_PER_INCH
    else:
        return None
    if nm > LONGEST_NM:
        return None
    return _new(ReadLength, (Length(nm), unit, False, (), mark, 0.0))


def read_figures(found: re.Match[str], unit: str | None, plausible: Plausible | None) -> ReadLength:
    """The length of a text that `SHAPE` matched; LengthError where it means none, or several.

    ``unit`` is for a number written without one, ``plausible`` decides where it is None.
    """
    number, foot, inches, part, point, decimals, under, sign, word = found.groups("")
    written = UNITS[word] if word else ""
    if foot:
        if written not in ("", "in"):
            refuse(refusals.TWO_UNITS)
        feet, number, written, plausible = number, inches, "in", _UNDER_A_FOOT
    if part:
        known, nm, mark, doubts = _fraction(number, part, written, unit)
    elif under:
        known, nm, mark, doubts = _fraction("", f"{number}/{under}", written, unit)
    elif sign:
        known, nm, mark, doubts = _fraction(number, _SIGNS[sign], written, unit)
    elif number and not point and (known := written or unit or ""):
        nm, mark, doubts = int(number) * NM[known], _WHOLE_MARKS[known], ()
    else:
        known, nm, mark, doubts = _decimal(number, point, decimals, written, unit, plausible)
    if foot:
        nm = _with_feet(feet, nm)
    if nm > LONGEST_NM:
        refuse(refusals.TOO_FAR)
    return _new(ReadLength, (Length(nm), known, written != "", doubts, mark, 0.0))


_Read = tuple[str, int, Length | None, tuple[str, ...]]


def _fraction(whole: str, part: str, written: str, unit: str | None) -> _Read:
    nm, mark = _FRACTIONS.get(part) or _odd_fraction(whole, part)
    if not written or written == "in":
        if whole:
            nm += int(whole) * NM_PER_INCH
        return "in", nm, mark, () if written or unit == "in" else (FRACTION_DOUBT,)
    if written != "mm" or mark is not _BOTTOMS["2"]:
        refuse(refusals.fraction_of(written, whole, *_top_and_bottom(part)))
    return "mm", int(whole or 0) * NM_PER_MM + _HALF_MM.nm, _HALF_MM, ()


def _odd_fraction(whole: str, part: str) -> tuple[int, Length]:
    """One with spaces or its own slash; LengthError for what is no mark of a tape."""
    top, bottom = _top_and_bottom(part)
    known = _FRACTIONS.get(f"{top}/{bottom}")
    if known is None:
        refuse(refusals.bad_fraction(whole, str(top), str(bottom)))
    return known


def _top_and_bottom(part: str) -> tuple[int, int]:
    top, bottom = part.replace("⁄", "/").split("/")
    return int(top), int(bottom)


def _decimal(
    number: str,
    point: str,
    decimals: str,
    written: str,
    unit: str | None,
    plausible: Plausible | None,
) -> _Read:
    known = written or unit
    digits = number + decimals
    if not digits or (point == "," and not decimals):
        refuse(refusals.UNKNOWN)
    if point == "," and len(decimals) == 3:
        return either_comma(number, decimals, known, written, plausible)
    doubts: tuple[str, ...] = ()
    if not known:
        known, doubts = which_unit(number, decimals, plausible)
    places = len(decimals)
    nm, rest = divmod(int(digits) * NM[known], TEN[places])
    if rest:
        refuse(refusals.TOO_FINE)
    return known, nm, STEPS[known][places], doubts


def _with_feet(feet: str, nm: int) -> int:
    if not feet:
        refuse(refusals.UNKNOWN)
    total = nm + int(feet) * NM["ft"]
    if nm >= NM["ft"]:
        refuse(refusals.many_inches(Length(nm).show("in"), Length(total).show("in")))
    return total


FRACTION_DOUBT = "We read this as inches, because a fraction is an inch mark; is that right?"
