"""Several numbers that are one length: read more than once, or from a mark on the tape.

Each is read with a sentence that says so, and with the uncertainty it brings; or refused.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from catalog.domain import refusals, shades
from catalog.domain.by_range import fitting
from catalog.domain.figures import FRACTION_DOUBT
from catalog.domain.lengths import LONGEST_NM, NM_PER_INCH, Length
from catalog.domain.readings import Plausible, ReadLength
from catalog.domain.refusals import refuse
from catalog.domain.sayings import (
    Fits,
    Said,
    all_in,
    read_one,
    said_of,
    the_one_that_fits,
    with_unit,
)
from catalog.domain.words import UNITS

MOST_READINGS = 5
# Readings of one thing lie this near, and within a quarter of their mean; common practice, no
# source. A slip of a whole inch stays outside.
NEAR_NM = NM_PER_INCH // 2


def _each(
    text: str, said: Sequence[Said], unit: str | None, plausible: Plausible | None, fits: Fits
) -> list[ReadLength]:
    """Several numbers off one tape: what one of them says of the unit holds for all."""
    written = _unit_of_all(said)
    if written:
        said = [one._replace(amount=with_unit(one.amount, written)) for one in said]
    elif any(one.amount.fraction and not one.amount.half for one in said):
        return _on_inches(said, unit, plausible)
    elif unit is None:
        return the_one_that_fits(
            text, lambda known: [read_one(one, known, plausible) for one in said], fits
        )
    return [read_one(one, unit, plausible) for one in said]


def _unit_of_all(said: Sequence[Said]) -> str:
    """The unit written with one number or with all of them; empty where none is."""
    written = {one.amount.unit for one in said} - {""}
    bare = [one.amount for one in said if not one.amount.unit]
    if written & _INCHES and written - _INCHES:
        refuse(refusals.TWO_UNITS)
    if bare and written and (len(written) > 1 or "ft" in written):
        refuse(refusals.UNIT_WITH_EACH)
    if written - _INCHES and any(amount.guessed for amount in bare):
        refuse(refusals.TWO_UNITS)
    return min(written, default="")


_INCHES = {"in", "ft"}


def _on_inches(
    said: Sequence[Said], unit: str | None, plausible: Plausible | None
) -> list[ReadLength]:
    """One fraction makes them all inches; on another tape with a doubt."""
    first, *others = (read_one(one, "in", plausible) for one in said)
    if unit != "in":
        first = first._replace(doubts=(FRACTION_DOUBT, *first.doubts))
    return [first, *others]


def _together(reads: Sequence[ReadLength], nm: int, doubt: str, extra_u_nm: float) -> ReadLength:
    if nm > LONGEST_NM:
        refuse(refusals.TOO_FAR)
    units = {read.unit for read in reads}
    family = "in" if units <= _INCHES else "mm"
    doubts = dict.fromkeys(said for read in reads for said in read.doubts)
    return ReadLength(
        Length(nm),
        units.pop() if len(units) == 1 else family,
        any(read.unit_written for read in reads),
        (*doubts, doubt),
        min((read.mark for read in reads if read.mark), default=None),
        extra_u_nm,
    )


STARTED = "We took the mark at the start"
_START_DOUBT = STARTED + ", {}, off {} and read {}; is that right?"


def read_from_a_mark(
    text: str, tokens: list[str], unit: str | None, plausible: Plausible | None
) -> ReadLength:
    """``10 to 68 5/8``: the tape started at a mark, which is taken off."""
    at = next(at for at, word in enumerate(tokens) if word in ("to", "->"))
    first = tokens[1:at] if tokens[0] == "from" else tokens[:at]
    said = [said_of(text, first), said_of(text, tokens[at + 1 :])]
    if said[0].shade.words:
        refuse(refusals.why_unreadable(text))

    def fits(reads: Sequence[ReadLength]) -> bool:
        return fitting(reads[1].length.nm - reads[0].length.nm, 1, plausible)

    start, end = _each(text, said, unit, None, fits)
    nm = end.length.nm - start.length.nm
    shown = [Length(length).show(end.system) for length in (nm, start.length.nm, end.length.nm)]
    if nm <= 0:
        refuse(refusals.before_the_start(*shown[1:]))
    if end.length.nm * 4 < start.length.nm * 5 and _could_both_be(start, end, plausible):
        refuse(refusals.mark_or_two(*shown))
    doubt = _START_DOUBT.format(shown[1], shown[2], shown[0])
    return _together((start, end), nm, doubt, end.extra_u_nm)._replace(mark=end.mark)


def _could_both_be(start: ReadLength, end: ReadLength, plausible: Plausible | None) -> bool:
    return plausible is None or all_in(plausible)((start, end))


_MEAN_DOUBT = "We took the mean of {} readings, which lie {} apart; is that right?"


def read_repeated(
    text: str,
    tokens: list[str],
    pieces: list[list[str]],
    unit: str | None,
    plausible: Plausible | None,
) -> ReadLength:
    """``58 5/8, 58 9/16``: one length read more than once; their mean, as sure as they agree.

    Half the spread over the root of their number is the extra standard uncertainty.
    """
    many = len(pieces)
    if many > MOST_READINGS:
        refuse(refusals.MANY)
    if many == 2 and "," in tokens:
        _one_number_or_two(pieces)
    said = [said_of(text, piece) for piece in pieces]
    reads = _each(text, said, unit, plausible, all_in(plausible))
    total = sum(read.length.nm for read in reads)
    least, most = (end(read.length for read in reads) for end in (min, max))
    spread = most - least
    if spread.nm > NEAR_NM or spread.nm * 4 * many > total:
        refuse(refusals.far_apart(tuple(one.amount.figures for one in said)))
    known = max(read.extra_u_nm for read in reads)
    extra = math.hypot(known, spread.nm / 2 / math.sqrt(many))
    doubt = _MEAN_DOUBT.format(many, spread.show(reads[0].system))
    return _together(reads, (2 * total + many) // (2 * many), doubt, extra)


def _one_number_or_two(pieces: list[list[str]]) -> None:
    """``44, 44``: the space after a decimal comma may be a slip of the thumb."""
    (whole, *more), (decimals, *rest) = (shades.apart(piece)[0] or [""] for piece in pieces)
    if more or not (whole.isdigit() and decimals.isdigit() and len(decimals) <= 2):
        return
    if not rest or (len(rest) == 1 and rest[0] in UNITS):
        refuse(refusals.comma_or_two(whole, decimals, " ".join(rest)))


def readings_apart(tokens: list[str]) -> list[list[str]]:
    """Split between readings; a comma before "shy" and the "or" of "or so" part nothing."""
    pieces: list[list[str]] = [[]]
    for at, word in enumerate(tokens):
        after = tuple(tokens[at + 1 :])
        by_or = word == "or" and after[:1] not in (("so",), ("take",))
        by_comma = word == "," and after not in shades.AFTER
        if word == ";" or by_or or by_comma:
            pieces.append([])
        else:
            pieces[-1].append(word)
    return pieces
