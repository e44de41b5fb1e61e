"""A second reader of lengths, written for tests: slow, plain, and sharing no code with the first.

It tries every way to read the characters from left to right, in exact fractions, and answers only
where all of them agree. Whatever the first reader accepts, this one must read the same.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from tests.catalog.domain.second_characters import plain as plain_of
from tests.catalog.domain.second_lengths import INCH, Piece, Read, Refused, Span, inside, shaded
from tests.catalog.domain.second_numbers import UNITS, apart
from tests.catalog.domain.second_page import lengths_of

__all__ = ["Read", "Refused", "second_read"]

_LITTLE = r"(?:slightly|just|bit|a (?:bit|little|touch|hair|tad))"
_UP, _DOWN = "strong|full|heavy", "shy|bare|light|scant"
_ABOUT = "about|around|roughly|approximately|approx|circa|ca|c"
_BEFORE = [
    (1, rf"(?:{_LITTLE} |a )?(?:{_UP})(?: of)?"),
    (-1, rf"(?:{_LITTLE} |a )?(?:{_DOWN})(?: of)?"),
    (1, rf"{_LITTLE} over(?: of)?"),
    (-1, rf"{_LITTLE} under(?: of)?"),
    (-1, "nearly|almost"),
    (0, _ABOUT),
]
_AFTER = [
    (1, rf"(?:{_LITTLE} ?)?(?:{_UP})"),
    (-1, rf"(?:{_LITTLE} ?)?(?:{_DOWN})"),
    (1, rf"{_LITTLE} over|and a bit"),
    (-1, rf"{_LITTLE} under"),
    (0, "about|roughly|approximately|approx|(?:- ?)?ish|or so|give or take"),
]


def _piece(text: str) -> Piece:
    ways = {Piece(number, None) for number in lengths_of(text)}
    for sign, phrase in _BEFORE:
        if found := re.match(rf"({phrase})(?![a-z])(.*)$", text):
            ways |= {Piece(number, sign) for number in lengths_of(found[2].strip())}
    if text[:1] in ("~", "≈"):
        ways |= {Piece(number, 0) for number in lengths_of(text[1:].strip())}
    for sign, phrase in _AFTER:
        if found := re.fullmatch(rf"(.*?) ?,? ?(?<![a-z])({phrase})", text):
            ways |= {Piece(number, sign) for number in lengths_of(found[1].strip())}
    if len(ways) != 1:
        raise Refused(text)
    return ways.pop()


# -- Several numbers ----------------------------------------------------------------------------


def _all(
    pieces: list[Piece], unit: str | None, span: Span, fits: Callable[..., bool]
) -> list[Read]:
    units = {piece.number.unit for piece in pieces} - {""}
    bare = [piece for piece in pieces if not piece.number.unit]
    inch, metric = units & {"in", "ft"}, units - {"in", "ft"}
    if (inch and metric) or (bare and (len(units) > 1 or "ft" in units)):
        raise Refused
    if units:
        shared = min(units)
        if metric and any(piece.number.sort == "bare feet" for piece in bare):
            raise Refused
        pieces = [
            piece
            if piece.number.unit
            else piece._replace(number=piece.number._replace(unit=shared))
            for piece in pieces
        ]
        return [shaded(piece, None, span) for piece in pieces]
    if any(piece.number.sort in ("mark", "bare feet") for piece in pieces):
        return [shaded(piece, "in", span) for piece in pieces]
    if unit:
        return [shaded(piece, unit, span) for piece in pieces]
    ways = []
    for known in ("in", "mm"):
        try:
            reads = [shaded(piece, known, span) for piece in pieces]
        except Refused:
            continue
        if fits(reads):
            ways.append(reads)
    if len(ways) != 1:
        raise Refused
    return ways[0]


def _joined(reads: list[Read], nm: Fraction, mark: Fraction, extra: float) -> Read:
    units = {read.unit for read in reads}
    unit = units.pop() if len(units) == 1 else "in" if units <= {"in", "ft"} else "mm"
    return Read(nm, mark, unit, any(read.written for read in reads), True, extra)


def _mean(pieces: list[Piece], unit: str | None, span: Span) -> Read:
    if len(pieces) > 5:
        raise Refused
    reads = _all(pieces, unit, span, lambda found: all(inside(one.nm, span) for one in found))
    lengths = [read.nm for read in reads]
    mean, spread = sum(lengths, Fraction(0)) / len(lengths), max(lengths) - min(lengths)
    if spread > INCH / 2 or spread * 4 > mean:
        raise Refused
    extra = math.hypot(max(read.extra for read in reads), float(spread) / 2 / math.sqrt(len(reads)))
    marks = [read.mark for read in reads if read.mark]
    rounded = Fraction(math.floor(mean + Fraction(1, 2)))
    return _joined(reads, rounded, min(marks, default=Fraction(0)), extra)


def _difference(start: Piece, end: Piece, unit: str | None, span: Span) -> Read:
    if start.shade is not None:
        raise Refused
    first, last = _all(
        [start, end], unit, None, lambda found: inside(found[1].nm - found[0].nm, span)
    )
    near = last.nm < first.nm * Fraction(5, 4)
    both = span is None or (inside(first.nm, span) and inside(last.nm, span))
    if last.nm <= first.nm or (near and both):
        raise Refused
    return _joined([first, last], last.nm - first.nm, last.mark, last.extra)


def second_read(text: str, unit: str | None, span: Span) -> Read:
    """The one meaning of a text; raises Refused where there is none, or more than one."""
    plain = plain_of(text)
    if plain.endswith(".") and not plain.endswith(".."):
        plain = plain[:-1]
    plain = re.sub(r"(?<=[a-z])\.(?!\.)", " ", plain)
    plain = re.sub(r"(/ ?[0-9]+(?:ths?+|nds?+))(?=[a-z])", r"\1 ", plain)
    plain = apart(re.sub(" +", " ", plain).strip())
    if found := re.search(r"(?<![a-z])to(?![a-z])|->", plain):
        start = re.sub(r"^from(?![a-z]) ?", "", plain[: found.start()])
        pair = [_piece(part.strip()) for part in (start, plain[found.end() :])]
        return _difference(pair[0], pair[1], unit, span)
    parts = _parts_of(plain)
    if len(parts) == 1:
        return shaded(_piece(parts[0]), unit, span)
    if len(parts) == 2 and "," in plain and _one_number(parts):
        raise Refused
    return _mean([_piece(part) for part in parts], unit, span)


def _one_number(parts: list[str]) -> bool:
    """``44, 44``: also one number with a gap after its comma."""
    bare = "|".join(phrase for _sign, phrase in (*_BEFORE, *_AFTER))
    shade = rf"^(?:{bare}|[~≈]) ?|,? ?(?:{bare})$"
    first, second = (re.sub(shade, "", part).removeprefix("ø").strip() for part in parts)
    units = "|".join(map(re.escape, UNITS))
    return bool(
        re.fullmatch("[0-9]+", first) and re.fullmatch(f"[0-9]{{1,2}} ?(?:{units})?", second)
    )


_SUFFIX = re.compile(" ?(?:" + "|".join(phrase for _sign, phrase in _AFTER) + ")")


def _parts_of(plain: str) -> list[str]:
    """The readings between semicolons, "or" and the commas that are not inside a number."""
    parts, begun = [], 0
    for found in re.finditer(r";|(?<![a-z])or(?![a-z])(?! ?(?:so|take)(?![a-z]))|,", plain):
        before, after = plain[begun : found.start()], plain[found.end() :]
        if found[0] == "," and (_in_a_number(before, after) or _SUFFIX.fullmatch(after)):
            continue
        parts.append(before.strip())
        begun = found.end()
    return [*parts, plain[begun:].strip()]


def _in_a_number(before: str, after: str) -> bool:
    if not re.match("[0-9]", after):
        return False
    if re.search(r"/ ?[0-9]+$", before):
        return False
    alone = "|".join(phrase for _sign, phrase in _BEFORE)
    shaded_only = re.fullmatch(f"(?:(?:{alone}|[~≈]) ?)?ø?", before.strip())
    return bool(re.search(r"[0-9]$", before) or shaded_only)
