"""A second reader of lengths, written for tests: slow, plain, and sharing no code with the first.

It tries every way to read the characters from left to right, in exact fractions, and answers only
where all of them agree. Whatever the first reader accepts, this one must read the same.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import NamedTuple

Span = tuple[int, int] | None  # the plausible range in nanometres
MM, INCH = Fraction(1_000_000), Fraction(25_400_000)
SIZE = {"in": INCH, "ft": 12 * INCH, "mm": MM, "cm": 10 * MM, "m": 1000 * MM}
MOST = 100 * 1000 * MM


class Read(NamedTuple):
    """What a text means: nanometres, the smallest mark, the unit, what is assumed."""

    nm: Fraction
    mark: Fraction
    unit: str
    written: bool
    assumed: bool
    extra: float = 0.0


class Refused(Exception):
    """Not read, or not in one way only."""


class Number(NamedTuple):
    """A number off the page: ``value`` and ``step`` in its unit, whatever that will be.

    ``sort``: plain, mark (a tape's fraction), half (said in words), comma (two senses),
    feet (inches already, marked), bare feet (inches, without marks; ``other`` = as one number).
    """

    value: Fraction
    step: Fraction
    sort: str = "plain"
    unit: str = ""
    other: Fraction = Fraction(0)
    alone: bool = False  # a fraction without a whole number


Ways = list[tuple[Number, int]]
Counts = list[tuple[int, int]]


# -- Characters ---------------------------------------------------------------------------------

_UNSEEN = "\u00ad\u200b\u200c\u200d\u200e\u2060\ufe0e\ufe0f\ufeff"
_LOOKS = {"`": "'", "´": "'", "ʹ": "'", "′": "'", "’": "'", "‘": "'", "‛": "'"}
_LOOKS |= {'"': '"', "″": '"', "”": '"', "“": '"', "‟": '"', "ʺ": '"', "〃": '"', "∕": "/"}
_LOOKS |= {"⁄": "/", "⌀": "ø", "Ø": "ø", "→": "->", "―": "-", "−": "-", "﹣": "-"}


def _plain(text: str) -> str:
    text = _without_unseen(text.replace("\t", " "))
    text = "".join(" " if unicodedata.category(sign) == "Zs" else sign for sign in text)
    out = ""
    at = 0
    while at < len(text):
        piece, at = _one_character(text, at)
        out += piece
    out = out.strip(" \r\n").lower().replace("''", '"')
    while "  " in out:
        out = out.replace("  ", " ")
    return out


def _without_unseen(text: str) -> str:
    kept = ""
    for at, sign in enumerate(text):
        before = next((c for c in reversed(text[:at]) if c not in _UNSEEN), " ")
        after = next((c for c in text[at + 1 :] if c not in _UNSEEN), " ")
        if sign not in _UNSEEN or (_figure(before) and _figure(after)):
            kept += sign
    return kept


def _figure(sign: str) -> bool:
    return sign in "0123456789０１２３４５６７８９"


def _small(text: str, at: int, tag: str) -> tuple[str, int]:
    """The raised or lowered digits from here on, as digits."""
    digits = ""
    while at < len(text) and unicodedata.decomposition(text[at]).startswith(tag):
        digits += str(unicodedata.digit(text[at], "?"))
        at += 1
    return digits, at


def _digits(text: str, at: int) -> tuple[str, int]:
    start = at
    while at < len(text) and _figure(text[at]):
        at += 1
    return unicodedata.normalize("NFKC", text[start:at]), at


def _one_character(text: str, at: int) -> tuple[str, int]:
    sign = text[at]
    top, end = _small(text, at, "<super>")
    if top:
        return _stacked(text, end, top)
    if sign == "⅟":
        return _stacked(text, at + 1, "1", slash=False)
    shape = unicodedata.decomposition(sign)
    if shape.startswith("<fraction>") or sign == "↉":
        numbers = unicodedata.normalize("NFKC", sign).split("⁄") if sign != "↉" else ["0", "3"]
        next_one = text[at + 1 : at + 2]
        if next_one and (_figure(next_one) or unicodedata.numeric(next_one, 0) % 1):
            return "?", at + 1
        return f" {numbers[0]}/{numbers[1]}", at + 1
    if sign in _LOOKS:
        return _LOOKS[sign], at + 1
    if unicodedata.category(sign) == "Pd":
        return "-", at + 1
    if shape.startswith(("<wide>", "<square>")):
        return unicodedata.normalize("NFKC", sign), at + 1
    return sign, at + 1


def _stacked(text: str, at: int, top: str, slash: bool = True) -> tuple[str, int]:
    if slash:
        over = re.compile(" ?[/⁄∕／] ?").match(text, at)
        if not over:
            return "?", at
        at = over.end()
    elif text[at : at + 1] == " ":
        at += 1
    for taken in (_small(text, at, "<sub>"), _digits(text, at)):
        bottom, end = taken
        if bottom:
            more = text[end : end + 1]
            clear = not (_figure(more) or unicodedata.decomposition(more or " ").startswith("<sub"))
            return (f" {top}/{bottom}" if clear or not more else "?"), end
    return "?", at


# -- Atoms --------------------------------------------------------------------------------------

_ONES = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen"
_ONES += " fifteen sixteen seventeen eighteen nineteen"
ONES = {word: number for number, word in enumerate(_ONES.split())} | {"nought": 0}
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
TENS = {word: 10 * number for number, word in enumerate(_TENS.split(), 2)}
PARTS = {"half": 2, "halves": 2, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4}
PARTS |= {"eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}
PARTS |= {"thirty_second": 32, "thirty_seconds": 32, "sixty_fourth": 64, "sixty_fourths": 64}
UNITS = {"in": "in", "ins": "in", "inch": "in", "inches": "in", '"': "in"}
UNITS |= {"'": "ft", "ft": "ft", "foot": "ft", "feet": "ft", "mm": "mm", "cm": "cm", "m": "m"}
for _end in ("re", "res", "er", "ers"):
    UNITS |= {f"met{_end}": "m", f"centimet{_end}": "cm", f"millimet{_end}": "mm"}
_PAIRS = [f"{tens}-{one}" for tens in TENS for one in _ONES.split()[1:10]]
_PAIRS += [f"thirty-second{s}" for s in ("s", "")] + [f"sixty-fourth{s}" for s in ("s", "")]
_PAIR = re.compile("(?<![a-z])(?:" + "|".join(sorted(_PAIRS, reverse=True)) + ")(?![a-z])")
_SPLIT = re.compile(r"(thirty|sixty) (seconds?|fourths?)(?![a-z])")


def _atoms(text: str) -> list[str]:
    """Digits, words, signs and single spaces."""
    return re.findall(r"[0-9]+|(?<=[0-9])(?:ths?|nds?)(?![a-z])|[a-z_]+|->| |.", text, re.DOTALL)


def _apart(text: str) -> str:
    """Hyphens between words are spaces; twenty-five and thirty seconds are one word."""
    text = _PAIR.sub(lambda found: found[0].replace("-", "_"), text)
    text = re.sub("(?<=[a-z])-(?=[a-z])", " ", text)
    return _SPLIT.sub(_as_pair, text)


def _as_pair(found: re.Match[str]) -> str:
    pair = f"{found[1]}_{found[2]}"
    return pair if pair in PARTS else found[0]


class Page:
    """The atoms of one number, and every way to read it."""

    def __init__(self, atoms: list[str]) -> None:
        self.atoms = [*atoms, "", "", "", ""]
        self.end = len(atoms)

    def past(self, at: int, *wanted: str) -> int:
        """After an optional space, one of these and an optional space; or where it was."""
        start = at + (self.atoms[at] == " ")
        if self.atoms[start] not in wanted:
            return at
        return start + 1 + (self.atoms[start + 1] == " ")

    def space(self, at: int) -> int:
        return at + (self.atoms[at] == " ")

    # Whole numbers in words.

    def hundred(self, at: int) -> Counts:
        word, ways = self.atoms[at], []
        if word in ONES:
            ways.append((ONES[word], at + 1))
        first, _bar, second = word.partition("_")
        if first in TENS and second in ONES:
            ways.append((TENS[first] + ONES[second], at + 1))
        if word in TENS:
            ways.append((TENS[word], at + 1))
            more = self.space(at + 1)
            if 0 < ONES.get(self.atoms[more], 0) < 10:
                ways.append((TENS[word] + ONES[self.atoms[more]], more + 1))
        return ways

    def large(
        self, at: int, smaller: Callable[[int], Counts], word: str, most: int, size: int
    ) -> Counts:
        """Hundreds with what is below them; thousands with what is below them."""
        ways = smaller(at)
        heads = [*ways, (1, at + 1)] if self.atoms[at] == "a" else ways
        for count, end in list(heads):
            after = self.space(end)
            if self.atoms[after] != word or not 0 < count <= most:
                continue
            ways = [*ways, (count * size, after + 1)]
            rest = self.past(after + 1, "and")
            rest = rest if rest != after + 1 else self.space(after + 1)
            ways += [(count * size + low, last) for low, last in smaller(rest) if low]
        return ways

    def words(self, at: int) -> Counts:
        def hundreds(start: int) -> Counts:
            return self.large(start, self.hundred, "hundred", 19, 100)

        return self.large(at, hundreds, "thousand", 999, 1000)

    def whole(self, at: int) -> Counts:
        if self.atoms[at].isdigit():
            return [(int(self.atoms[at]), at + 1)]
        return self.words(at)

    # Fractions.

    def part(self, at: int) -> list[tuple[int, int, bool, int]]:
        """Top, bottom, whether a half in words, and where it ends."""
        atoms, ways = self.atoms, []
        if atoms[at].isdigit():
            slash = self.past(at + 1, "/")
            if slash != at + 1 and atoms[slash].isdigit():
                end = slash + 1 + (atoms[slash + 1] in ("th", "ths", "nd", "nds"))
                ways.append((int(atoms[at]), int(atoms[slash]), False, end))
        if atoms[at] in ("half", "quarter"):
            ways.append((1, PARTS[atoms[at]], atoms[at] == "half", at + 1))
        if atoms[at] in ("a", "an"):
            named = self.bottom(1, self.space(at + 1))
            ways += [way for way in named if not atoms[way[3] - 1].endswith("s")]
        counts = self.hundred(at)
        if atoms[at].isdigit() and len(atoms[at]) < 3:
            counts = [(int(atoms[at]), at + 1)]
        for count, end in counts:
            dash = self.past(end, "-")
            ways += self.bottom(count, dash if dash != end else self.space(end))
        return ways

    def bottom(self, top: int, at: int) -> list[tuple[int, int, bool, int]]:
        word = self.atoms[at]
        if word in PARTS:
            return [(top, PARTS[word], PARTS[word] == 2, at + 1)]
        if word in ("4", "8", "16", "64") and self.atoms[at + 1] in ("th", "ths"):
            return [(top, int(word), False, at + 2)]
        if word == "32" and self.atoms[at + 1] in ("nd", "nds"):
            return [(top, 32, False, at + 2)]
        return []

    def parts(self, at: int) -> list[tuple[Fraction, int, bool, int]]:
        """One fraction, or two counted together; as value, bottom, half, end."""
        ways = []
        for top, bottom, half, end in self.part(at):
            if not bottom:
                continue
            ways.append((Fraction(top, bottom), bottom, half, end))
            plus = self.past(end, "plus", "+")
            for more, under, _half, last in self.part(plus) if plus != end else ():
                total = Fraction(top, bottom) + Fraction(more, under or 1)
                if {bottom, under} <= {2, 4, 8, 16, 32, 64} and total < 1:
                    ways.append((total, max(bottom, under), False, last))
        return ways

    # Numbers.

    def numbers(self, at: int) -> Ways:
        ways = self.decimals(at)
        for value, bottom, half, end in self.parts(at):
            ways.append((_marked(Fraction(0), value, bottom, half)._replace(alone=True), end))
        for whole, end in [*self.whole(at), *self.thousands(at)]:
            ways.append((Number(Fraction(whole), Fraction(1)), end))
            ways += self.mixed(whole, end)
        unsure = {(Fraction(n), end) for n, end in self.thousands(at) if not self.surely(at, end)}
        return [
            way for way in ways if (way[0].value, way[1]) not in unsure or way[0].sort != "plain"
        ]

    def mixed(self, whole: int, end: int) -> Ways:
        joint = self.past(end, "-", "and", "&", "plus", "+")
        start = joint if joint != end else self.space(end)
        if joint == end and self.atoms[start] in ("half", "quarter"):
            return []
        return [
            (_marked(Fraction(whole), value, bottom, half), last)
            for value, bottom, half, last in self.parts(start)
            if self.atoms[end] not in ("/", ".", ",")
        ]

    def thousands(self, at: int) -> Counts:
        """``1,489`` as 1489, with each group; whether it surely is one is another matter."""
        ways, end, whole = [], at + 1, self.atoms[at]
        if not whole.isdigit() or len(whole) > 3 or whole[0] == "0":
            return []
        comma = self.atoms[end]
        while comma in (",", ".") and self.atoms[end] == comma and self._group(end + 1):
            whole += self.atoms[end + 1]
            end += 2
        if end > at + 1 and not (self.atoms[end] == comma and self.atoms[end + 1].isdigit()):
            ways.append((int(whole), end))
        return ways

    def _group(self, at: int) -> bool:
        return self.atoms[at].isdigit() and len(self.atoms[at]) == 3

    def surely(self, at: int, end: int) -> bool:
        """Thousands for sure: two groups or more."""
        return end - at > 3

    def decimals(self, at: int) -> Ways:
        atoms, ways = self.atoms, []
        for whole, end in [*self.thousands(at), *self.whole(at), *[(0, at)]]:
            grouped = end > at + 1 and atoms[at + 1] in (",", ".") and atoms[at].isdigit()
            mark = atoms[end]
            other = mark in (".", ",") and not (grouped and mark == atoms[at + 1])
            if other and (end == at or atoms[at].isdigit()):
                ways += self.after_point(whole, end, end > at, grouped)
            word = self.space(end) if end > at else at
            if atoms[word] == "point" and not grouped:
                ways += self.said_digits(whole, self.space(word + 1))
        return ways

    def after_point(self, whole: int, at: int, leading: bool, grouped: bool) -> Ways:
        digits = self.atoms[at + 1] if self.atoms[at + 1].isdigit() else ""
        if not digits:
            alone = leading and self.atoms[at] == "." and not grouped
            return [(Number(Fraction(whole), Fraction(1)), at + 1)] if alone else []
        step = Fraction(1, 10 ** len(digits))
        value = Fraction(whole) + int(digits) * step
        if self.atoms[at] == "," and len(digits) == 3 and not grouped:
            first = self.atoms[at - 1] if leading else ""
            both = 1 <= len(first) <= 3 and first[0] != "0"
            return [(Number(value, step, "comma", other=value * 1000 * both), at + 2)]
        return [(Number(value, step), at + 2)]

    def said_digits(self, whole: int, at: int) -> Ways:
        digits, end = "", at
        if self.atoms[at].isdigit():
            digits, end = self.atoms[at], at + 1
        while not self.atoms[at].isdigit():
            spot = self.space(end) if digits else end
            word = "zero" if self.atoms[spot] in ("oh", "nought") else self.atoms[spot]
            if not 0 <= ONES.get(word, 10) < 10:
                break
            digits, end = digits + str(ONES[word]), spot + 1
        step = Fraction(1, 10 ** len(digits))
        return [(Number(whole + int(digits) * step, step), end)] if digits else []

    # With units.

    def unit(self, number: Number, at: int) -> Ways:
        if number.sort in ("mark", "half"):
            of = self.past(at, "of")
            at = of if of != at else self.space(at)
            article = self.past(at, "a", "an")
            at = article if article != at else at
        at = self.space(at)
        if self.atoms[at] == "'" == self.atoms[at + 1]:
            return [(number._replace(unit="in"), at + 2)]
        if self.atoms[at] in UNITS:
            return [(number._replace(unit=UNITS[self.atoms[at]]), at + 1)]
        return []

    def amounts(self) -> list[Number]:
        ways = []
        for number, end in self.numbers(0):
            ways += [(number, end), *self.unit(number, end)]
        ways += [*self.feet(), *self.between(), *self.one(), *self.gaps(), *self.unmarked()]
        done = {number for number, end in ways if self.ended(end)}
        return list(done)

    def ended(self, at: int) -> bool:
        at = self.space(at)
        return at + (self.atoms[at] == ".") >= self.end

    def feet(self) -> Ways:
        ways: Ways = []
        for feet, end in self.whole(0):
            after = self.space(end)
            if UNITS.get(self.atoms[after]) != "ft":
                continue
            after += self.atoms[after + 1] == "." and self.atoms[after] == "ft"
            joint = self.past(after + 1, "-", "and")
            start = joint if joint != after + 1 else self.space(after + 1)
            by_and = "and" in self.atoms[after + 1 : start]
            for number, last in self.numbers(start):
                marked = "/" in self.atoms[start : start + 3] and not by_and
                ways += [
                    (_in_feet(feet, number), spot)
                    for united, spot in [(number, last), *self.unit(number, last)]
                    if united.unit == "in" or (not united.unit and (marked or not number.alone))
                ]
        return [(number, end) for number, end in ways if number.other >= 0]

    def between(self) -> Ways:
        ways: Ways = []
        ones = [(1, 1)] if self.atoms[0] in ("a", "an") else []
        ones += [(1, 0)] if self.atoms[0] == "inch" else []
        for whole, end in [*self.whole(0), *ones]:
            after = self.space(end)
            joint = self.past(after + 1, "and", "&", "plus", "+")
            if UNITS.get(self.atoms[after]) != "in" or joint == after + 1:
                continue
            for top, bottom, half, last in self.part(joint):
                number = _marked(Fraction(whole), Fraction(top, bottom or 1), bottom, half)
                ways.append((number._replace(unit="in"), last))
                ways += [way for way in self.unit(number, last) if way[0].unit == "in"]
        return ways

    def one(self) -> Ways:
        number = Number(Fraction(1), Fraction(1))
        return self.unit(number, 1) if self.atoms[0] in ("a", "an") else []

    def gaps(self) -> Ways:
        whole, end = self.atoms[0], 1
        if not whole.isdigit() or len(whole) > 3 or whole[0] == "0":
            return []
        while self.atoms[end] == " " and self._group(end + 1):
            whole, end = whole + self.atoms[end + 1], end + 2
        ways = [(Number(Fraction(whole), Fraction(1)), end)]
        if self.atoms[end] in (".", ",") and self.atoms[end + 1].isdigit():
            ways = self.after_point(int(whole), end, True, False)
            ways = [(way._replace(other=Fraction(0)), last) for way, last in ways]
        ways = [found for number, last in ways for found in self.unit(number, last)]
        return [way for way in ways if way[0].unit == "mm"] if end > 1 else []

    def unmarked(self) -> Ways:
        atoms = self.atoms
        second = self.past(1, "-") if self.past(1, "-") != 1 else self.space(1)
        if not atoms[0].isdigit() or not atoms[second].isdigit() or second == 1:
            return []
        if len(atoms[0]) > 2 or len(atoms[second]) > 2:
            return []
        third = self.past(second + 1, "-")
        third = third if third != second + 1 else self.space(second + 1)
        ways: Ways = []
        for top, bottom, _half, end in self.part(third) if third > second + 1 else ():
            if "/" not in atoms[third:end]:
                continue
            number = _marked(Fraction(atoms[second]), Fraction(top, bottom or 1), bottom, False)
            as_one = Fraction(atoms[0] + atoms[second])
            number = _in_feet(int(atoms[0]), number)
            if number.other < 0:
                continue
            bare = number._replace(sort="bare feet", other=as_one, unit="")
            ways += [(bare, end), *((bare._replace(unit="in"), e) for n, e in self.inch(end))]
        return ways

    def inch(self, at: int) -> Ways:
        return [w for w in self.unit(Number(Fraction(0), Fraction(1)), at) if w[0].unit == "in"]


def _marked(whole: Fraction, part: Fraction, bottom: int, half: bool) -> Number:
    """A mixed number; a bottom no tape has, or a part of one and more, is marked as wrong."""
    good = bottom in (2, 4, 8, 16, 32, 64) and 0 < part < 1
    step = Fraction(1, bottom) if bottom else Fraction(1)
    return Number(whole + part, step, "half" if half else "mark" if good else "wrong")


def _in_feet(feet: int, number: Number) -> Number:
    good = number.sort != "wrong" and number.value < 12
    two_senses = number.sort == "comma" and number.other > 0
    other = Fraction(two_senses if good else -1)
    return Number(feet * 12 + number.value, number.step, "feet", "in", other)


# -- What is said around a number ---------------------------------------------------------------

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


class Piece(NamedTuple):
    """One number and how it is shaded: 1 up, -1 down, 0 about, None not at all."""

    number: Number
    shade: int | None


def _piece(text: str) -> Piece:
    ways = {Piece(number, None) for number in _amounts(text)}
    for sign, phrase in _BEFORE:
        if found := re.match(rf"({phrase})(?![a-z])(.*)$", text):
            ways |= {Piece(number, sign) for number in _amounts(found[2].strip())}
    if text[:1] in ("~", "≈"):
        ways |= {Piece(number, 0) for number in _amounts(text[1:].strip())}
    for sign, phrase in _AFTER:
        if found := re.fullmatch(rf"(.*?) ?,? ?(?<![a-z])({phrase})", text):
            ways |= {Piece(number, sign) for number in _amounts(found[1].strip())}
    if len(ways) != 1:
        raise Refused(text)
    return ways.pop()


def _amounts(text: str) -> list[Number]:
    return Page(_atoms(text)).amounts() if text else []


# -- From numbers to a length -------------------------------------------------------------------


def _inside(nm: Fraction, span: Span) -> bool:
    return span is not None and span[0] <= nm <= span[1]


def _only(ways: Iterable[Read]) -> Read:
    found = list(ways)
    if len(found) != 1:
        raise Refused
    return found[0]


def _resolve(number: Number, unit: str | None, span: Span) -> Read:
    sort, written = number.sort, number.unit != ""
    known = number.unit or unit
    if sort == "wrong" or (sort == "feet" and number.other < 0):
        raise Refused
    if sort == "bare feet":
        if not _inside(number.value * INCH, span) or _inside(number.other * INCH, span):
            raise Refused
        return Read(number.value * INCH, number.step * INCH, "in", written, True)
    if sort == "mark" and not written:
        return Read(number.value * INCH, number.step * INCH, "in", False, unit != "in")
    if sort == "half" and not written and unit != "in":
        return _fitting([_sized(number, known, False) for known in ("in", "mm")], span)
    if sort in ("mark", "half") and (known not in ("in", "mm") or _not_half_a_mm(number, known)):
        raise Refused
    if sort == "comma":
        return _comma(number, (known,) if known else ("in", "mm"), written, span)
    if known is None:
        if not number.value:
            return _sized(number, "in", False)
        return _fitting([_sized(number, known, False) for known in ("in", "mm")], span)
    return _sized(number, "in" if sort == "feet" else known, written)


def _not_half_a_mm(number: Number, unit: str) -> bool:
    return unit == "mm" and number.step != Fraction(1, 2)


def _sized(number: Number, unit: str, written: bool) -> Read:
    size = SIZE[unit]
    two_senses = number.sort == "feet" and number.other > 0
    return Read(number.value * size, number.step * size, unit, written, two_senses)


def _fitting(ways: list[Read], span: Span) -> Read:
    return _only(way._replace(assumed=True) for way in ways if _inside(way.nm, span))


def _comma(number: Number, units: Iterable[str], written: bool, span: Span) -> Read:
    senses = [(number.value, number.step)]
    if number.other:
        senses.append((number.other, Fraction(1)))
    assumed = len(senses) > 1 or len(list(units)) > 1
    return _only(
        Read(value * SIZE[unit], step * SIZE[unit], unit, written, assumed)
        for unit in units
        for value, step in senses
        if _inside(value * SIZE[unit], span)
    )


def _shaded(piece: Piece, unit: str | None, span: Span) -> Read:
    read = _resolve(piece.number, unit, span)
    mark = read.mark if read.mark.denominator == 1 else Fraction(0)
    read = read._replace(mark=mark)
    if read.nm.denominator != 1 or not 0 <= read.nm <= MOST:
        raise Refused
    if piece.shade is None:
        return read
    inch = read.unit in ("in", "ft")
    if piece.shade == 0:
        width = max(mark, INCH / 16 if inch else MM)
        return read._replace(assumed=True, extra=float(width) / math.sqrt(3))
    quarter = min(mark, INCH / 8 if inch else MM) / 4
    moved = quarter if quarter.denominator == 1 else Fraction(0)
    nm = read.nm + piece.shade * moved
    if not 0 <= nm <= MOST:
        raise Refused
    return read._replace(nm=nm, assumed=True, extra=float(quarter) / math.sqrt(3))


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
        return [_shaded(piece, None, span) for piece in pieces]
    if any(piece.number.sort in ("mark", "bare feet") for piece in pieces):
        return [_shaded(piece, "in", span) for piece in pieces]
    if unit:
        return [_shaded(piece, unit, span) for piece in pieces]
    ways = []
    for known in ("in", "mm"):
        try:
            reads = [_shaded(piece, known, span) for piece in pieces]
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
    reads = _all(pieces, unit, span, lambda found: all(_inside(one.nm, span) for one in found))
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
        [start, end], unit, None, lambda found: _inside(found[1].nm - found[0].nm, span)
    )
    near = last.nm < first.nm * Fraction(5, 4)
    both = span is None or (_inside(first.nm, span) and _inside(last.nm, span))
    if last.nm <= first.nm or (near and both):
        raise Refused
    return _joined([first, last], last.nm - first.nm, last.mark, last.extra)


def second_read(text: str, unit: str | None, span: Span) -> Read:
    """The one meaning of a text; raises Refused where there is none, or more than one."""
    plain = _plain(text)
    plain = plain[1:].strip() if plain[:1] == "ø" else plain
    if plain.endswith(".") and not plain.endswith(".."):
        plain = plain[:-1]
    plain = re.sub(r"(?<=[a-z])\.(?!\.)", " ", plain)
    plain = re.sub(r"(/ ?[0-9]+(?:ths?+|nds?+))(?=[a-z])", r"\1 ", plain)
    plain = _apart(re.sub(" +", " ", plain).strip())
    if found := re.search(r"(?<![a-z])to(?![a-z])|->", plain):
        start = re.sub(r"^from(?![a-z]) ?", "", plain[: found.start()])
        pair = [_piece(part.strip()) for part in (start, plain[found.end() :])]
        return _difference(pair[0], pair[1], unit, span)
    parts = _parts_of(plain)
    if len(parts) == 1:
        return _shaded(_piece(parts[0]), unit, span)
    if len(parts) == 2 and "," in plain and _one_number(parts):
        raise Refused
    return _mean([_piece(part) for part in parts], unit, span)


def _one_number(parts: list[str]) -> bool:
    """``44, 44``: also one number with a gap after its comma."""
    bare = "|".join(phrase for _sign, phrase in (*_BEFORE, *_AFTER))
    first, second = (re.sub(rf"^(?:{bare}|[~≈]) ?|,? ?(?:{bare})$", "", part) for part in parts)
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
    return bool(
        re.search(r"[0-9]$", before) or re.fullmatch(f"(?:{alone}|[~≈])? ?", before.strip())
    )
