"""What people write: read as it stands, or refused with something to try. Never guessed."""

from __future__ import annotations

import re
import time
from fractions import Fraction
from statistics import median

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from catalog.domain import lengths, readings
from catalog.domain.lengths import Length, inches, mm
from catalog.domain.tape import LengthError, ReadLength, read_length

EIGHTH = inches("58 5/8")
METRIC = mm(1489)
READ = [
    ("58", inches(58), "in", False),
    ("58.", inches(58), "in", False),
    ("58.625", EIGHTH, "in", False),
    ("58 5/8", EIGHTH, "in", False),
    ("58-5/8", EIGHTH, "in", False),
    ("58 - 5/8", EIGHTH, "in", False),
    ("  58  5/8 ", EIGHTH, "in", False),
    ('58 5/8"', EIGHTH, "in", True),
    ("58 5/8”", EIGHTH, "in", True),
    ("58 5/8″", EIGHTH, "in", True),
    ("58 5/8''", EIGHTH, "in", True),
    ("58⅝", EIGHTH, "in", False),
    ("58 ⅝", EIGHTH, "in", False),
    ("58 5⁄8 in.", EIGHTH, "in", True),
    ("58 10/16", EIGHTH, "in", False),
    ("58 40/64 INCHES", EIGHTH, "in", True),
    ("4' 10 5/8\"", EIGHTH, "in", True),
    ("4'10-5/8\"", EIGHTH, "in", True),
    ("4'-10 5/8\"", EIGHTH, "in", True),
    ("4′ 10 5/8″", EIGHTH, "in", True),
    ("4’ 10 5/8”", EIGHTH, "in", True),
    ("4' 10 5/8", EIGHTH, "in", True),
    ("4 ft 10.625 in", EIGHTH, "in", True),
    ("4ft. 10⅝in.", EIGHTH, "in", True),
    ("4 feet 10 5/8 inches", EIGHTH, "in", True),
    ("4' 5/8\"", inches("48 5/8"), "in", True),
    ("4'⅝", inches("48 5/8"), "in", True),
    ("4 ft", inches(48), "ft", True),
    ("4'", inches(48), "ft", True),
    ("4 ft.", inches(48), "ft", True),
    ("4 feet.", inches(48), "ft", True),
    ("4'.", inches(48), "ft", True),
    ("4 ft..5", inches("48 1/2"), "in", True),
    ("1 foot", inches(12), "ft", True),
    ("4.5 ft", inches(54), "ft", True),
    ("12 inches", inches(12), "in", True),
    ("1 inch", inches(1), "in", True),
    ("3/4", inches("3/4"), "in", False),
    ('7/8"', inches("7/8"), "in", True),
    ("⅞", inches("7/8"), "in", False),
    ("0.75", inches("3/4"), "in", False),
    (".75", inches("3/4"), "in", False),
    ("0", Length(0), "in", False),
    ("0 in", Length(0), "in", True),
    ("1489mm", METRIC, "mm", True),
    ("1489 MM", METRIC, "mm", True),
    ("148,9 cm", METRIC, "cm", True),
    ("1.489 m", METRIC, "m", True),
    ("1,4890 m", METRIC, "m", True),
    ("Ø 25 mm", mm(25), "mm", True),
    ("Ø25mm", mm(25), "mm", True),
    ("⌀ 1 1/8 in", inches("1 1/8"), "in", True),
    ("58 1/2 mm", mm("58.5"), "mm", True),
    ("½ mm", mm("0.5"), "mm", True),
    ("0.000001 mm", Length(1), "mm", True),
    ("100 m", mm(100_000), "m", True),
]
REFUSED = [
    *("", " ", ".", ",", "in", "Ø", "'", "-", "/", "/8", "58/", "58,", "5-8", "58..5", "1 489"),
    *("-3", "- 3", "-5/8", "-⅝", "58 -", "58x", "1/2/3", "1e9", "nan", "inf", "0x10", "abc"),
    *("58 5/0", "58 0/8", "0/8", "58 9/8", "8/8", "585/8", "58 5/7", "58 5/128", "58 5/8 5/8"),
    *("58 5/8 mm", "5/8 mm", "58 2/4 mm", "58 1/4 cm", "1 1/2 m", "4 5/8 ft", "4 1/2'"),
    *("4' 12", "4 ft 14 in", "4 ft 3 mm", "4' 1 m", "4.5' 3\"", "' 5", "58 5/8 in 1489 mm"),
    *("1,489", "0,375", "1,489 m", "12,5,0 mm", "1.2.3", "0.123456789 in", "0.0000001 mm"),
    *("200 m", "100.000001 m", "9" * 40, "58 in 5/8", "58 5/8 in long", "<b>58</b>", "=58"),
    *("3 1/2 furlongs", "58 5/8 mm in", "9**9**8 mm", "²", "٣"),
    *("4 10 5/8", '4 10 5/8"', "1,489,000", "−3", "58\u200b5/8"),
]
UNITS = st.sampled_from(["in", "mm"])


@pytest.mark.parametrize(("text", "length", "unit", "written"), READ)
def test_it_is_read(text: str, length: Length, unit: str, written: bool) -> None:
    assert read_length(text, "in")[:4] == (length, unit, written, ())


@pytest.mark.parametrize("text", REFUSED)
@pytest.mark.parametrize("unit", ["in", "mm", None])
def test_it_is_refused_with_one_sentence_and_something_to_try(text: str, unit: str) -> None:
    with pytest.raises(LengthError) as caught:
        read_length(text, unit)  # type: ignore[arg-type]
    error = caught.value
    assert re.fullmatch(r"[A-Z][^\n]+[.?]|Inches or millimetres\? [^\n]+\.", error.message)
    assert len(error.suggestions) > 0
    assert all(read_length(suggestion) for suggestion in error.suggestions)


@pytest.mark.parametrize(
    ("text", "suggestion"),
    [
        ("585/8", "58 5/8"),
        ("58 9/8", "58 9/16"),
        ("-3", "3"),
        ("1,489", "1.489"),
        ("1,489", "1489"),
        ("58 5/8 mm", "58 5/8 in"),
        ("58 5/8 mm", "58.625 mm"),
        ("4 5/8 ft", "4 ft 5/8 in"),
        ("4' 14", "62 in"),
        ("4 10 5/8", "4' 10 5/8\""),
        ("58 5/8, 57 5/8", "58 5/8"),
        ("44, 44", "44.44"),
        ("44, 44", "44; 44"),
        ("twenty five eighths", "20 5/8"),
        ("twenty five eighths", "3 1/8"),
        ("58 to 58 1/2", "58 in; 58 1/2 in"),
        ("68 5/8 to 10", "10 in to 68 5/8 in"),
        ("−３", "3"),
        ("minus three", "three"),
        ("1 489", "1489"),
        ("4 10", "4' 10\""),
        ("10 68 5/8", "10 to 68 5/8"),
        ("58 5/8 & 58 9/16", "58 5/8; 58 9/16"),
        ("over 58", "just over 58"),
        ("four feet and a half", "four feet and a half of an inch"),
        ("0 shy", "0 in"),
    ],
)
def test_what_was_probably_meant_is_among_the_suggestions(text: str, suggestion: str) -> None:
    with pytest.raises(LengthError) as caught:
        read_length(text)
    assert suggestion in caught.value.suggestions


def test_a_number_alone_takes_the_unit_of_the_tape() -> None:
    assert read_length("1489", "mm")[:4] == (METRIC, "mm", False, ())
    assert read_length("58", "in")[:4] == (inches(58), "in", False, ())


def test_a_written_unit_wins_over_the_tape() -> None:
    assert read_length('58"', "mm").length == inches(58)
    assert read_length("25 mm", "in").length == mm(25)


@pytest.mark.parametrize("unit", ["mm", None])
def test_a_fraction_is_an_inch_mark_and_says_so(unit: str) -> None:
    read = read_length("58 5/8", unit)  # type: ignore[arg-type]
    assert (read.length, read.unit, read.unit_written) == (EIGHTH, "in", False)
    assert "inches" in read.doubts[0]
    assert read_length("58 5/8 in", unit).doubts == ()  # type: ignore[arg-type]


RANGE = (inches(10), inches(200))


@pytest.mark.parametrize(
    ("text", "unit", "length"), [("58", "in", inches(58)), ("1489", "mm", METRIC)]
)
def test_without_a_unit_the_plausible_range_decides_aloud(
    text: str, unit: str, length: Length
) -> None:
    read = read_length(text, None, RANGE)
    assert (read.length, read.unit, read.unit_written) == (length, unit, False)
    assert len(read.doubts) == 1


@pytest.mark.parametrize(
    ("text", "plausible"), [("58", None), ("300", (inches(10), inches(400))), ("9", RANGE)]
)
def test_without_a_unit_and_without_a_reason_both_are_suggested(
    text: str, plausible: object
) -> None:
    with pytest.raises(LengthError) as caught:
        read_length(text, None, plausible)  # type: ignore[arg-type]
    assert caught.value.suggestions == (f"{text} in", f"{text} mm")


def test_the_ends_of_the_range_are_inside_it() -> None:
    assert read_length("254", None, RANGE).unit == "mm"
    assert read_length("200", None, RANGE).unit == "in"


def test_nothing_is_nothing_in_both_units() -> None:
    assert read_length("0", None).length == Length(0)


def test_a_long_text_is_refused_at_once() -> None:
    times = []
    for text in ("9" * 10_000, "58 5/8 " * 1500, "a" * 10_000, "5/" * 5000):
        start = time.perf_counter()
        with pytest.raises(LengthError):
            read_length(text)
        times.append(time.perf_counter() - start)
    assert median(times) < 0.001


def test_nothing_that_is_short_enough_takes_long() -> None:
    hard = ["9 " * 50, "9-" * 50, "9'" * 50, "9/" * 50, "a " * 50, "fifty " * 16, "½" * 100]
    hard += [sign * 100 for sign in "9',-;~\u00a0"] + [
        "1,234" * 20,
        " " * 49 + "9" + " " * 49 + "x",
    ]
    hard += ["1" * 50 + "/" + "1" * 49, "one hundred and " * 6, "58 5/8, " * 12, "9 or " * 20]
    for text in hard:
        start = time.perf_counter()
        with pytest.raises(LengthError):
            read_length(text)
        assert time.perf_counter() - start < 0.05


@given(st.integers(0, 64 * 1000))
def test_every_mark_of_a_tape_comes_back(marks: int) -> None:
    length = Length(marks * lengths.NM_PER_64TH)
    for text in (length.inch_text, length.show("in"), f"{length.mm_text} mm", f"{marks / 64} in"):
        assert read_length(text, "in").length == length


@given(st.integers(0, lengths.LONGEST_NM))
def test_every_nanometre_comes_back(nm: int) -> None:
    read = read_length(Length(nm).mm_text, "mm")
    assert (read.length.nm, read.doubts) == (nm, ())


@given(st.integers(0, 300), st.integers(0, 11), st.integers(0, 63))
def test_feet_and_inches_come_back(feet: int, whole: int, marks: int) -> None:
    part = f" {Fraction(marks, 64)}" if marks else ""
    expected = inches(feet * 12 + whole) + Length(marks * lengths.NM_PER_64TH)
    assert read_length(f"{feet}' {whole}{part}\"", "mm").length == expected


@given(st.decimals(0, 3000, places=4), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_decimals_are_exact(number: object, unit: str) -> None:
    nm = Fraction(str(number)) * readings.NM[unit]
    try:
        read = read_length(f"{number} {unit}")
    except LengthError:
        assert nm > lengths.LONGEST_NM
        return
    assert read.length.nm == nm


@given(st.text(st.sampled_from("0123456789 .,-/⁄½⅝'\"′″Ømincftaxe\u00a0"), max_size=14), UNITS)
@example("0/1", "in")
def test_anything_is_read_exactly_or_refused_kindly(text: str, unit: str) -> None:
    read = _read_or_error(text, unit)
    if isinstance(read, LengthError):
        assert read.message
        assert all(read_length(suggestion) for suggestion in read.suggestions)
        return
    assert 0 <= read.length.nm <= lengths.LONGEST_NM
    assert "-" not in text.strip()[:1]
    assert read_length(read.length.mm_text, "mm").length == read.length


@given(st.text(max_size=60))
def test_any_text_at_all_is_read_or_refused(text: str) -> None:
    read = _read_or_error(text, "in")
    assert read.suggestions if isinstance(read, LengthError) else read.length.nm >= 0


def _read_or_error(text: str, unit: str) -> ReadLength | LengthError:
    try:
        return read_length(text, unit)  # type: ignore[arg-type]
    except LengthError as error:
        return error


def test_reading_is_remembered_by_text_unit_and_range() -> None:
    assert read_length("58 5/8", "in").length is read_length("58 5/8", "in").length
    assert read_length("58", "in") != read_length("58", "mm")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("58 5/8", "fifty-eight and five eighths inches"),
        ("4' 10 5/8\"", "fifty-eight and five eighths inches"),
        ("4 ft", "forty-eight inches"),
        ("148,9 cm", "one thousand four hundred and eighty-nine millimetres"),
        ("1 mm", "one millimetre"),
        ("1", "one inch"),
        ("58.6", "fifty-eight point six inches"),
    ],
)
def test_it_is_read_back_as_said_on_the_phone(text: str, words: str) -> None:
    assert read_length(text).spoken == words
