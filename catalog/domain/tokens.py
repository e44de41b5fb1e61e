"""A text in plain characters, cut into numbers, fractions, words and signs."""

from __future__ import annotations

import re
from collections.abc import Container

from catalog.domain.numerals import BOTTOMS, COMPOUNDS

_TOKEN = re.compile(
    r"""[ ]*+ (?:
      (?P<fraction> [0-9]++ [ ]?/[ ]? [0-9]++ ) (?:ths?+|nds?+)?+
    | (?P<ordinal> [0-9]++ (?:ths?+|nds?+) ) (?![a-z])
    | (?P<number> [.]?+ [0-9]++ (?:[.,][0-9]++)*+ )
    | (?P<word> [a-z]++ (?:-[a-z]++)*+ ) (?:[.](?![.]))?+
    | (?P<sign> -> | [-+&"';,~≈ø] )
    )""",
    re.VERBOSE,
)


def tokens_of(text: str) -> list[str] | None:
    """Numbers, fractions, words and signs, in order; None where something is none of them.

    >>> tokens_of("58-and-five 16ths in.")
    ['58', '-', 'and', 'five', '16ths', 'in']
    """
    tokens: list[str] = []
    at = 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None or found.lastgroup is None:
            return None
        at, said = found.end(), found[found.lastgroup]
        tokens += _apart(said) if found.lastgroup == "word" else [said.replace(" ", "")]
    return _bound(tokens, BOTTOMS)


def _apart(word: str) -> list[str]:
    """A hyphenated word in its words; twenty-five and sixty-fourths stay one."""
    return _bound(word.split("-"), COMPOUNDS) if "-" in word else [word]


def _bound(tokens: list[str], known: Container[str]) -> list[str]:
    found: list[str] = []
    for here in tokens:
        pair = f"{found[-1]}-{here}" if found else ""
        if pair in known:
            found[-1] = pair
        else:
            found.append(here)
    return found
