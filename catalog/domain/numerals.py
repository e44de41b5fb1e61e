"""Whole numbers and fractions among the tokens of a text, in figures or in words.

Every function takes the tokens and where to begin, and yields each way to go on: a value and where
it ends. Two ways are two meanings ("twenty five eighths"); it is the caller who refuses them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from catalog.domain import spoken

Tokens = Sequence[str]
Counted = Iterator[tuple[int, int]]

DIGIT_WORDS = {spoken.whole(digit): str(digit) for digit in range(10)}
DIGIT_WORDS |= {"oh": "0", "nought": "0"}
_SMALL = {spoken.whole(number): number for number in range(100)} | {"nought": 0}
_TENS = {spoken.whole(number): number for number in range(20, 100, 10)}
_ONES = {spoken.whole(number): number for number in range(1, 10)}
BOTTOMS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4}
BOTTOMS |= {"eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}
BOTTOMS |= {"thirty-second": 32, "thirty-seconds": 32, "sixty-fourth": 64, "sixty-fourths": 64}
BOTTOMS |= {f"{n}{end}": n for n in (4, 8, 16, 64) for end in ("th", "ths")}
BOTTOMS |= {"32nd": 32, "32nds": 32}
_ONE_OF = {word: bottom for word, bottom in BOTTOMS.items() if not word.endswith("s")}
COMPOUNDS = frozenset(word for word in _SMALL if "-" in word)
JOINTS = ("and", "plus", "&", "+")


class Fraction(NamedTuple):
    """``top`` of ``bottom``; ``half`` where it was said as a half, which millimetres have too."""

    top: int
    bottom: int
    half: bool = False


def wholes(tokens: Tokens, at: int) -> Iterator[tuple[str, int]]:
    """Whole numbers in figures (as they stand) or in words (as figures)."""
    here = tokens[at]
    if here.isdigit():
        yield here, at + 1
        return
    for number, end in _below_million(tokens, at):
        yield str(number), end


def fractions(tokens: Tokens, at: int) -> Iterator[tuple[Fraction, int]]:
    """``5/8``, ``half``, ``a quarter``, ``three eighths``, ``10 16ths``; proper or not."""
    here = tokens[at]
    if "/" in here:
        top, bottom = here.split("/")
        yield Fraction(int(top), int(bottom)), at + 1
    elif here in ("half", "quarter"):
        yield Fraction(1, BOTTOMS[here], here == "half"), at + 1
    elif here in ("a", "an") and (bottom_of := _ONE_OF.get(tokens[at + 1])):
        yield Fraction(1, bottom_of, bottom_of == 2), at + 2
    for top_of, end in _counts(tokens, at):
        end += tokens[end] == "-"
        if bottom_of := BOTTOMS.get(tokens[end]):
            yield Fraction(top_of, bottom_of, bottom_of == 2), end + 1


def _counts(tokens: Tokens, at: int) -> Counted:
    here = tokens[at]
    if here.isdigit() and len(here) <= 2:
        yield int(here), at + 1
    else:
        yield from _below_hundred(tokens, at)


def _below_hundred(tokens: Tokens, at: int) -> Counted:
    number = _SMALL.get(tokens[at])
    if number is not None:
        yield number, at + 1
    tens, ones = _TENS.get(tokens[at]), _ONES.get(tokens[at + 1])
    if tens and ones:
        yield tens + ones, at + 2


def _below_thousand(tokens: Tokens, at: int) -> Counted:
    yield from _below_hundred(tokens, at)
    for hundreds, end in _several(_below_hundred(tokens, at), tokens, at):
        if not (0 < hundreds < 20 and tokens[end] == "hundred"):
            continue
        yield hundreds * 100, end + 1
        for rest, last in _rest(tokens, end + 1, _below_hundred):
            yield hundreds * 100 + rest, last


def _below_million(tokens: Tokens, at: int) -> Counted:
    yield from _below_thousand(tokens, at)
    for thousands, end in _several(_below_thousand(tokens, at), tokens, at):
        if not (0 < thousands < 1000 and tokens[end] == "thousand"):
            continue
        yield thousands * 1000, end + 1
        for rest, last in _rest(tokens, end + 1, _below_thousand):
            yield thousands * 1000 + rest, last


def _several(counted: Counted, tokens: Tokens, at: int) -> Counted:
    """How many hundreds or thousands: a number, or "a"."""
    yield from counted
    if tokens[at] == "a":
        yield 1, at + 1


def _rest(tokens: Tokens, at: int, below: Callable[[Tokens, int], Counted]) -> Counted:
    """What follows the hundreds or thousands, with "and" or without."""
    for number, end in below(tokens, at + (tokens[at] == "and")):
        if number:
            yield number, end
