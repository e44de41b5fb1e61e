"""Texts as people might write a length, and texts nobody would: for the fuzz of the reader."""

from __future__ import annotations

import random
from collections.abc import Callable

from catalog.domain import spoken

Rng = random.Random

_MARKS = (2, 4, 8, 16, 32, 64)
_NAMES = {2: ("half", "halves"), 4: ("quarter", "quarters"), 8: ("eighth", "eighths")}
_NAMES |= {16: ("sixteenth", "sixteenths"), 32: ("thirty-second", "thirty seconds")}
_NAMES |= {64: ("sixty-fourth", "sixty-fourths")}
_SIGNS = "½¼¾⅛⅜⅝⅞⅓⅔⅕↉"
_SPACES = (" ", " ", " ", "", "  ", "\u00a0", "\u202f", "\u2009", "\t")
_INCH = (" in", '"', "″", "”", " inches", " in.", "''", " inch", "in", " ins", "＂")
_METRIC = (" mm", "mm", " cm", " m", "㎜", " millimetres", " meters", "ｍｍ")
_FEET = ("'", "′", "’", " ft", " ft.", " feet", " foot", "ft")
_JOINTS = (" and ", " & ", " plus ", " + ", "+", " ", "-", " - ", "–")
_BEFORE = (
    "about ",
    "~",
    "≈ ",
    "a strong ",
    "just shy of ",
    "nearly ",
    "circa ",
    "approx. ",
    "full ",
)
_AFTER = (" strong", " shy", ", bare", " a bit light", " or so", "ish", " and a bit", " just over")
_SEPARATORS = (", ", "; ", " or ", ",", ";", " , ")
_TO = (" to ", "->", " → ", " to the ")
_FULL = str.maketrans("0123456789./-", "０１２３４５６７８９．／－")
_UP = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_DOWN = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
_WORDS = "and a an half of to or so point hundred thousand fifty five-eighths eighths sixty fourths"
_WORDS += " inch foot feet mm in strong shy about plus minus over under bit just from thirty second"
_NOISE = "0123456789 0123456789 .,-/'\"½⅝⁄⁵₈+~≈;øaeinmcfthorsdu\u00a0\u200b５８″’\n\x00²٣"


def a_text(rng: Rng) -> tuple[str, str]:
    """What kind of text it is, and the text (mostly of at most 100 characters)."""
    kind = rng.choice(tuple(_KINDS))
    text = _KINDS[kind](rng)
    if rng.random() < 0.3:
        text = _spoilt(rng, text)
        kind += ", spoilt"
    return kind, text


def _whole(rng: Rng) -> str:
    most = rng.choice((4, 12, 60, 240, 2000, 99_999))
    return str(rng.randrange(most + 1))


def _words(rng: Rng) -> str:
    text = spoken.whole(int(_whole(rng)))
    return text.replace("-", " ") if rng.random() < 0.4 else text


def _fraction(rng: Rng) -> str:
    bottom = rng.choice(_MARKS)
    top = rng.randrange(1, bottom + rng.choice((0, 0, 0, 3)))
    slash = rng.choice("///⁄∕／")
    if rng.random() < 0.15:
        return f"{str(top).translate(_UP)}{slash}{str(bottom).translate(_DOWN)}"
    if rng.random() < 0.15:
        return rng.choice(_SIGNS)
    return f"{top}{slash}{bottom}{rng.choice(('', '', '', '', 'ths'))}"


def _said_fraction(rng: Rng) -> str:
    bottom = rng.choice(_MARKS)
    top = rng.randrange(1, bottom)
    name = rng.choice((*_NAMES[bottom], f"{bottom}ths", f"{bottom}nds"))
    count = rng.choice((spoken.whole(top), str(top), "a", "an"))
    return rng.choice((f"{count} {name}", f"{count}-{name}", "half", "a half", "a quarter"))


def _plain(rng: Rng) -> str:
    return _whole(rng) + rng.choice(_SPACES[1:]) + _fraction(rng)


def _decimal(rng: Rng) -> str:
    places = rng.choice((1, 1, 2, 3, 3, 4, 6, 9))
    return f"{_whole(rng)}{rng.choice('..,')}{rng.randrange(10**places):0{places}d}"


def _thousands(rng: Rng) -> str:
    text = f"{rng.randrange(1000, 2_000_000):,}"
    tail = rng.choice(("", "", ".5", " 5/8", " mm", ".25 mm"))
    text = text.replace(",", rng.choice((",", ",", " ", "\u202f"))) + tail
    return text.translate(str.maketrans(",.", ".,")) if rng.random() < 0.3 else text


def _feet(rng: Rng) -> str:
    inch = rng.choice((_number(rng), str(rng.randrange(14)), f"{rng.randrange(12)} 5/8"))
    return f"{rng.randrange(20)}{rng.choice(_FEET)}{rng.choice(_SPACES)}{inch}{rng.choice(_INCH)}"


def _no_marks(rng: Rng) -> str:
    gap = rng.choice((" ", "-", " - "))
    unit = rng.choice(("", "", '"'))
    return f"{rng.randrange(20)}{gap}{rng.randrange(14)}{gap}{_fraction(rng)}{unit}"


def _number(rng: Rng) -> str:
    return rng.choice((_whole, _plain, _plain, _fraction, _decimal, _mixed))(rng)


def _mixed(rng: Rng) -> str:
    whole = rng.choice((_whole, _words))(rng) + rng.choice(("", "", "", *_INCH[:5]))
    text = whole + rng.choice(_JOINTS) + rng.choice((_fraction, _said_fraction))(rng)
    if rng.random() < 0.1:
        text += rng.choice((" plus ", "+")) + rng.choice((_fraction, _said_fraction))(rng)
    return text


def _said(rng: Rng) -> str:
    if rng.random() < 0.2:
        digits = " ".join(rng.choice(("oh", *_ONES)) for _ in range(rng.randrange(1, 4)))
        return f"{rng.choice((_words, _whole))(rng)} point {digits}"
    unit = rng.choice(("", "", " inches", " of an inch", " millimetres", " feet"))
    return rng.choice((_words, _mixed, _said_fraction, _said_feet))(rng) + unit


_ONES = tuple(spoken.whole(digit) for digit in range(10))


def _said_feet(rng: Rng) -> str:
    joint = rng.choice((" ", " and "))
    return f"{spoken.whole(rng.randrange(12))} {rng.choice(('feet', 'foot'))}{joint}{_mixed(rng)}"


def _united(rng: Rng) -> str:
    return _number(rng) + rng.choice(("", *_INCH, *_METRIC, *_FEET))


def _shaded(rng: Rng) -> str:
    number = rng.choice((_united, _united, _feet, _said))(rng)
    return rng.choice((rng.choice(_BEFORE) + number, number + rng.choice(_AFTER)))


def _span(rng: Rng) -> str:
    start = rng.choice((str(rng.choice((1, 10, 12, 100))), _united(rng)))
    return (
        rng.choice(("", "", "from "))
        + start
        + rng.choice(_TO)
        + rng.choice((_united, _shaded))(rng)
    )


def _repeated(rng: Rng) -> str:
    whole = _whole(rng)
    unit = rng.choice(("", "", "", *_INCH, *_METRIC))
    readings = [
        rng.choice((whole, whole, str(int(whole) + 1)))
        + rng.choice((f" {_fraction(rng)}", f" {_fraction(rng)}", f".{rng.randrange(100)}", ""))
        + rng.choice(("", unit))
        for _ in range(rng.choice((2, 2, 2, 3, 6)))
    ]
    return rng.choice(_SEPARATORS).join(readings) + unit


def _full_width(rng: Rng) -> str:
    return rng.choice((_united, _plain, _decimal))(rng).translate(_FULL)


def _soup(rng: Rng) -> str:
    words = (*_WORDS.split(), _whole(rng), _fraction(rng), spoken.whole(rng.randrange(100)))
    return " ".join(rng.choice(words) for _ in range(rng.randrange(1, 9)))


def _noise(rng: Rng) -> str:
    return "".join(rng.choice(_NOISE) for _ in range(rng.randrange(1, rng.choice((6, 20, 105)))))


def _any_characters(rng: Rng) -> str:
    top = rng.choice((0x80, 0x2FF, 0xFFFF, 0x10FFFF))
    return "".join(chr(rng.randrange(top)) for _ in range(rng.randrange(1, 12)))


_KINDS: dict[str, Callable[[Rng], str]] = {
    "plain": _plain,
    "with a unit": _united,
    "decimal": _decimal,
    "thousands": _thousands,
    "feet": _feet,
    "feet without marks": _no_marks,
    "mixed": _mixed,
    "said": _said,
    "shaded": _shaded,
    "from a mark": _span,
    "repeated": _repeated,
    "full width": _full_width,
    "word soup": _soup,
    "noise": _noise,
    "any characters": _any_characters,
}


def _spoilt(rng: Rng, text: str) -> str:
    """One to three small changes, or two texts in one."""
    if rng.random() < 0.15:
        return text + rng.choice((" ", "", ", ", " to ")) + rng.choice(tuple(_KINDS.values()))(rng)
    for _ in range(rng.randrange(1, 4)):
        at = rng.randrange(len(text) + 1)
        cut = rng.choice((0, 0, 1))
        text = (
            text[:at] + rng.choice(("", rng.choice(_NOISE), rng.choice(_SPACES))) + text[at + cut :]
        )
    return text
