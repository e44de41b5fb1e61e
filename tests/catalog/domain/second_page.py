"""For the second reader: every way to read one length, with its unit or without."""

from __future__ import annotations

from fractions import Fraction

from tests.catalog.domain.second_numbers import UNITS, Number, Numbers, Ways, atoms_of, marked


def lengths_of(text: str) -> list[Number]:
    """Every meaning of the text as one length."""
    text = text[1:].strip() if text[:1] == "ø" else text
    return Page(atoms_of(text)).amounts() if text else []


class Page(Numbers):
    """One length: a number, feet and inches, or what is written without its marks."""

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
                number = marked(Fraction(whole), Fraction(top, bottom or 1), bottom, half)
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
        while self.atoms[end] == " " and self.group(end + 1):
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
            number = marked(Fraction(atoms[second]), Fraction(top, bottom or 1), bottom, False)
            as_one = Fraction(atoms[0] + atoms[second])
            number = _in_feet(int(atoms[0]), number)
            if number.other < 0:
                continue
            bare = number._replace(sort="bare feet", other=as_one, unit="")
            ways += [(bare, end), *((bare._replace(unit="in"), e) for n, e in self.inch(end))]
        return ways

    def inch(self, at: int) -> Ways:
        return [w for w in self.unit(Number(Fraction(0), Fraction(1)), at) if w[0].unit == "in"]


def _in_feet(feet: int, number: Number) -> Number:
    good = number.sort != "wrong" and number.value < 12
    two_senses = number.sort == "comma" and number.other > 0
    other = Fraction(two_senses if good else -1)
    return Number(feet * 12 + number.value, number.step, "feet", "in", other)
