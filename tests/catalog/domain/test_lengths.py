"""The exact type: shown in both systems and said in words."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain import spoken
from catalog.domain.lengths import Length, inches, mm

ANY = st.builds(Length, st.integers(-(10**11), 10**11))


@pytest.mark.parametrize(
    ("length", "both"),
    [
        (inches("58 5/8"), "58 5/8 in · 1489.1 mm"),
        (mm(25), "≈63/64 in · 25 mm"),
        (inches("3/4"), "3/4 in · 19.1 mm"),
        (inches(0), "0 in · 0 mm"),
        (-inches("1/2"), "-1/2 in · -12.7 mm"),
        (mm("0.04"), "≈0 in · 0.0 mm"),
        (mm("25.96"), "≈1 1/64 in · 26.0 mm"),
    ],
)
def test_both_systems_for_people(length: Length, both: str) -> None:
    assert length.both() == both


def test_the_form_of_the_api() -> None:
    assert inches("58 5/8").as_json() == {"mm": "1489.075000", "inch": "58 5/8"}
    assert mm("1489.1").as_json() == {"mm": "1489.100000", "inch": "≈58 5/8"}


def test_one_system_for_people() -> None:
    assert inches(1).show("inch") == inches(1).show("in") == "1 in"
    assert inches(1).show("mm") == "25.4 mm"


@given(ANY, ANY)
def test_sums_are_exact(one: Length, other: Length) -> None:
    assert (one + other) - other == one
    assert abs(one) == abs(-one)
    assert (one < other) == (one.nm < other.nm)


@given(ANY)
def test_the_nearest_mark_is_within_half_a_mark(length: Length) -> None:
    text = length.inch_text
    shown = text.removeprefix("≈").removeprefix("-")
    assert abs(abs(length).nm - inches(shown).nm) * 2 <= 396_875
    assert text.startswith("≈") == (length.nm % 396_875 != 0)


@pytest.mark.parametrize(
    ("length", "inch", "metric"),
    [
        (inches("3/4"), "three quarters of an inch", "nineteen point zero five millimetres"),
        (inches("1/2"), "half an inch", "twelve point seven millimetres"),
        (inches("1/8"), "one eighth of an inch", "three point one seven five millimetres"),
        (inches("1 1/2"), "one and one half inches", "thirty-eight point one millimetres"),
        (
            inches("1/64"),
            "one sixty-fourth of an inch",
            "about zero point four millimetres",
        ),
        (mm(1), "about three sixty-fourths of an inch", "one millimetre"),
        (inches("2 3/32"), "two and three thirty-seconds inches", None),
        (-inches(2), "minus two inches", "minus fifty point eight millimetres"),
        (mm(1000), "about thirty-nine and three eighths inches", "one thousand millimetres"),
        (inches("0.05"), "zero point zero five inches", "one point two seven millimetres"),
    ],
)
def test_said_in_words(length: Length, inch: str, metric: str | None) -> None:
    assert length.spoken("in") == length.spoken("inch") == inch
    if metric:
        assert length.spoken("mm") == metric


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (13, "thirteen"),
        (40, "forty"),
        (100, "one hundred"),
        (105, "one hundred and five"),
        (1001, "one thousand and one"),
        (12_345, "twelve thousand three hundred and forty-five"),
        (2_000_019, "two million and nineteen"),
    ],
)
def test_whole_numbers_in_words(number: int, words: str) -> None:
    assert spoken.whole(number) == words


@given(ANY)
def test_anything_can_be_said(length: Length) -> None:
    assert length.spoken("in").endswith(("inch", "inches"))
    assert length.spoken("mm").endswith(("millimetre", "millimetres"))
