"""A small slice of the fuzz of the reader, and proof that it would notice."""

from __future__ import annotations

import pytest

from catalog.domain import tape
from catalog.domain.lengths import Length
from catalog.domain.tape import ReadLength
from tests.bench import fuzz_lengths
from tests.bench.fuzz_lengths import CHUNK, chunks, fuzz


def test_twenty_thousand_strings_find_no_fault() -> None:
    found = fuzz(20_000, seed=20_260)
    assert found.faults == []
    assert found.texts == 20_000
    assert found.accepted > 4000
    assert len({kind for kind in found.kinds if "spoilt" not in kind}) >= 13


def test_the_same_seed_gives_the_same_strings() -> None:
    assert fuzz(300, seed=7).kinds == fuzz(300, seed=7).kinds


def test_the_strings_are_cut_into_chunks_of_their_own_seeds() -> None:
    cut = list(chunks(2 * CHUNK + 5, 3))
    assert [count for count, _seed in cut] == [CHUNK, CHUNK, 5]
    assert len({seed for _count, seed in cut}) == 3


@pytest.mark.parametrize(
    "wrong",
    [
        {"length": Length(1)},
        {"mark": Length(1)},
        {"unit": "mm"},
        {"unit_written": True},
        {"doubts": ("?",)},
        {"extra_u_nm": 5.0},
    ],
)
def test_a_reading_that_is_wrong_in_one_thing_is_noticed(wrong: dict[str, object]) -> None:
    right = tape.read_length("58 5/8")
    assert fuzz_lengths._disagreement("58 5/8", "in", None, right) == ""
    read = ReadLength(**{**right._asdict(), **wrong})
    assert "second reader" in fuzz_lengths._disagreement("58 5/8", "in", None, read)


def test_a_text_that_only_the_first_reads_is_noticed() -> None:
    right = tape.read_length("58 5/8")
    assert "refused by" in fuzz_lengths._disagreement("58 5/8 and more", "in", None, right)
