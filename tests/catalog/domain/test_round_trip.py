"""A length shown in every way that people write it, and read again: always the same length."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from math import gcd

from hypothesis import example, given
from hypothesis import strategies as st

from catalog.domain import lengths, refusals
from catalog.domain.lengths import Length, inches
from catalog.domain.tape import read_length

MARKS = st.integers(1, 64 * 300)
FULL = str.maketrans("0123456789/.-", "０１２３４５６７８９／．－")
RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
LOWERED = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
SIGNS = {"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}


def ways(marks: int) -> Iterator[str]:
    """So many 64ths of an inch, in every way that shows them exactly."""
    length = Length(marks * lengths.NM_PER_64TH)
    whole, rest = divmod(marks, 64)
    yield from (length.show("in"), f"{marks / 64} in", f"{marks / 64:.8f} in".replace(".", ","))
    yield from _metric(length)
    yield from (length.spoken("in"), length.spoken("in").title())
    yield from _feet(whole, rest)
    if marks >= 160:  # less than a quarter of the mark at the start is asked about
        yield f"10 to {Length(length.nm + inches(10).nm).inch_text} in"
        yield f"from 100 mm -> {Length(length.nm + 100_000_000).mm_text} mm"
    if not rest:
        yield length.spoken("in").replace("-", " ")
    else:
        top, bottom = rest // gcd(rest, 64), 64 // gcd(rest, 64)
        yield from _mixed(whole, top, bottom)


def _metric(length: Length) -> Iterator[str]:
    exact = Fraction(length.nm, lengths.NM_PER_MM)
    yield f"{length.mm_text} mm"
    for unit, size, places in (("cm", 10, 7), ("m", 1000, 9)):
        scaled = exact / size
        digits = f"{int(scaled * 10**places):0{places + 1}d}"
        yield f"{digits[:-places]}.{digits[-places:]} {unit}"


def _feet(whole: int, rest: int) -> Iterator[str]:
    feet, below = divmod(whole, 12)
    number = f"{below} {Fraction(rest, 64)}" if rest else str(below)
    yield from (f"{feet}' {number}\"", f"{feet} ft {number} in", f"{feet}′{number}″")
    yield f"{feet} feet and {number} inches"


def _mixed(whole: int, top: int, bottom: int) -> Iterator[str]:
    part = f"{top}/{bottom}"
    raised, lowered = str(top).translate(RAISED), str(bottom).translate(LOWERED)
    yield from (f"{whole}-{part}", f"{whole} - {part} in.", f"{whole}\u00a0{part}″")
    yield from (f"{whole} {top}⁄{bottom}", f"{whole}{raised}⁄{lowered}", f"{whole} {part}ths")
    yield from (f"{whole} {part}".translate(FULL), f"{whole} inches and {part}")
    if part in SIGNS:
        yield from (f"{whole}{SIGNS[part]}", f"{whole} {SIGNS[part]} in", f"{whole}-{SIGNS[part]}")
    for finer in (bottom, *(size for size in (16, 32, 64) if size > bottom)):
        many = top * finer // bottom
        yield from (f"{whole} + {many}/{finer}", f"{whole} plus {many}/{finer} in")
        if finer > 4:
            name = {8: "eighth", 16: "sixteenth", 32: "thirty-second", 64: "sixty-fourth"}[finer]
            yield f"{whole} plus {many} {name}{'' if many == 1 else 's'}"
            yield f"{whole} and {many} {name}s"


@given(MARKS)
@example(1)
@example(3752)
@example(64 * 100 + 40)
@example(64 * 120 + 5)
@example(64 * 12)
@example(64 * 200 + 32)
def test_every_way_of_showing_a_mark_reads_the_same(marks: int) -> None:
    for text in ways(marks):
        assert read_length(text).length.nm == marks * lengths.NM_PER_64TH, text


@given(st.integers(0, 20_000_000))
@example(1489_125)
@example(100_000)
def test_every_micrometre_said_in_words_reads_the_same(micrometres: int) -> None:
    length = Length(micrometres * 1000)
    for text in (length.spoken("mm"), f"{length.mm_text[:-3]} mm", f"{length.mm_text[:-3]}0mm"):
        assert read_length(text).length == length, text


@given(MARKS, st.sampled_from(["about {}", "{} strong", "{} shy", "{}; {}", "{} or so"]))
def test_what_is_added_to_a_text_does_not_change_its_number(marks: int, words: str) -> None:
    length = Length(marks * lengths.NM_PER_64TH)
    for text in ways(marks):
        said = words.replace("{}", text)
        if " to " in text or "->" in text or len(said) > refusals.LONGEST:
            continue
        read = read_length(said)
        moved = abs(read.length - length)
        assert moved <= inches("1/32"), text
        assert read.doubts


def _said_wholes() -> Iterator[tuple[str, int]]:
    forms: tuple[Callable[[str], str], ...] = (str, lambda text: text.replace("-", " "))
    for number in (*range(1300), *range(1300, 99_000, 397)):
        for form in forms:
            yield form(Length(number * lengths.NM_PER_MM).spoken("mm")), number


def test_every_whole_number_in_words_reads_the_same() -> None:
    for text, number in _said_wholes():
        assert read_length(text).length.nm == number * lengths.NM_PER_MM, text
