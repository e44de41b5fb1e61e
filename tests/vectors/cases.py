"""What is asked of both readers of lengths: (text, unit of the tape, name of a range).

From the tables of the reader's own tests, and every form with every mark of a tape.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import chain, product

from catalog.domain import shades, spoken
from catalog.domain.lengths import NM_PER_MM, Length, inches
from catalog.domain.tape import Plausible, Unit
from intake.domain.questions import MEASURED, QUESTIONS
from tests.bench.length_texts import a_text
from tests.catalog.domain import test_read_length as plainly
from tests.catalog.domain import test_tape_language as language
from tests.catalog.domain.test_round_trip import ways
from tests.vectors.tables import rows_of

Case = tuple[str, Unit | None, str]

RANGES: dict[str, Plausible | None] = {
    "": None,
    "long": language.LONG,
    "short": language.SHORT,
    "tape": plainly.RANGE,
    **{slug: QUESTIONS[slug].widest for slug in MEASURED},
}
TAPES: tuple[Unit | None, ...] = ("in", "mm", None)


def cases() -> list[Case]:
    """Every case, once."""
    every = chain(_tables(), _marks(), _said(), _forms(), _ranges(), _strange(), _random())
    return list(dict.fromkeys(every))


def _on(tapes: Iterable[Unit | None], texts: Iterable[str], span: str = "") -> Iterator[Case]:
    return ((text, tape, span) for text, tape in product(texts, tapes))


_TABLES = (
    plainly.test_it_is_read,
    plainly.test_what_was_probably_meant_is_among_the_suggestions,
    plainly.test_it_is_read_back_as_said_on_the_phone,
    language.test_it_is_read_surely,
    language.test_its_unit_is_written_or_assumed,
    language.test_the_smallest_mark_is_the_one_written,
    language.test_the_mark_at_the_start_is_taken_off_aloud,
    language.test_the_mean_of_readings_is_taken_aloud,
)


def _tables() -> Iterator[Case]:
    for table in _TABLES:
        yield from _on(("in",), (row[0] for row in rows_of(table)))
        yield from _on((None,), (row[0] for row in rows_of(table)), "long")
    refused = (*plainly.REFUSED, *language.AMBIGUOUS, *language.NONSENSE)
    yield from _on(("in",), refused)
    yield from _on((None,), refused, "long")
    names = {span: name for name, span in RANGES.items() if name in ("long", "short")}
    for text, unit, span, *_rest in rows_of(language.test_the_range_decides_and_says_so):
        yield text, unit, names[span]


def _marks() -> Iterator[Case]:
    """Every 64th below an inch and on 58 inches, and some lengths in every way of showing them."""
    for top in range(1, 64):
        part = Fraction(top, 64)
        yield from _on(("in",), (f"{part}", f"58 {part}", f"58-{top}/64 in", f"{top / 64} in"))
        yield f"58 {part}", None, "face_to_strut_aft"
        yield Length(inches(58).nm + top * 396_875).spoken("in"), "in", ""
    for top in range(1, 16):
        yield from _on(("in",), (f"{top}/16", f"7 {top} 16ths", f"{spoken.whole(top)} sixteenths"))
    for marks in (1, 16, 32, 64 * 2 + 5, 64 * 12, 64 * 58 + 40, 64 * 120 + 33):
        yield from _on(("in",), ways(marks))


def _said() -> Iterator[Case]:
    """Whole numbers and micrometres in words."""
    numbers = (*range(21), *range(30, 130, 9), 200, 999, 1000, 1001, 1100, 1489, 2005, 99_999)
    for number in numbers:
        words = Length(number * NM_PER_MM).spoken("mm")
        yield from _on(("in",), (words, words.replace("-", " "), spoken.whole(number)))
    for nm in (1, 49_999, 50_000, 500, 25_400, 1_234_567, 19_050_000, 99_999_950_000):
        yield from _on(("in",), (f"{Length(nm).mm_text} mm", Length(nm).spoken("mm")))


_NUMBERS = ("58 5/8", "58", "58.6", "1489 mm", "58 19/32", "4' 10\"", "0", "149 cm", "58.62500")
_FULL = str.maketrans("0123456789./-", "０１２３４５６７８９．／－")


def _forms() -> Iterator[Case]:
    """Words of shade, feet and inches, full width, repeated readings."""
    for before, after in zip(sorted(shades.BEFORE), sorted(shades.AFTER), strict=False):
        yield f"{' '.join(before)} 58 5/8", "in", ""
        yield f"1489 {' '.join(after)}", "mm", ""
    for number in _NUMBERS:
        texts = [f"{number} strong", f"shy {number}", f"about {number}", f"{number}, bare"]
        texts += [f"{number} or so", number.translate(_FULL), f"10 to {number}", f"ø {number}"]
        texts += [f"{number}; {number}", f"{number} or {number} shy", f"{number} plus 1/8"]
        yield from _on(TAPES, texts)
    for feet, inch in product(range(0, 20, 3), ("0", "5/8", "10", "10 5/8", "11.5", "12", "14½")):
        texts = [f"{feet}' {inch}\"", f"{feet} ft {inch}", f"{spoken.whole(feet)} feet {inch}"]
        yield from _on(("in",), [*texts, f"{feet} {inch}"])
        yield f"{feet}-{inch}", None, "face_to_strut_aft"


def _ranges() -> Iterator[Case]:
    """Bare numbers and commas, with the range of every measured question."""
    for slug in MEASURED:
        texts = ("1", "1.5", "25", "58", "58,5", "1,489", "1489", "3/4", "a half", "4 10 5/8")
        yield from _on((None,), texts, slug)
    yield from _on(TAPES, ("1,489", "0,375", "58,625", "12,345", "1,489,000", "300"), "long")
    yield from _on((None,), ("254", "253.999", "200", "200.001", "0", "0.0", "9.999"), "tape")


def _strange() -> Iterator[Case]:
    """What other languages of programming stumble over: huge numbers, names of their own."""
    texts = ["9" * 99, "0" * 99, "9" * 50 + "/8", "1." + "0" * 97, "0." + "0" * 95 + "1 m"]
    texts += ["9" * 40 + "' 5\"", "5' " + "9" * 40 + '"', "9" * 30 + " 5/8 mm", "007 05/08"]
    texts += ["constructor", "__proto__", "toString 58", "58 valueOf", "9007199254740993 mm"]
    texts += ["99999.999999 mm", "100000.000001 mm", "3937.0078740157 in", "100 m", "328 ft"]
    texts += ["１" * 101, "😀" * 60, "58 😀", "\u2028" * 3, "58\u20285/8", "-3\x0c", "İ", "ß58"]
    texts += [
        "58\u200b\u200b5",
        "² mm in",
        "²½ mm mm",
        "५८ in mm",
        "mmm m m",
        "xmm 5 in",
        "a b\x85",
    ]
    texts += ["58 ⁵⁄\t₈", "\t58\r\n", "58 ''", "``58``", "- 3 in.", "4 ft.5", "58..", "58. .", "."]
    yield from _on(TAPES, texts)


def _random() -> Iterator[Case]:
    """A few hundred of the texts that are tried at random, always the same ones."""
    rng = random.Random(4)
    for _ in range(400):
        text = a_text(rng)[1]
        yield text, rng.choice(TAPES), rng.choice(("", "long", "short"))
