"""Lengths in Spanish words, by the same marks as the English ones."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import NM_PER_64TH, Length, inches, mm
from catalog.domain.spoken_es import before_noun, spoken, whole


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "cero"),
        (16, "dieciséis"),
        (22, "veintidós"),
        (31, "treinta y uno"),
        (100, "cien"),
        (101, "ciento uno"),
        (555, "quinientos cincuenta y cinco"),
        (777, "setecientos setenta y siete"),
        (1000, "mil"),
        (1001, "mil uno"),
        (2021, "dos mil veintiuno"),
        (9999, "nueve mil novecientos noventa y nueve"),
        (21_000, "veintiún mil"),
        (100_000, "cien mil"),
    ],
)
def test_whole_numbers(number: int, words: str) -> None:
    assert whole(number) == words


@pytest.mark.parametrize(
    ("length", "system", "words"),
    [
        (inches("58 5/8"), "in", "cincuenta y ocho y cinco octavos de pulgada"),
        (inches("58 5/8"), "inch", "cincuenta y ocho y cinco octavos de pulgada"),
        (inches("3/4"), "in", "tres cuartos de pulgada"),
        (inches("1/2"), "in", "media pulgada"),
        (inches("1 1/2"), "in", "una pulgada y media"),
        (inches("21"), "in", "veintiuna pulgadas"),
        (inches("1"), "in", "una pulgada"),
        (inches("2 1/16"), "in", "dos y un dieciseisavo de pulgada"),
        (inches("0.875"), "in", "siete octavos de pulgada"),
        (inches("30 5/8"), "in", "treinta pulgadas y cinco octavos"),
        (inches("1.05"), "in", "uno coma cero cinco pulgadas"),
        (mm("148.9"), "mm", "ciento cuarenta y ocho coma nueve milímetros"),
        (mm("1"), "mm", "un milímetro"),
        (
            mm("1489.075"),
            "mm",
            "mil cuatrocientos ochenta y nueve coma cero siete cinco milímetros",
        ),
        (mm("1301"), "mm", "mil trescientos un milímetros"),
        (inches("1/64"), "mm", "alrededor de cero coma cuatro milímetros"),
        (mm("-25"), "mm", "menos veinticinco milímetros"),
    ],
)
def test_lengths(length: Length, system: str, words: str) -> None:
    assert spoken(length, system) == words


def test_no_mark_is_said_like_another() -> None:
    """A word that two marks shared would read back the wrong number."""
    marks = [spoken(Length(count * NM_PER_64TH), "in") for count in range(64 * 130)]
    assert len(set(marks)) == len(marks)


def test_no_millimetre_is_said_like_another() -> None:
    words = [whole(number) for number in range(10_000)]
    assert len(set(words)) == len(words)
    assert before_noun(201, feminine=True) == "doscientas una"
