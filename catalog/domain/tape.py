"""The tape language: what people write as a length, read exactly or refused kindly."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, NamedTuple, NoReturn

from catalog.domain import refusals
from catalog.domain.lengths import LONGEST_NM, NM_PER_64TH, NM_PER_INCH, NM_PER_MM, Length


class LengthError(ValueError):
    """A text that is not read: one kind sentence, texts to try, and whether it is "not yet"."""

    def __init__(
        self, message: str, suggestions: tuple[str, ...] = (), not_yet: bool = False
    ) -> None:
        super().__init__(message)
        self.message = message
        self.suggestions = suggestions
        self.not_yet = not_yet


class ReadLength(NamedTuple):
    """A text as read. ``unit`` is in, ft, mm, cm or m: as written, or else as assumed (in, mm);
    feet and inches together count as in. ``doubts`` are sentences to show beside the number.
    """

    length: Length
    unit: str
    unit_written: bool
    doubts: tuple[str, ...] = ()

    @property
    def spoken(self) -> str:
        """Read back as said on the phone, in the system it was written in."""
        return self.length.spoken("in" if self.unit in ("in", "ft") else "mm")


Unit = Literal["in", "mm"]
Plausible = tuple[Length, Length]

_UNITS = {"inches": "in", "inch": "in", "in": "in", "feet": "ft", "foot": "ft", "ft": "ft"}
_UNITS |= {"mm": "mm", "cm": "cm", "m": "m"}
_UNITS |= dict.fromkeys(('"', "″", "”", "''", "′′", "’’"), "in") | dict.fromkeys("'′’", "ft")
_NM = {"in": NM_PER_INCH, "ft": 12 * NM_PER_INCH, "mm": NM_PER_MM}
_NM |= {"cm": 10 * NM_PER_MM, "m": 1000 * NM_PER_MM}
_TEN = tuple(10**places for places in range(refusals.LONGEST + 1))
_MARKS = {"½": ("1", "2"), "¼": ("1", "4"), "¾": ("3", "4")}
_MARKS |= {sign: (top, "8") for sign, top in zip("⅛⅜⅝⅞", "1357", strict=True)}
_64THS = {str(bottom): 64 // bottom for bottom in (2, 4, 8, 16, 32, 64)}

# Every part takes what it can and gives nothing back (``*+``), so that reading is one pass.
_SHAPE = re.compile(
    r"""(?:[ø⌀][ ]*+)?
    ([0-9]*+)
    (?: [ ]*+ (ft\.?|feet|foot|['′’]) [ ]*+ (?:-[ ]*+)? (?=[0-9.½¼¾⅛⅜⅝⅞]) ([0-9]*+) )?+
    (?: (?<=[0-9]) [ ]*+ -? [ ]*+ ([0-9]++) [ ]? [/⁄] [ ]? ([0-9]++)
      | ([.,]) ([0-9]*+)
      | [ ]? [/⁄] [ ]? ([0-9]++)
      | (?: (?<=[0-9]) [ ]*+ -? [ ]*+ )?+ ([½¼¾⅛⅜⅝⅞]) )?
    [ ]*+ (in(?:ch(?:es)?+)?+|["″”]|''|′′|’’|mm|cm|m|ft|feet|foot|['′’])?+ \.?""",
    re.VERBOSE,
)


def read_length(
    text: str, unit: Unit | None = "in", plausible: Plausible | None = None
) -> ReadLength:
    """Read one length as people write it.

    ``unit`` is the tape's, for numbers written without one; None means it is not known: then the
    ``plausible`` range (lowest, highest) decides where it can, aloud. Nothing is guessed
    silently: what is not surely read raises LengthError. From 0 to 100 m, exact to 1 nm.

    >>> read_length("58 5/8").length.mm_text
    '1489.075000'
    >>> read_length("148,9 cm").spoken
    'one thousand four hundred and eighty-nine millimetres'
    """
    if len(text) > refusals.LONGEST:
        raise LengthError(*refusals.TOO_LONG)
    try:
        return _read(text, unit, plausible)
    except LengthError as error:
        error.suggestions = _readable(error.suggestions)
        raise


def _readable(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(filter(_is_read, texts))) or refusals.EXAMPLES


def _is_read(text: str) -> bool:
    try:
        return bool(_read(text, "in", None))
    except LengthError:
        return False


def _refuse(refusal: refusals.Refusal) -> NoReturn:
    raise LengthError(*refusal)


@lru_cache(maxsize=4096)
def _read(text: str, unit: Unit | None, plausible: Plausible | None) -> ReadLength:
    match = _SHAPE.fullmatch(text.strip(" \t\r\n").lower())
    if match is None:
        _refuse(refusals.why_unreadable(text))
    feet, mark, number, top, bottom, point, decimals, under, sign, word = match.groups("")
    written = _UNITS[word] if word else ""
    if not mark:
        feet, number = "", feet
    elif written not in ("", "in"):
        _refuse(refusals.TWO_UNITS)
    else:
        written = "in"
    if under:
        number, top, bottom = "", number, under
    elif sign:
        top, bottom = _MARKS[sign]
    if top:
        known, nm, doubts = _fraction(number, top, bottom, written, unit)
    else:
        known, nm, doubts = _decimal(number, point, decimals, written, unit, plausible)
    if mark:
        nm = _with_feet(feet, nm)
    if nm > LONGEST_NM:
        _refuse(refusals.TOO_FAR)
    return ReadLength(Length(nm), known, bool(written), doubts)


_Read = tuple[str, int, tuple[str, ...]]


def _fraction(whole: str, top: str, bottom: str, written: str, unit: Unit | None) -> _Read:
    marks = int(top) * _64THS.get(bottom, 0)
    if not 0 < marks < 64:
        _refuse(refusals.bad_fraction(whole, top, bottom))
    number = int(whole or 0)
    if written in ("", "in"):
        doubts = () if written or unit == "in" else (_FRACTION_DOUBT,)
        return "in", number * NM_PER_INCH + marks * NM_PER_64TH, doubts
    if written != "mm" or bottom != "2":
        _refuse(refusals.fraction_of(written, whole, int(top), int(bottom)))
    return "mm", number * NM_PER_MM + NM_PER_MM // 2, ()


def _decimal(
    number: str,
    point: str,
    decimals: str,
    written: str,
    unit: Unit | None,
    plausible: Plausible | None,
) -> _Read:
    digits = number + decimals
    if not digits or (point == "," and not decimals):
        _refuse(refusals.UNKNOWN)
    if point == "," and len(decimals) == 3:
        _refuse(refusals.either_comma(number, decimals, written))
    doubts: tuple[str, ...] = ()
    known = written or unit
    if known is None:
        known, doubts = _which_unit(number, decimals, plausible)
    nm, rest = divmod(int(digits) * _NM[known], _TEN[len(decimals)])
    if rest:
        _refuse(refusals.TOO_FINE)
    return known, nm, doubts


def _with_feet(feet: str, nm: int) -> int:
    if not feet:
        _refuse(refusals.UNKNOWN)
    total = nm + int(feet) * _NM["ft"]
    if nm >= _NM["ft"]:
        _refuse(refusals.many_inches(Length(nm).show("in"), Length(total).show("in")))
    return total


_FRACTION_DOUBT = "We read this as inches, because a fraction is an inch mark; is that right?"
_UNIT_DOUBT = "No unit is written; we read {}, because {} would not fit here. Is that right?"


def _which_unit(
    number: str, decimals: str, plausible: Plausible | None
) -> tuple[str, tuple[str, ...]]:
    """The one unit in which a bare number fits the plausible range, with the doubt that says so."""
    digits, scale = int(number + decimals), _TEN[len(decimals)]
    if not digits:
        return "in", ()
    low, high = (end.nm * scale for end in plausible or (Length(0), Length(-1)))
    fits = [unit for unit in ("in", "mm") if low <= digits * _NM[unit] <= high]
    if len(fits) != 1:
        _refuse(refusals.either_unit(f"{number or 0}.{decimals}".rstrip(".")))
    names = ("inches", "millimetres") if fits == ["in"] else ("millimetres", "inches")
    return fits[0], (_UNIT_DOUBT.format(*names),)
