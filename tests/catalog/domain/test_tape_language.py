"""What people say around the figures: each form with the length it means, to the nanometre."""

from __future__ import annotations

import math
import random
from contextlib import suppress

import pytest

from catalog.domain import tape
from catalog.domain.characters import plain
from catalog.domain.lengths import Length, inches, mm
from catalog.domain.tape import LengthError, Plausible, Unit, read_length
from tests.bench import length_texts

EIGHTH = inches("58 5/8")
LONG: Plausible = (inches(8), inches(240))
SHORT: Plausible = (Length(0), inches(3))

# Read surely: no doubt.
WORDS = [
    ("fifty-eight and five eighths", EIGHTH),
    ("Fifty Eight and Five Eighths", EIGHTH),
    ("fifty-eight and five-eighths inches", EIGHTH),
    ("fifty-eight five eighths", EIGHTH),
    ("fifty-eight inches and five eighths", EIGHTH),
    ("fifty eight", inches(58)),
    ("fifty eight point six", inches("58.6")),
    ("fifty-eight point six two five", EIGHTH),
    ("fifty-eight point oh five", inches("58.05")),
    ("58 point 625", EIGHTH),
    ("point seven five", inches("3/4")),
    ("nought point five", inches("1/2")),
    ("zero", Length(0)),
    ("a hundred and two and a half", inches("102 1/2")),
    ("one hundred and two", inches(102)),
    ("one hundred and five eighths", inches("100 5/8")),
    ("two hundred and one half", inches("200 1/2")),
    ("one hundred and five and five eighths", inches("105 5/8")),
    ("one hundred and twenty-five sixty-fourths", inches("100 25/64")),
    ("fourteen hundred and eighty-nine millimetres", mm(1489)),
    ("one thousand four hundred and eighty-nine millimetres", mm(1489)),
    ("two thousand and five mm", mm(2005)),
    ("nineteen point zero five millimeters", mm("19.05")),
    ("58 and a half", inches("58 1/2")),
    ("two and a half", inches("2 1/2")),
    ("two-and-a-half", inches("2 1/2")),
    ("half", inches("1/2")),
    ("a half", inches("1/2")),
    ("half an inch", inches("1/2")),
    ("half inch", inches("1/2")),
    ("three quarters", inches("3/4")),
    ("three quarters of an inch", inches("3/4")),
    ("3/4 of an inch", inches("3/4")),
    ("a quarter inch", inches("1/4")),
    ("an inch", inches(1)),
    ("an inch and a half", inches("1 1/2")),
    ("one inch and a half", inches("1 1/2")),
    ("inch and a quarter", inches("1 1/4")),
    ("one and a half inches", inches("1 1/2")),
    ("58 and a half mm", mm("58.5")),
    ("58 and 3 eighths", inches("58 3/8")),
    ("58 and 5/8", EIGHTH),
    ("58 & 5/8", EIGHTH),
    ("58 3 sixteenths", inches("58 3/16")),
    ("58 10 16ths", EIGHTH),
    ("58 5/8ths", EIGHTH),
    ("three thirty-seconds", inches("3/32")),
    ("three thirty seconds", inches("3/32")),
    ("one sixty fourth of an inch", inches("1/64")),
    ("four feet ten and five eighths", EIGHTH),
    ("four foot ten", inches(58)),
    ("4 feet and 5/8 inch", inches("48 5/8")),
    ("5 ft and 6 in", inches(66)),
]
COUNTED = [
    ("58 plus 10 sixteenths", EIGHTH),
    ("58 + 10/16", EIGHTH),
    ("58+10/16 in", EIGHTH),
    ("58 in plus 10 16ths", EIGHTH),
    ("58 plus ten sixteenths", EIGHTH),
    ("58 1/2 + 1/8", EIGHTH),
    ("58 5/8 plus a thirty-second", inches("58 21/32")),
]
CHARACTERS = [
    ("５８ ５／８", EIGHTH),
    ("５８．６２５ ｉｎ", EIGHTH),
    ("58\u00a05/8", EIGHTH),
    ("58\u202f5/8", EIGHTH),
    ("\u200758\u20095⁄8\u00a0", EIGHTH),
    ("58\t5/8", EIGHTH),
    ("58\u2060 5/8\ufeff", EIGHTH),
    ("58 ⁵⁄₈", EIGHTH),
    ("58⁵⁄₈", EIGHTH),
    ("58⁵/8", EIGHTH),
    ("58 10∕16", EIGHTH),
    ("58⅟8", inches("58 1/8")),
    ("58 ⅟₁₆", inches("58 1/16")),
    ("58–5/8", EIGHTH),
    ("58‑5/8", EIGHTH),
    ("58 — 5/8", EIGHTH),
    ("58½", inches("58 1/2")),
    ("５８½", inches("58 1/2")),
    ("58\u00a0½", inches("58 1/2")),
    ("5½\ufe0f", inches("5 1/2")),
    ("5\u00a0ft", inches(60)),
    ("4‘ 10 5/8“", EIGHTH),
    ("4´ 10 5/8´´", EIGHTH),
    ("58 5/8＂", EIGHTH),
    ("1489㎜", mm(1489)),
    ("ø ５８", inches(58)),
    ("Ø fifty-eight", inches(58)),
]
SIGNS = [
    *(("58½", "58 1/2"), ("58¼", "58 1/4"), ("58¾", "58 3/4"), ("58⅛", "58 1/8")),
    *(("58⅜", "58 3/8"), ("58⅝", "58 5/8"), ("58⅞", "58 7/8"), ("⅞", "7/8")),
]
THOUSANDS = [
    ("1,489.5 mm", mm("1489.5")),
    ("1.489,5 mm", mm("1489.5")),
    ("1,489 5/8", inches("1489 5/8")),
    ("12,345.25 mm", mm("12345.25")),
    ("1 489 mm", mm(1489)),
    ("1 489,5 mm", mm("1489.5")),
    ("1\u202f489 mm", mm(1489)),
]


@pytest.mark.parametrize(("text", "length"), [*WORDS, *COUNTED, *CHARACTERS, *THOUSANDS])
def test_it_is_read_surely(text: str, length: Length) -> None:
    read = read_length(text)
    assert (read.length, read.doubts, read.extra_u_nm) == (length, (), 0.0)


@pytest.mark.parametrize(("text", "length"), SIGNS)
@pytest.mark.parametrize("gap", ["", " ", "\u00a0", "-"])
def test_a_sign_is_never_drawn_into_the_number(text: str, length: str, gap: str) -> None:
    apart = text[:-1] + (gap if len(text) > 1 else "") + text[-1]
    assert read_length(apart).length == inches(length)


@pytest.mark.parametrize(
    ("text", "unit", "written"),
    [
        ("fifty-eight", "in", False),
        ("half an inch", "in", True),
        ("four foot ten", "in", True),
        ("five feet", "ft", True),
        ("10 to 68 5/8 in", "in", True),
        ("148 cm, 148.1 cm", "cm", True),
        ("about 1.5 metres", "m", True),
        ("2' to 4' 10\"", "in", True),
        ("1480 mm; 148.1 cm", "mm", True),
    ],
)
def test_its_unit_is_written_or_assumed(text: str, unit: str, written: bool) -> None:
    read = read_length(text)
    assert (read.unit, read.unit_written) == (unit, written)


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("58", inches(1)),
        ("58 5/8", inches("1/8")),
        ("58 10/16", inches("1/16")),
        ("58⅝", inches("1/8")),
        ("fifty-eight and five eighths", inches("1/8")),
        ("58 plus 10 sixteenths", inches("1/16")),
        ("58.6", inches("0.1")),
        ("58.60", inches("0.01")),
        ("1489 mm", mm(1)),
        ("1489.5 mm", mm("0.1")),
        ("58 1/2 mm", mm("0.5")),
        ("148.9 cm", mm(1)),
        ("1.489 m", mm(1)),
        ("4'", inches(12)),
        ("4' 10", inches(1)),
        ("4' 10 5/8", inches("1/8")),
        ("10 to 68 5/8", inches("1/8")),
        ("58 5/8, 58 9/16", inches("1/16")),
        ("58 5/8 strong", inches("1/8")),
        ("1.00000000 mm", None),
    ],
)
def test_the_smallest_mark_is_the_one_written(text: str, mark: Length | None) -> None:
    assert read_length(text).mark == mark


# -- Strong, shy, about -------------------------------------------------------------------------

THIRD = 1 / math.sqrt(3)


@pytest.mark.parametrize(
    ("number", "part"),
    [
        ("58 5/8", "1/32"),
        ("58 10/16", "1/64"),
        ("58 1/2", "1/32"),
        ("58", "1/32"),
        ("58.6", "0.025"),
        ("4' 10 5/8\"", "1/32"),
        ("fifty-eight and five eighths", "1/32"),
    ],
)
@pytest.mark.parametrize(
    ("words", "sign"),
    [
        *(("{} strong", 1), ("{} full", 1), ("{}, heavy", 1), ("a strong {}", 1)),
        *(("just over {}", 1), ("{} and a bit", 1), ("{} shy", -1), ("{} a bit shy", -1)),
        *(("{}, bare", -1), ("{} light", -1), ("{} scant", -1), ("just shy of {}", -1)),
        *(("a hair under {}", -1), ("{} slightly light", -1), ("nearly {}", -1)),
    ],
)
def test_a_shade_is_a_quarter_of_the_mark(number: str, part: str, words: str, sign: int) -> None:
    plain, shaded = read_length(number), read_length(words.format(number))
    assert shaded.length.nm == plain.length.nm + sign * inches(part).nm
    assert shaded.extra_u_nm == pytest.approx(inches(part).nm * THIRD)
    assert len(shaded.doubts) == 1
    assert ("more" if sign > 0 else "less") in shaded.doubts[0]


def test_a_shade_of_millimetres_is_a_quarter_of_one() -> None:
    assert read_length("1489 mm strong").length == mm("1489.25")
    assert read_length("149 cm shy").length == mm("1489.75")
    assert read_length("1489.5 shy", "mm").length == mm("1489.475")


@pytest.mark.parametrize("text", ["58 19/32 strong", "58 41/64 shy", "58.62500 shy"])
def test_a_shade_finer_than_any_tape_only_widens(text: str) -> None:
    plain, shaded = read_length(text.rpartition(" ")[0]), read_length(text)
    assert shaded.length == plain.length
    assert shaded.extra_u_nm == pytest.approx((plain.mark or Length(0)).nm / 4 * THIRD)
    assert "kept the mark" in shaded.doubts[0]


@pytest.mark.parametrize(
    "words",
    [
        *("about {}", "around {}", "roughly {}", "approx. {}", "circa {}", "~{}", "≈ {}"),
        *("{} or so", "{} approx", "{}ish", "{} give or take"),
    ],
)
@pytest.mark.parametrize(
    ("number", "width"), [("58 5/8", "1/8"), ("58", "1"), ("58 19/32", "1/16"), ("58.625", "1/16")]
)
def test_about_widens_and_moves_nothing(words: str, number: str, width: str) -> None:
    plain, about = read_length(number), read_length(words.format(number))
    assert about.length == plain.length
    assert about.extra_u_nm == pytest.approx(inches(width).nm * THIRD)
    assert "less sure" in about.doubts[0]


# -- Started at a mark, read more than once -----------------------------------------------------


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("10 to 68 5/8", EIGHTH),
        ("from 10 to 68 5/8", EIGHTH),
        ("10 -> 68 5/8", EIGHTH),
        ("10→68⅝", EIGHTH),
        ('10" to 68 5/8"', EIGHTH),
        ("10 to 68 5/8 in", EIGHTH),
        ("10 in to 68 5/8", EIGHTH),
        ("ten to sixty-eight and five eighths", EIGHTH),
        ("1 to 59.625", EIGHTH),
        ("1' to 5' 10 5/8\"", EIGHTH),
        ("10 to 5' 8 5/8\"", EIGHTH),
        ("100 to 1589 mm", mm(1489)),
        ("10 to 158.9 cm", mm(1489)),
        ("0 to 58 5/8", EIGHTH),
        ("10 to 68 5/8 strong", inches("58 21/32")),
    ],
)
def test_the_mark_at_the_start_is_taken_off_aloud(text: str, length: Length) -> None:
    read = read_length(text)
    assert read.length == length
    assert "mark at the start" in read.doubts[-1]


def test_a_span_that_could_be_two_readings_is_asked_unless_the_range_tells() -> None:
    with pytest.raises(LengthError):
        read_length("10 to 10 3/4", plausible=LONG)
    assert read_length("10 to 10 3/4", plausible=SHORT).length == inches("3/4")


@pytest.mark.parametrize(
    ("text", "length", "spread", "many"),
    [
        ("58 5/8, 58 9/16", inches("58 19/32"), "1/16", 2),
        ("58 5/8,58 9/16", inches("58 19/32"), "1/16", 2),
        ("58 5/8 or 58 9/16", inches("58 19/32"), "1/16", 2),
        ("58 5/8; 58 9/16", inches("58 19/32"), "1/16", 2),
        ('58 5/8", 58 9/16"', inches("58 19/32"), "1/16", 2),
        ("58 5/8; 58 9/16; 58 11/16", EIGHTH, "1/8", 3),
        ("58 5/8, fifty-eight and a half", inches("58 9/16"), "1/8", 2),
        ("58 5/8; 58 5/8", EIGHTH, "0", 2),
        ("58,5; 58,6", inches("58.55"), "0.1", 2),
        ("58,5, 58,6", inches("58.55"), "0.1", 2),
        ("3/4, 7/8", inches("13/16"), "1/8", 2),
    ],
)
def test_the_mean_of_readings_is_taken_aloud(
    text: str, length: Length, spread: str, many: int
) -> None:
    read = read_length(text)
    assert read.length == length
    assert read.extra_u_nm == pytest.approx(inches(spread).nm / 2 / math.sqrt(many))
    assert f"mean of {many} readings" in read.doubts[-1]


def test_half_a_nanometre_of_a_mean_is_rounded_up() -> None:
    assert read_length("1.000001 mm; 1.000002 mm").length.nm == 1_000_002


# -- Decided by the range, aloud ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "unit", "plausible", "length", "doubts"),
    [
        ("1,489", "mm", LONG, mm(1489), 1),
        ("1,489", None, LONG, mm(1489), 2),
        ("58,625", "in", LONG, EIGHTH, 1),
        ("1,489", "in", SHORT, inches("1.489"), 1),
        ("0,375", "in", SHORT, inches("3/8"), 0),
        ("1,489 m", "in", LONG, mm(1489), 1),
        ("about 1,489", "mm", LONG, mm(1489), 2),
        ("4 10 5/8", "in", LONG, EIGHTH, 1),
        ("4-10-5/8", "in", LONG, EIGHTH, 1),
        ("4 10 5/8", "mm", LONG, EIGHTH, 1),
        ('4 10 5/8"', None, LONG, EIGHTH, 1),
        ("58 and a half", "mm", LONG, inches("58 1/2"), 1),
        ("fifty-eight", None, LONG, inches(58), 1),
        ("10 to 68", None, LONG, inches(58), 2),
        ("1489; 1490", None, LONG, mm("1489.5"), 2),
        ("58 5/8; 58 9/16", None, LONG, inches("58 19/32"), 2),
        ("58 5/8 strong", "mm", LONG, inches("58 21/32"), 2),
    ],
)
def test_the_range_decides_and_says_so(
    text: str, unit: Unit | None, plausible: Plausible, length: Length, doubts: int
) -> None:
    read = read_length(text, unit, plausible)
    assert (read.length, len(read.doubts)) == (length, doubts)


# -- Refused on purpose -------------------------------------------------------------------------

AMBIGUOUS = [
    *("fifty eight sixteenths", "twenty five eighths", "twenty five thirty seconds"),
    *("one hundred and twenty five sixty-fourths", "four feet and a half", "4 10 5/8", "4 10"),
    *(
        "44, 44",
        "5, 5",
        "58, 5/8",
        "1, 489",
        "58; 57 1/4",
        "58; 59 in",
        "58 to 58 1/2",
        "68 to 10",
        "10 to 10",
    ),
    *(
        "2' to 68",
        "10 in to 1489 mm",
        "58 5/8, 1489 mm",
        "58 5/8; 57; 1; 2; 3; 4",
        "58 plus 3",
        "58 half",
    ),
    *("58 1/2 plus 5/8", "over 58", "58 less 1/8", "58 minus 1/8", "58 5/8 and 58 9/16", "0 shy"),
]
NONSENSE = [
    *("58½8", "3/½", "58²", "58½½", "½/2", "58⅓", "58↉", "⅟", "58⁵", "58 ⁵⁄₈5", "11/₈", "²/₈²"),
    *("58\u200b5", "5\u2060８", "58\n5/8", "58\x005/8", "\x1b[1m58", "58\ud8005/8", "٥٨", "十"),
    *(
        "fifty-eight-ish and",
        "and a half",
        "point",
        "58 point",
        "fiftyeight",
        "eighths",
        "plus 5/8",
    ),
    *("about", "strong", "about about 58", "about 58 shy", "shy 58 strong", "to", "10 to", "to 68"),
    *(
        ".0,0",
        ".5,5",
        "c..4 in",
        "58 in..",
        "10 to 20 to 30",
        "58 or",
        "or 58",
        "; 58",
        "58,",
        "58;;59",
        "ten to to twenty",
        "a",
        "an",
    ),
    *("half a foot", "four and a half feet", "58 inches mm", "hundred", "two hundred hundred"),
    *("five six", "twenty thirty", "minus three", "- fifty", "one million", "58 5/8 5/8"),
    *("1,48,900", "0,489,000", "1 48 mm", "1 489", "10 to 68 5/8, 10 to 68 9/16"),
]


@pytest.mark.parametrize("text", [*AMBIGUOUS, *NONSENSE])
@pytest.mark.parametrize("unit", ["in", "mm", None])
def test_what_stays_open_is_refused_with_something_that_reads(text: str, unit: Unit | None) -> None:
    with pytest.raises(LengthError) as caught:
        read_length(text, unit)
    assert caught.value.message
    assert caught.value.suggestions
    assert all(read_length(suggestion) for suggestion in caught.value.suggestions)


def test_the_quick_way_never_reads_another_thing_than_the_whole_language() -> None:
    rng, both = random.Random(11), 0
    for _ in range(6000):
        text = plain(length_texts.a_text(rng)[1])
        with suppress(LengthError):
            quick = tape._read_quickly(text, "in", LONG)
            whole = tape._read_said(text, "in", LONG)
            both += quick is not None
            assert quick in (None, whole), text
    assert both > 500
