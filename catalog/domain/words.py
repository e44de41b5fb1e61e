"""One length among the words of a text, written anew in figures for `figures` to read.

``fifty-eight and five eighths inches`` and ``58 in plus 10 16ths`` become ``58 5/8 in`` and
``58 10/16 in``. Where words can be grouped in two ways, both are kept for the caller to refuse.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from catalog.domain import spoken
from catalog.domain.numerals import (
    BOTTOMS,
    DIGIT_WORDS,
    JOINTS,
    Fraction,
    Tokens,
    fractions,
    wholes,
)

UNITS = {"in": "in", "ins": "in", "inch": "in", "inches": "in", '"': "in"}
UNITS |= {"ft": "ft", "foot": "ft", "feet": "ft", "'": "ft", "mm": "mm", "cm": "cm", "m": "m"}
UNITS |= {f"met{end}": "m" for end in ("re", "res", "er", "ers")}
UNITS |= {f"centimet{end}": "cm" for end in ("re", "res", "er", "ers")}
UNITS |= {f"millimet{end}": "mm" for end in ("re", "res", "er", "ers")}


class Amount(NamedTuple):
    """One length in figures; ``unit`` as written or empty; ``fraction`` where it has one.

    ``half``: the fraction is a half said in words. ``guessed``: feet and inches without marks.
    """

    figures: str
    unit: str = ""
    fraction: bool = False
    half: bool = False
    guessed: bool = False


Found = Iterator[tuple[Amount, int]]


def mixed_number(text: str) -> str | None:
    """``58 and a half``, ``fifty-eight and five eighths`` in figures; None for anything else.

    >>> mixed_number("fifty-eight and five eighths")
    '58 5/8'
    """
    whole, _and, part = text.partition(" and ")
    figures = whole if whole.isdigit() else _WHOLES.get(whole)
    return f"{figures} {_PARTS[part]}" if figures and part in _PARTS else None


_WHOLES = {spoken.whole(number): str(number) for number in range(100)}
_PARTS = {
    f"{count} {name}{'' if top == 1 else 's'}".replace("halfs", "halves"): f"{top}/{bottom}"
    for name, bottom in (("half", 2), ("quarter", 4), ("eighth", 8), ("sixteenth", 16))
    for top in range(1, bottom)
    for count in (("a", "one", "1") if top == 1 else (spoken.whole(top), str(top)))
}


def amounts(tokens: Tokens) -> list[Amount]:
    """Every way to read all the tokens as one length; none where they are not one."""
    ended = [*tokens, "", "", ""]
    ways = [*_plain(ended), *_special(ended)]
    if not _FEET.isdisjoint(tokens):
        ways += _with_feet(ended)
    if not _INCHES.isdisjoint(tokens):
        ways += _unit_between(ended)
    return list(dict.fromkeys([amount for amount, end in ways if end == len(tokens)]))


_FEET = frozenset(word for word, unit in UNITS.items() if unit == "ft")
_INCHES = frozenset(word for word, unit in UNITS.items() if unit == "in")


def _plain(tokens: Tokens) -> Found:
    """A number with its unit or without."""
    for number, end in _numbers(tokens, 0):
        yield number, end
        yield from _with_unit(tokens, end, number)


def _with_unit(tokens: Tokens, at: int, number: Amount) -> Found:
    """``in``; after a fraction also ``of an inch``."""
    if number.fraction:
        at += tokens[at] == "of"
        at += tokens[at] in ("a", "an")
    if unit := UNITS.get(tokens[at]):
        yield number._replace(figures=f"{number.figures} {unit}", unit=unit), at + 1


def _with_feet(tokens: Tokens) -> Found:
    """``4 ft 10 5/8 in``; "four feet and a half" only where it says that the half is an inch's."""
    for feet, end in wholes(tokens, 0):
        if UNITS.get(tokens[end]) != "ft":
            continue
        start = end + 1 + (tokens[end + 1] in ("-", "and"))
        for number, last in _numbers(tokens, start):
            inches = Amount(f"{feet}' {number.figures}\"", "in", number.fraction)
            if (tokens[end + 1] != "and" and "/" in tokens[start]) or not _is_part(number):
                yield inches, last
            for _united, after in _with_inch(tokens, last, number):
                yield inches, after


def _is_part(number: Amount) -> bool:
    return number.fraction and " " not in number.figures


def _unit_between(tokens: Tokens) -> Found:
    """``58 inches and five eighths``, ``an inch and a half``."""
    for whole, end in (*wholes(tokens, 0), *_one(tokens)):
        if UNITS.get(tokens[end]) != "in" or tokens[end + 1] not in JOINTS:
            continue
        for fraction, last in fractions(tokens, end + 2):
            mixed = _mixed(whole, fraction)._replace(unit="in")
            yield mixed._replace(figures=f"{mixed.figures} in"), last
            yield from _with_inch(tokens, last, mixed)


def _with_inch(tokens: Tokens, at: int, number: Amount) -> Found:
    return (found for found in _with_unit(tokens, at, number) if found[0].unit == "in")


def _one(tokens: Tokens) -> Iterator[tuple[str, int]]:
    """ "An" before a unit is one; an inch and more may leave it out."""
    if tokens[0] in ("a", "an"):
        yield "1", 1
    elif tokens[0] == "inch":
        yield "1", 0


def _special(tokens: Tokens) -> Found:
    """``an inch``, ``1 489 mm``, ``4 10 5/8``."""
    if tokens[0] in ("a", "an") and (unit := UNITS.get(tokens[1])):
        yield Amount(f"1 {unit}", unit), 2
    yield from _with_gaps(tokens)
    yield from _without_marks(tokens)


def _with_gaps(tokens: Tokens) -> Found:
    """``1 489 mm``: only millimetres are written so, and only with their unit."""
    if not _FIRST_GROUP.fullmatch(tokens[0]):
        return
    end = 1
    while _GROUP.fullmatch(tokens[end]) and tokens[end - 1].isdigit():
        end += 1
    if end > 1 and UNITS.get(tokens[end]) == "mm":
        yield Amount(f"{''.join(tokens[:end])} mm", "mm"), end + 1


def _without_marks(tokens: Tokens) -> Found:
    """``4 10 5/8``: feet and inches, if anything; whether they are is asked of the range."""
    second = 1 + (tokens[1] == "-")
    third = second + 1 + (tokens[second + 1] == "-")
    feet, inches, part = tokens[0], tokens[second], tokens[third]
    short = all(here.isdigit() and len(here) <= 2 for here in (feet, inches))
    if not short or "/" not in part:
        return
    guess = Amount(f"{feet}' {inches} {part}\"", fraction=True, guessed=True)
    yield guess, third + 1
    if UNITS.get(tokens[third + 1]) == "in":
        yield guess._replace(unit="in"), third + 2


_FIRST_GROUP = re.compile(r"[1-9][0-9]{0,2}")
_GROUP = re.compile(r"[0-9]{3}(?:[.,][0-9]++)?+")
_GROUPED = re.compile(
    r"([1-9][0-9]{0,2}) (?: ((?:,[0-9]{3})++) ([.][0-9]++)?+ | ((?:[.][0-9]{3})++) (,[0-9]++)?+ )",
    re.VERBOSE,
)


def _numbers(tokens: Tokens, at: int) -> Found:
    """Whole, mixed, decimal or a fraction alone, without a unit."""
    here = tokens[at]
    if here[:1].isdigit() and ("," in here or "." in here):
        yield from _pointed(tokens, at)
    elif here[:1] == ".":
        yield Amount(here), at + 1
    elif here == "point":
        yield from _decimals(tokens, at + 1, "0")
    for whole, end in wholes(tokens, at):
        yield Amount(whole), end
        yield from _mixes(tokens, end, whole)
        if tokens[end] == "point":
            yield from _decimals(tokens, end + 1, whole)
    yield from _mixes(tokens, at, "")


def _pointed(tokens: Tokens, at: int) -> Found:
    """``58.6``; ``1,489.5`` and ``1.489,5``, where the thousands are plain; ``1,489 5/8``."""
    found = _GROUPED.fullmatch(tokens[at])
    if not found:
        yield Amount(tokens[at]), at + 1
        return
    first, by_comma, decimals, by_point, others = found.groups("")
    whole = first + (by_comma + by_point).replace(",", "").replace(".", "")
    if len(whole) - len(first) > 3 or decimals or others:
        yield Amount(whole + (decimals + others).replace(",", ".")), at + 1
    else:
        yield Amount(tokens[at]), at + 1
    if by_comma and not decimals:
        yield from _mixes(tokens, at + 1, whole)


def _decimals(tokens: Tokens, at: int, whole: str) -> Found:
    """After "point": figures, or single digits in words."""
    digits, end = "", at
    while digit := DIGIT_WORDS.get(tokens[end]):
        digits, end = digits + digit, end + 1
    if tokens[at].isdigit():
        digits, end = tokens[at], at + 1
    if digits:
        yield Amount(f"{whole}.{digits}"), end


def _mixes(tokens: Tokens, at: int, whole: str) -> Found:
    """A fraction after its whole number, and one more that is counted on: ``5/8 plus a 32nd``."""
    if whole and (tokens[at] in JOINTS or tokens[at] == "-"):
        at += 1
    elif whole and tokens[at] in ("half", "quarter"):
        return  # "a hundred and one half" is not a hundred and one, half
    for fraction, end in fractions(tokens, at):
        yield _mixed(whole, fraction), end
        if tokens[end] in ("plus", "+"):
            for more, last in fractions(tokens, end + 1):
                if total := _sum(fraction, more):
                    yield _mixed(whole, total), last


def _mixed(whole: str, part: Fraction) -> Amount:
    figures = f"{whole} {part.top}/{part.bottom}".strip()
    return Amount(figures, fraction=True, half=part.half)


def _sum(one: Fraction, other: Fraction) -> Fraction | None:
    """Two marks of a tape together, where they stay below one inch."""
    finer = max(one.bottom, other.bottom)
    if not {one.bottom, other.bottom} <= set(BOTTOMS.values()):
        return None
    top = sum(part.top * finer // part.bottom for part in (one, other))
    return Fraction(top, finer) if top < finer else None
