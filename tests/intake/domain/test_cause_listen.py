"""What to listen for: every cause has its words, and none gives a number away."""

from __future__ import annotations

import re

import pytest

from intake.domain.cause_listen import LISTEN
from intake.domain.causes import CAUSES


def test_every_cause_that_can_be_likely_has_its_words() -> None:
    assert set(LISTEN) == set(CAUSES)


@pytest.mark.parametrize("code", LISTEN)
def test_they_are_short_and_tell_no_number(code: str) -> None:
    words = LISTEN[code]
    assert len(words) <= 90
    assert not words.endswith(".")
    assert not re.search(r"\d", words)
    assert words.count("“") == words.count("”")
