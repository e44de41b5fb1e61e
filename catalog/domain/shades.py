"""Words that shade a number: strong, shy, about. Which part of a mark they mean, and how surely.

The figures are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from catalog.domain import refusals
from catalog.domain.lengths import LONGEST_NM, NM_PER_64TH, NM_PER_INCH, NM_PER_MM, Length
from catalog.domain.readings import ReadLength
from catalog.domain.refusals import refuse

SHADED_PARTS = 4  # strong and shy are a quarter of the smallest mark
# Who says "58 strong" saw finer marks than inches: the mark is at most an eighth, or a millimetre.
COARSEST_SHADED = {"in": Length(8 * NM_PER_64TH), "mm": Length(NM_PER_MM)}
# "About" is true to a mark either way, and to no less than a sixteenth or a millimetre.
FINEST_ABOUT = {"in": Length(4 * NM_PER_64TH), "mm": Length(NM_PER_MM)}
_SQRT3 = math.sqrt(3)  # a rectangular half-width over the root of three (JCGM 100)


class Shade(NamedTuple):
    """What was said and which way it moves the number: 1 up, -1 down, 0 neither way."""

    words: str
    sign: int


_NONE = Shade("", 0)
_LITTLE = [(), ("slightly",), ("just",), ("bit",)]
_LITTLE += [("a", word) for word in ("bit", "little", "touch", "hair", "tad")]
_SIGNS = dict.fromkeys(("strong", "full", "heavy"), 1)
_SIGNS |= dict.fromkeys(("shy", "bare", "light", "scant"), -1)
_PHRASES = {(*little, word): sign for little in _LITTLE for word, sign in _SIGNS.items()}
_PHRASES |= {
    (*little, word): sign for little in _LITTLE[1:] for word, sign in (("over", 1), ("under", -1))
}
_ABOUT = ("about", "around", "roughly", "approx", "approximately", "circa", "ca", "c", "~", "≈")
_ABOUT_AFTER = ("about", "roughly", "approx", "approximately", "ish", "or so", "- ish")
BEFORE = {(*phrase, *of): sign for phrase, sign in _PHRASES.items() for of in ((), ("of",))}
BEFORE |= {("a", word): sign for word, sign in _SIGNS.items()} | {("nearly",): -1, ("almost",): -1}
BEFORE |= {(word,): 0 for word in _ABOUT}
AFTER = _PHRASES | {tuple(words.split()): 0 for words in (*_ABOUT_AFTER, "give or take")}
AFTER |= {("and", "a", "bit"): 1}


def apart(tokens: list[str]) -> tuple[list[str], Shade]:
    """The number's own tokens, and the shade that stood before or after them."""
    for length in range(4, 0, -1):
        before, after = tuple(tokens[:length]), tuple(tokens[-length:])
        if before in BEFORE:
            return _own(tokens[length:]), Shade(" ".join(before), BEFORE[before])
        if after in AFTER:
            kept = tokens[:-length]
            kept = kept[: len(kept) - (kept[-1:] == [","])]
            return _own(kept), Shade(" ".join(after), AFTER[after])
    return _own(tokens), _NONE


def _own(tokens: list[str]) -> list[str]:
    """Without the sign of a diameter."""
    return tokens[1:] if tokens[:1] == ["ø"] else tokens


def one_word(text: str) -> Iterator[tuple[Shade, str]]:
    """The text without its first or last word, where that one is a shade by itself."""
    first, _gap, rest = text.partition(" ")
    if (sign := BEFORE.get((first,))) is not None:
        yield Shade(first, sign), rest
    rest, _gap, last = text.rpartition(" ")
    if (sign := AFTER.get((last,))) is not None:
        yield Shade(last, sign), rest.removesuffix(",")


_ABOUT_DOUBT = "You said “{}”, so we count this number as less sure."
_SHADE_DOUBT = "We read “{}” as {} {} than the mark; is that right?"
_FINE_DOUBT = "“{}” is less than a tape can show here; we kept the mark and count it as less sure."


def applied(shade: Shade, read: ReadLength) -> ReadLength:
    """A reading with its shade: the length moved, its uncertainty widened, and a doubt."""
    if not shade.words:
        return read
    system = read.system
    if not shade.sign:
        half = max(read.mark or Length(0), FINEST_ABOUT[system])
        return _said(read, half.nm, _ABOUT_DOUBT.format(shade.words))
    mark = min(read.mark or Length(0), COARSEST_SHADED[system])
    part, rest = divmod(mark.nm, SHADED_PARTS)
    if rest or not part:
        return _said(read, mark.nm / SHADED_PARTS, _FINE_DOUBT.format(shade.words))
    more = "more" if shade.sign > 0 else "less"
    doubt = _SHADE_DOUBT.format(shade.words, _shown(part, system), more)
    return _said(read, part, doubt, shade.sign * part)


def _said(read: ReadLength, half_width_nm: float, doubt: str, moved_nm: int = 0) -> ReadLength:
    length = read.length.nm + moved_nm
    if length < 0:
        refuse(refusals.below_nothing(read.length.show(read.system)))
    if length > LONGEST_NM:
        refuse(refusals.TOO_FAR)
    extra = math.hypot(read.extra_u_nm, half_width_nm / _SQRT3)
    doubts = (*read.doubts, doubt)
    return ReadLength(Length(length), read.unit, read.unit_written, doubts, read.mark, extra)


@lru_cache(maxsize=64)
def _shown(nm: int, system: str) -> str:
    """A part of a mark: as a mark of the tape where it is one, else in decimals, exactly."""
    if system == "in" and nm % NM_PER_64TH == 0:
        return Length(nm).show(system)
    size = NM_PER_INCH if system == "in" else NM_PER_MM
    return f"{Decimal(nm) / size:f} {system}"
