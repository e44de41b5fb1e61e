"""Figures on a tape: whole numbers, decimals, fractions, feet and inches, each with its unit.

One pattern reads them all; what people say around the figures is the business of `sayings`.
"""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from catalog.domain import refusals
from catalog.domain.lengths import LONGEST_NM, NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.refusals import refuse

Unit = Literal["in", "mm"]
Plausible = tuple[Length, Length]


class ReadLength(NamedTuple):
    """A text as read. ``unit`` is in, ft, mm, cm or m: as written, or else as assumed (in, mm);
    feet and inches together count as in. ``doubts`` are sentences to show beside the number.

    ``mark`` is the smallest mark that the way of writing implies: 1/8 in for ``58 5/8``, 1 in for
    ``58``, 0.1 mm for ``58.6 mm``; None where it would be finer than a nanometre. ``extra_u_nm``
    is a standard uncertainty in nanometres to add to that of the method: about, shy, two readings.
    """

    length: Length
    unit: str
    unit_written: bool
    doubts: tuple[str, ...] = ()
    mark: Length | None = None
    extra_u_nm: float = 0.0

    @property
    def system(self) -> str:
        """The system it was written in: in or mm."""
        return "in" if self.unit in ("in", "ft") else "mm"

    @property
    def spoken(self) -> str:
        """Read back as said on the phone, in the system it was written in."""
        return self.length.spoken(self.system)


_new = tuple.__new__  # half the price of calling the class, and every reading pays it

UNITS = {"inches": "in", "inch": "in", "in": "in", "feet": "ft", "foot": "ft", "ft": "ft"}
UNITS |= {"mm": "mm", "cm": "cm", "m": "m"}
UNITS |= dict.fromkeys(('"', "″", "”", "''", "′′", "’’"), "in") | dict.fromkeys("'′’", "ft")
NM = {"in": NM_PER_INCH, "ft": 12 * NM_PER_INCH, "mm": NM_PER_MM}
NM |= {"cm": 10 * NM_PER_MM, "m": 1000 * NM_PER_MM}
_TEN = tuple(10**places for places in range(refusals.LONGEST + 1))
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


def _steps(nm: int) -> tuple[Length | None, ...]:
    """What the last decimal place stands for, by number of places."""
    return tuple(None if nm % ten else Length(nm // ten) for ten in _TEN)


_STEPS = {unit: _steps(nm) for unit, nm in NM.items()}
_WHOLE_MARKS = {unit: steps[0] for unit, steps in _STEPS.items()}

# Every part takes what it can and gives nothing back (``*+``), so that reading is one pass.
SHAPE = re.compile(
    r"""(?:[ø⌀][ ]*+)?
    ([0-9]*+)
    (?: [ ]*+ ((?:ft|feet|foot)\.?|['′’]) [ ]*+ (?:-[ ]*+)? (?=[0-9.½¼¾⅛⅜⅝⅞]) ([0-9]*+) )?+
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
        return _either_comma(number, decimals, known, written, plausible)
    doubts: tuple[str, ...] = ()
    if not known:
        known, doubts = which_unit(number, decimals, plausible)
    places = len(decimals)
    nm, rest = divmod(int(digits) * NM[known], _TEN[places])
    if rest:
        refuse(refusals.TOO_FINE)
    return known, nm, _STEPS[known][places], doubts


def _with_feet(feet: str, nm: int) -> int:
    if not feet:
        refuse(refusals.UNKNOWN)
    total = nm + int(feet) * NM["ft"]
    if nm >= NM["ft"]:
        refuse(refusals.many_inches(Length(nm).show("in"), Length(total).show("in")))
    return total


FRACTION_DOUBT = "We read this as inches, because a fraction is an inch mark; is that right?"
UNIT_DOUBT = "No unit is written; we read {}, because {} would not fit here. Is that right?"
_COMMA_DOUBT = "We read the comma so that this is {}, because {} would not fit. Is that right?"
_NAMES = {"in": "inches", "mm": "millimetres"}


def which_unit(
    number: str, decimals: str, plausible: Plausible | None
) -> tuple[str, tuple[str, ...]]:
    """The one unit in which a bare number fits the plausible range, with the doubt that says so."""
    digits, scale = int(number + decimals), _TEN[len(decimals)]
    if not digits:
        return "in", ()
    fits = [unit for unit in _NAMES if fitting(digits * NM[unit], scale, plausible)]
    if len(fits) != 1:
        refuse(refusals.either_unit(f"{number or 0}.{decimals}".rstrip(".")))
    return fits[0], unit_doubt(fits[0])


def unit_doubt(unit: str) -> tuple[str, ...]:
    """The sentence for a unit (in, mm) that was chosen because the other does not fit."""
    return (UNIT_DOUBT.format(_NAMES[unit], _NAMES["mm" if unit == "in" else "in"]),)


def fitting(nm: int, scale: int, plausible: Plausible | None) -> bool:
    """True where nm / scale lies in the range; never without a range."""
    return plausible is not None and plausible[0].nm * scale <= nm <= plausible[1].nm * scale


def _either_comma(
    number: str, decimals: str, unit: str | None, written: str, plausible: Plausible | None
) -> _Read:
    """``1,489``: a decimal comma or one between thousands, as only one of them fits the range."""
    senses = _senses(number)
    fits = [
        (known, scale)
        for known in ((unit,) if unit else _NAMES)
        for scale in senses
        if fitting(int(number + decimals) * NM[known], scale, plausible)
    ]
    if len(fits) != 1:
        refuse(refusals.either_comma(number, decimals, written))
    known, scale = fits[0]
    nm, rest = divmod(int(number + decimals) * NM[known], scale)
    if rest:
        refuse(refusals.TOO_FINE)
    doubts = () if unit else unit_doubt(known)
    if len(senses) > 1:
        texts = (f"{number}{decimals}", f"{number}.{decimals}")
        doubts = (_COMMA_DOUBT.format(*(texts if scale == 1 else reversed(texts))), *doubts)
    return known, nm, _STEPS[known][0 if scale == 1 else 3], doubts


def _senses(number: str) -> tuple[int, ...]:
    """What may divide the digits around a comma: 1000 as decimals, 1 where it parts thousands."""
    return (1, 1000) if len(number) in (1, 2, 3) and number[0] != "0" else (1000,)
