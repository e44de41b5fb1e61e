"""Numbers as they are said on the phone: ``fifty-eight and five eighths``."""

from __future__ import annotations

_SMALL = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen"),
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_PARTS = {2: "half", 4: "quarter", 8: "eighth", 16: "sixteenth"}
_PARTS |= {32: "thirty-second", 64: "sixty-fourth"}


def whole(number: int) -> str:
    """A whole number from 0 to 999 999 999 in words.

    >>> whole(1489)
    'one thousand four hundred and eighty-nine'
    """
    if number >= 1000:
        return _with_rest(number, 1_000_000 if number >= 1_000_000 else 1000)
    if number >= 100:
        rest = f" and {whole(number % 100)}" if number % 100 else ""
        return f"{_SMALL[number // 100]} hundred{rest}"
    if number >= 20:
        rest = f"-{_SMALL[number % 10]}" if number % 10 else ""
        return f"{_TENS[number // 10]}{rest}"
    return _SMALL[number]


def _with_rest(number: int, unit: int) -> str:
    many, rest = divmod(number, unit)
    words = f"{whole(many)} {'thousand' if unit == 1000 else 'million'}"
    if not rest:
        return words
    return f"{words} and {whole(rest)}" if rest < 100 else f"{words} {whole(rest)}"


def part(top: int, bottom: int) -> str:
    """A proper fraction in lowest terms, of a tape: ``five eighths``, ``one half``."""
    return f"{whole(top)} {_PARTS[bottom]}{'' if top == 1 else 's'}".replace("halfs", "halves")


def decimal(number: int, digits: str) -> str:
    """A number with decimal places, digit by digit: ``one point zero five``."""
    return f"{whole(number)} point {' '.join(_SMALL[int(digit)] for digit in digits)}"


def mixed(number: int, top: int, bottom: int) -> str:
    """Inches on a tape with their unit, singular and plural right.

    >>> mixed(58, 5, 8), mixed(0, 3, 4), mixed(1, 0, 1)
    ('fifty-eight and five eighths inches', 'three quarters of an inch', 'one inch')
    """
    if not top:
        return f"{whole(number)} inch" if number == 1 else f"{whole(number)} inches"
    if not number:
        return "half an inch" if bottom == 2 else f"{part(top, bottom)} of an inch"
    return f"{whole(number)} and {part(top, bottom)} inches"
