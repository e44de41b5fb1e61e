"""For the second reader: atoms, and every way to read a number among them."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import NamedTuple


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


def atoms_of(text: str) -> list[str]:
    """Digits, words, signs and single spaces."""
    return re.findall(r"[0-9]+|(?<=[0-9])(?:ths?|nds?)(?![a-z])|[a-z_]+|->| |.", text, re.DOTALL)


def apart(text: str) -> str:
    """Hyphens between words are spaces; twenty-five and thirty seconds are one word."""
    text = _PAIR.sub(lambda found: found[0].replace("-", "_"), text)
    text = re.sub("(?<=[a-z])-(?=[a-z])", " ", text)
    return _SPLIT.sub(_as_pair, text)


def _as_pair(found: re.Match[str]) -> str:
    pair = f"{found[1]}_{found[2]}"
    return pair if pair in PARTS else found[0]


class Numbers:
    """The atoms of one length, and every way to read a number among them."""

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
            ways.append((marked(Fraction(0), value, bottom, half)._replace(alone=True), end))
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
            (marked(Fraction(whole), value, bottom, half), last)
            for value, bottom, half, last in self.parts(start)
            if self.atoms[end] not in ("/", ".", ",")
        ]

    def thousands(self, at: int) -> Counts:
        """``1,489`` as 1489, with each group; whether it surely is one is another matter."""
        ways, end, whole = [], at + 1, self.atoms[at]
        if not whole.isdigit() or len(whole) > 3 or whole[0] == "0":
            return []
        comma = self.atoms[end]
        while comma in (",", ".") and self.atoms[end] == comma and self.group(end + 1):
            whole += self.atoms[end + 1]
            end += 2
        if end > at + 1 and not (self.atoms[end] == comma and self.atoms[end + 1].isdigit()):
            ways.append((int(whole), end))
        return ways

    def group(self, at: int) -> bool:
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


def marked(whole: Fraction, part: Fraction, bottom: int, half: bool) -> Number:
    """A mixed number; a bottom no tape has, or a part of one and more, is marked as wrong."""
    good = bottom in (2, 4, 8, 16, 32, 64) and 0 < part < 1
    step = Fraction(1, bottom) if bottom else Fraction(1)
    return Number(whole + part, step, "half" if half else "mark" if good else "wrong")
