"""Names that were perhaps meant to be one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.domain.look_alikes import one_edit_apart

WORDS = st.text("abc", max_size=5)


def neighbours(word: str) -> set[str]:
    """Every word of these letters that is one slip away, by trying them all."""
    cut = range(len(word) + 1)
    changed = {word[:at] + letter + word[at + 1 :] for at in cut[:-1] for letter in "abc"}
    added = {word[:at] + letter + word[at:] for at in cut for letter in "abc"}
    dropped = {word[:at] + word[at + 1 :] for at in cut[:-1]}
    swapped = {word[:a] + word[b] + word[a] + word[b + 1 :] for a, b in pairwise(cut[:-1])}
    return (changed | added | dropped | swapped) - {word}


@given(WORDS, WORDS)
def test_it_is_one_slip_or_it_is_not(one: str, other: str) -> None:
    assert one_edit_apart(one, other) == (other in neighbours(one))


@pytest.mark.parametrize("pair", [("otter", "oter"), ("otter", "otters"), ("hob", "bob")])
def test_it_is_the_same_from_both_sides(pair: tuple[str, str]) -> None:
    assert one_edit_apart(*pair)
    assert one_edit_apart(*reversed(pair))
