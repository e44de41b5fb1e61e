"""One tokeniser for what is stored and what is asked: words of a–z and 0–9 alone."""

from __future__ import annotations

import re

import pytest

from catalog.domain.lengths import inches, mm
from intake.domain import search_words as words
from intake.domain.search_query import Query, Term, read_names, read_query
from intake.domain.spelling import distance, head, nearness, without_one


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Biscuit  BARREL", ["biscuit", "barrel"]),
        ("O'Hara’s", ["oharas"]),
        ("4' 10 5/8\"", ["4", "10", "5s8"]),
        ("58.625 58,625", ["58p625", "58p625"]),
        ("58⅝ and 1½", ["58", "5s8", "and", "1", "1s2"]),
        ("3/4-10", ["3s4", "10"]),
        ("M20x1.5", ["m20x1", "5"]),
        ("FG-ABC234", ["fg", "abc234"]),
        ("Señor Åke Ø straße", ["senor", "ake", "u" + "f8z", "strasse"]),
        ("Жар", ["u436zu430zu440z"]),
        ("w@example.org", ["w", "example", "org"]),
        ("٣ ²", ["u663z", "2"]),
        ("", []),
        ("-- '' %% 😀", []),
    ],
)
def test_words_are_those_people_mean(text: str, expected: list[str]) -> None:
    assert words.words_of(text) == expected


@pytest.mark.parametrize(
    "text",
    ["Señor O'Hara 58⅝ 九州 😀", "x" * 500, "9" * 500, "\x00\ud800\n\u202e", "ﬁ ﬀ ⅻ ① ㎜", "'; --"],
)
def test_every_stored_word_is_plain(text: str) -> None:
    made = [
        *words.plain(text),
        *words.names(text),
        *words.phones(text),
        *words.typed(text),
        *words.codes(text),
    ]
    assert all(re.fullmatch(r"[a-z][a-z0-9]{0,80}", word) for word in made)
    asked = [*read_query(text).groups, *read_names(text, tolerant=True).groups]
    terms = [term.word for group in asked for way in group for term in way]
    assert all(re.fullmatch(r"[a-z][a-z0-9]{0,80}", word) for word in terms)


def test_a_length_is_known_as_it_may_be_read_back() -> None:
    assert list(words.lengths(inches("58 5/8"))) == ["l1489075000", "e14891", "o1489"]
    assert list(words.lengths(mm("1489.05"))) == ["l1489050000", "e14891", "o1489"]


def found_by(text: str) -> set[str]:
    """Every word any way of the query would find it by."""
    return {term.word for group in read_query(text).groups for way in group for term in way}


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("58 5/8", "l1489075000"),
        ("58.625", "l1489075000"),
        ("58⅝", "l1489075000"),
        ("4' 10 5/8\"", "l1489075000"),
        ("4 ft 10 5/8 in", "l1489075000"),
        ("148.9075 cm", "l1489075000"),
        ("1489.075 mm", "l1489075000"),
        ("1489.1 mm", "e14891"),
        ("1489.1", "e14891"),
        ("1489 mm", "o1489"),
        ("1489", "o1489"),
        ("+1 202 555 0100", "p12025550100"),
        ("0044 202 555 0100", "p025550100"),
        ("0202 5550100", "p2025550100"),
        ("0100", "p0100"),
    ],
)
def test_a_number_is_looked_for_in_each_of_its_meanings(text: str, word: str) -> None:
    assert word in found_by(text)


@pytest.mark.parametrize(
    ("text", "groups"),
    [
        ("58 5/8", 1),
        ("tarpley 58 5/8 port", 3),
        ("58 5/8 1489 mm", 2),
        ("202 555 0100", 1),
        ("FG-ABC234 FG-ABC234", 1),
        ("  ", 0),
        ("* % '", 0),
        ("a b c d e f g h i j k l", 8),
    ],
)
def test_a_query_is_cut_where_people_would_cut_it(text: str, groups: int) -> None:
    assert len(read_query(text).groups) == groups


def test_a_short_number_is_meant_whole_and_a_word_may_go_on() -> None:
    assert read_query("58").groups[0][0] == (Term("w58"),)
    assert read_query("tar").groups[0][0] == (Term("wtar", begins=True),)
    assert read_query("t").groups[0][0] == (Term("wt"),)


def test_what_lists_filter_by_is_a_word_like_any_other() -> None:
    both = Query().also(words.filtered("s", "needs_call"))
    assert both.groups == (((Term("fsneedscall"),),),)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("tarpley", "tarply"),
        ("tarpley", "tarpleyy"),
        ("tarpley", "taprley"),
        ("tarpley", "tarqley"),
        ("tarpley", "arpley"),
        ("otto", "otta"),
    ],
)
def test_one_letter_apart_have_a_spelling_in_common(one: str, other: str) -> None:
    assert set(without_one(one)) & set(without_one(other))
    assert distance(one, other) == 1


@pytest.mark.parametrize("word", ["al", "fg7", "1234", "x" * 40])
def test_what_is_short_or_a_number_is_looked_for_exactly(word: str) -> None:
    assert without_one(word) == [word]


def test_what_is_still_being_typed_is_compared_with_the_beginning() -> None:
    assert (head("tarpley"), head("marsh")) == ("tarpl", "")
    assert nearness("tar", "tarpley") == 0
    assert nearness("tra", "tarpley") == 1
    assert nearness("tarply", "tarpley") == 1
