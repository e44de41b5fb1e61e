"""Why a text is not a length we read, said in one kind sentence with something to try.

Only reached when reading failed, so it may take its time (some microseconds). The reader drops
every suggestion that it could not read itself.
"""

from __future__ import annotations

import re
from typing import NamedTuple

EXAMPLES = ("58 5/8 in", "58.625 in", "1489 mm")
LONGEST = 40


class Refusal(NamedTuple):
    """A sentence for people, texts to try instead, and whether a later version will read it."""

    message: str
    suggestions: tuple[str, ...] = EXAMPLES
    not_yet: bool = False


TOO_LONG = Refusal("That is too long for one measurement; please type just the number.")
NOTHING = Refusal("Please type the number you read off the tape, such as 58 5/8 in.")
UNKNOWN = Refusal("We cannot read that as one length; please write it like 58 5/8 in or 1489 mm.")
TOO_FINE = Refusal("That has more decimal places than anyone can measure; please leave some out.")
TWO_UNITS = Refusal("That has two units in it; please write the length in one of them.")
TOO_FAR = Refusal("That is longer than 100 metres; please check the number and its unit.")

_NUMBER_WORD = (
    r"\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|twenty|thirty"
    r"|forty|fifty|sixty|seventy|eighty|ninety|hundred|zero|point|an?|and|half|halves|quarters?"
    r"|eighths?|sixteenths?|thirty-?seconds?|sixty-?fourths?)\b"
)
_SHADE = (
    r"\b(?:a\s+)?(?:strong|full|heavy|shy|bare(?:ly)?|light|about|around|approx\.?"
    r"|approximately|roughly|nearly|just|under|over|circa|ca\.?)(?=\W|$)|[~≈]"
)
_SHADED = re.compile(_SHADE)
_TWO = re.compile(r",\s|;|\bor\b|\band\b(?=.*\d.*\d)")
_SPEECH = (
    (
        _SHADED,
        "We cannot read words such as about, full or shy yet; please type the nearest mark alone.",
    ),
    (
        re.compile(r"\d\s*(?:to|->|→)\s*\d"),
        "We cannot take a start mark off yet; please type the length itself as one number.",
    ),
    (
        re.compile(r"\bplus\b|\+"),
        "We cannot add up yet; please type the whole length as one number.",
    ),
    (
        re.compile(r"[½¼¾⅛⅜⅝⅞\d]\S*\s*(?:,\s|;|\bor\b|\band\b(?=.*\d.*\d))\s*\d"),
        "We cannot read two readings at once yet; please type one of them here.",
    ),
    (
        re.compile(_NUMBER_WORD),
        "We cannot read numbers in words yet; please type them in figures.",
    ),
)
_NO_MARKS = re.compile(r"(\d{1,2})[ -]+(\d{1,2})[ -]+(\d+/\d+)(?:\s*(?:in|inch|inches|\"))?")
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+(?:(?:\.\d+)?|\s+\d+/\d+)\D*")
_UNIT_WORD = re.compile(r"millimet|\bmm|cm|(?<![a-z])m(?![a-z])|ft|feet|foot|in|[\"″”'′’]")


def why_unreadable(text: str) -> Refusal:
    """Explain a text (at most 40 characters) that has not the shape of a length."""
    plain = text.strip().lower()
    if not plain:
        return NOTHING
    for look in (_odd_characters, _below_zero, _no_marks, _thousands, _spoken, _two_units):
        if refusal := look(plain):
            return refusal
    return UNKNOWN


# Characters that only look like the plain ones: full-width, spaces that do not break, dashes.
_PLAIN = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}
_PLAIN |= dict.fromkeys([0xA0, 0x202F, 0x205F, 0x3000, *range(0x2000, 0x200B)], ord(" "))
_PLAIN |= dict.fromkeys(map(ord, "‐‑‒–—−"), ord("-"))
_INVISIBLE = dict.fromkeys([0x200B, 0x2060, 0xFEFF])


def _odd_characters(text: str) -> Refusal | None:
    plain = text.translate(_PLAIN).translate(_INVISIBLE)
    if plain == text:
        return None
    message = "We cannot read those characters yet; please use the plain keys for figures."
    return Refusal(message, (_tidy(plain),), not_yet=True)


def _below_zero(text: str) -> Refusal | None:
    if not re.match(r"-\s*[\d.½¼¾⅛⅜⅝⅞]", text):
        return None
    message = "A length cannot be less than nothing; please type it without the minus sign."
    return Refusal(message, (text.lstrip("- "),))


def _no_marks(text: str) -> Refusal | None:
    found = _NO_MARKS.fullmatch(text)
    if not found:
        return None
    feet, inches, part = found.groups()
    message = "We cannot read feet and inches without their marks yet; please add them."
    return Refusal(message, (f"{feet}' {inches} {part}\"",), not_yet=True)


def _thousands(text: str) -> Refusal | None:
    if not _THOUSANDS.fullmatch(text):
        return None
    message = "We cannot read a comma between thousands yet; please leave it out."
    return Refusal(message, (text.replace(",", ""),), not_yet=True)


def _spoken(text: str) -> Refusal | None:
    for pattern, message in _SPEECH:
        if pattern.search(text):
            pieces = [pattern.sub(" ", text)] if pattern is _SHADED else _TWO.split(text)
            return Refusal(message, tuple(map(_tidy, pieces)), not_yet=True)
    return None


def _tidy(text: str) -> str:
    return " ".join(text.split())


def _two_units(text: str) -> Refusal | None:
    if not any(sign.isdigit() for sign in text) or len(_UNIT_WORD.findall(text)) < 2:
        return None
    return TWO_UNITS


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
    message = "Inches or millimetres? Please add the unit to the number."
    return Refusal(message, (f"{number} in", f"{number} mm"))


def many_inches(inches: str, total: str) -> Refusal:
    """Twelve inches or more after the feet."""
    message = "After feet the inches stay below 12; please check both numbers."
    return Refusal(message, (total, inches))
