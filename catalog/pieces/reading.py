"""Lengths of a delivery as they are typed: one a line, ``3 x 144 in`` for three alike."""

from __future__ import annotations

import re

from catalog.domain.lengths import Length, mm
from catalog.domain.tape import LengthError, read_length

LONGEST = mm(12_000)  # no bar that a rack holds is longer (invented)
MOST_ALIKE = 200
_ALIKE = re.compile(r"\s*(\d{1,3})\s*[x×*]\s*(.+)")


def read_one(text: str, system: str) -> Length:
    """One exact length; without a unit it is in the part's own. Raises LengthError, ValueError.

    >>> read_one("144", "inch").inch_text, read_one("4 m", "mm").mm_text
    ('144', '4000.000000')
    """
    read = read_length(text, "mm" if system == "mm" else "in")
    if read.extra_u_nm or not 0 < read.length.nm <= LONGEST.nm:
        raise ValueError(f"{text.strip()}: write one exact length, such as 144 in or 4000 mm.")
    return read.length


def read_lengths(text: str, system: str) -> tuple[Length, ...]:
    """Every length of a delivery. Raises ValueError with the line that cannot be read.

    >>> [length.inch_text for length in read_lengths("2 x 144\\n96 1/2 in", "inch")]
    ['144', '144', '96 1/2']
    """
    found: list[Length] = []
    for line in filter(str.strip, text.splitlines()):
        alike = _ALIKE.fullmatch(line)
        count, said = (int(alike[1]), alike[2]) if alike else (1, line)
        found += [_read(line, said, system)] * count
        if not count > 0 or len(found) > MOST_ALIKE:
            raise ValueError(f"{line.strip()}: at least one piece, and at most {MOST_ALIKE}.")
    return tuple(found)


def _read(line: str, said: str, system: str) -> Length:
    try:
        return read_one(said, system)
    except LengthError as error:
        raise ValueError(f"{line.strip()}: {error.message}") from error
