"""Why a text is not a length we read, said in one kind sentence with something to try.

Only reached when reading failed, so it may take its time (some microseconds). The reader drops
every suggestion that it could not read itself.
"""

from __future__ import annotations

import re
from typing import NamedTuple, NoReturn

EXAMPLES = ("58 5/8 in", "58.625 in", "1489 mm")
LONGEST = 100  # every length in words fits, to the micrometre


class LengthError(ValueError):
    """A text that is not read: one kind sentence, and texts to try instead."""

    def __init__(self, message: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(message)
        self.message = message
        self.suggestions = suggestions


class Refusal(NamedTuple):
    """A sentence for people, and texts to try instead."""

    message: str
    suggestions: tuple[str, ...] = EXAMPLES


def refuse(refusal: Refusal) -> NoReturn:
    """Raise it."""
    raise LengthError(*refusal)


TOO_LONG = Refusal("That is too long for one measurement; please type just the number.")
NOTHING = Refusal("Please type the number you read off the tape, such as 58 5/8 in.")
UNKNOWN = Refusal("We cannot read that as one length; please write it like 58 5/8 in or 1489 mm.")
TOO_FINE = Refusal("That has more decimal places than anyone can measure; please leave some out.")
TWO_UNITS = Refusal("That has two units in it; please write the length in one of them.")
TOO_FAR = Refusal("That is longer than 100 metres; please check the number and its unit.")

UNIT_WITH_EACH = Refusal("Please write the unit with each number, or with none of them.")
MANY = Refusal("That is more readings than we can take at once; please give at most five.")
_TOO_SMALL = "A length cannot be less than nothing; please type it without the minus sign."
_UNIT_WORD = re.compile(r"millimet|\bmm|cm|(?<![a-z])m(?![a-z])|ft|feet|foot|in|[\"']")
_BELOW = re.compile(r"(?:-|minus\b) ?([0-9.a-z].*)")


# What was probably meant by texts that mean more than one thing; the first that fits is said.
_MEANT: tuple[tuple[re.Pattern[str], str, tuple[str, ...]], ...] = (
    (_BELOW, _TOO_SMALL, ("{0}",)),
    (
        re.compile(r"([0-9]{1,3}) ([0-9]{1,3}) ?(in|mm|\"|)"),
        "Is that one number? Please write it without the gap, or with its feet mark.",
        ("{0}{1} {2}", "{0}' {1}\""),
    ),
    (
        re.compile(r"(.+[0-9]) ?(?:and|&) ?([0-9].*)"),
        "Are these two readings? Please put a semicolon between them.",
        ("{0}; {1}",),
    ),
    (
        re.compile(r"((?:over|under) .+)"),
        "By how much? Please type the nearest mark.",
        ("just {0}",),
    ),
    (
        re.compile(r"(.+(?:feet|foot|ft|')) (and .+)"),
        "A part of a foot can be meant two ways; please say that it is of an inch.",
        ("{0} {1} of an inch",),
    ),
)


def why_unreadable(plain: str) -> Refusal:
    """Explain a text in plain characters (at most 100) that is not a length in any form."""
    if not plain:
        return NOTHING
    for pattern, message, texts in _MEANT:
        if found := pattern.fullmatch(plain):
            meant = tuple(text.format(*found.groups()).strip() for text in texts)
            return Refusal(message, meant)
    if any(sign.isdigit() for sign in plain) and len(_UNIT_WORD.findall(plain)) > 1:
        return TWO_UNITS
    return UNKNOWN


def two_numbers(first: str, second: str) -> Refusal:
    """``10 68 5/8``: no feet and inches, for there are twelve inches or more."""
    message = (
        "Are these two numbers? Please write the length alone, or the mark at the start first."
    )
    return Refusal(message, (second, f"{first} to {second}"))


def below_nothing(shown: str) -> Refusal:
    """Less than nothing once "shy" is taken off."""
    message = "That would be less than nothing; please type the nearest mark alone."
    return Refusal(message, (shown,))


def no_marks(marked: str) -> Refusal:
    """``4 10 5/8``, where nothing shows that feet and inches are meant."""
    message = "Are these feet and inches? Please add their marks."
    return Refusal(message, (marked,))


def two_ways(figures: list[str]) -> Refusal:
    """Words that can be grouped in two ways; ``25/8`` is suggested as ``3 1/8``."""
    message = "That can be heard in two ways; please type it in figures."
    return Refusal(message, tuple(_IMPROPER.sub(_with_whole, text) for text in figures))


_IMPROPER = re.compile(r"^([0-9]++)/([0-9]++)")


def _with_whole(found: re.Match[str]) -> str:
    whole, top = divmod(int(found[1]), int(found[2]) or 1)
    return f"{whole} {top}/{found[2]}" if whole else found[0]


def mark_or_two(length: str, start: str, end: str) -> Refusal:
    """``58 to 59``: a start mark, or two readings."""
    message = "Is the first number the mark held at the start? Please write the length alone."
    return Refusal(message, (length, f"{start}; {end}"))


def before_the_start(start: str, end: str) -> Refusal:
    """A start mark at or past what was read."""
    message = "The mark at the start should be the smaller number; please check both."
    return Refusal(message, (f"{end} to {start}", end))


def far_apart(shown: tuple[str, ...]) -> Refusal:
    """Repeated readings that cannot be of the same thing."""
    message = "Those readings are too far apart for one length; please measure once more."
    return Refusal(message, shown)


def comma_or_two(whole: str, decimals: str, unit: str) -> Refusal:
    """``44, 44``: a decimal comma with a space, or two readings."""
    message = "Is that one number or two readings? Please use a point or a semicolon."
    texts = (f"{whole}.{decimals} {unit}".strip(), f"{whole}; {decimals} {unit}".strip())
    return Refusal(message, texts)


def either_unit_of(text: str) -> Refusal:
    """Several numbers, when nothing says which tape they came from."""
    return Refusal(_EITHER_UNIT, (f"{text} in", f"{text} mm"))


_EITHER_UNIT = "Inches or millimetres? Please add the unit to the number."


def bad_fraction(whole: str, top: str, bottom: str) -> Refusal:
    """A fraction no tape has: not a half to a 64th, or not smaller than one."""
    message = "That fraction is not a mark on a tape; it needs halves, quarters, eighths, 16ths, "
    nearby = [f"{whole} {top}/{marks}".strip() for marks in (8, 16, 32, 64) if int(top) < marks]
    apart = [] if whole or len(top) < 2 else [f"{top[:-1]} {top[-1]}/{bottom}"]
    return Refusal(message + "32nds or 64ths.", (*apart, *nearby[:2]))


def fraction_of(unit: str, whole: str, top: int, bottom: int) -> Refusal:
    """A fraction written with a unit that is not divided like that."""
    number = int(whole or 0) * 64 + top * 64 // bottom
    decimals = f"{number / 64:.6f}".rstrip("0")
    mixed = f"{whole} {top}/{bottom}".strip()
    if unit == "ft":
        message = "A fraction of a foot can be meant two ways; please write feet and inches apart."
        return Refusal(message, (f"{whole or 0} ft {top}/{bottom} in", f"{decimals} ft"))
    message = f"A fraction is an inch mark, but {unit} is written; please say which is meant."
    return Refusal(message, (f"{mixed} in", f"{decimals} {unit}"))


def either_comma(whole: str, decimals: str, unit: str) -> Refusal:
    """``1,489``: a decimal comma or a thousands comma, nobody can tell."""
    message = "That comma can be meant two ways; please write it with a point or without it."
    texts = (f"{whole}{decimals} {unit}".strip(), f"{whole or 0}.{decimals} {unit}".strip())
    return Refusal(message, texts)


def either_unit(number: str) -> Refusal:
    """A number alone, when nothing says which tape it came from."""
    return Refusal(_EITHER_UNIT, (f"{number} in", f"{number} mm"))


def many_inches(inches: str, total: str) -> Refusal:
    """Twelve inches or more after the feet."""
    message = "After feet the inches stay below 12; please check both numbers."
    return Refusal(message, (total, inches))
