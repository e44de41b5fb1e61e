"""Fractions set as such, from the signs our faces have: 44 1/8 becomes 44 ⅛, 15/16 ¹⁵⁄₁₆."""

from __future__ import annotations

import re
from functools import lru_cache

_READY = {
    ("1", "2"): "½", ("1", "4"): "¼", ("3", "4"): "¾", ("1", "8"): "⅛", ("3", "8"): "⅜",
    ("5", "8"): "⅝", ("7", "8"): "⅞",
}  # fmt: skip
_OVER = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_UNDER = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
# A proper fraction of a tape's marks; never within a date, a path or a longer number.
_FRACTION = re.compile(r"(?<![\d/.,])(\d{1,2})/(2|4|8|16|32|64)(?![\d/])")


@lru_cache(maxsize=1024)
def with_fractions(text: str) -> str:
    """The text with the fractions of an inch set as signs.

    >>> with_fractions("2 15/16 in, thread 3/4-10, page 4/2, 1/8/26")
    '2 ¹⁵⁄₁₆ in, thread ¾-10, page 4/2, 1/8/26'
    """
    return _FRACTION.sub(_set, text) if "/" in text else text


def _set(found: re.Match[str]) -> str:
    over, under = found.groups()
    if int(over) >= int(under) or over.startswith("0"):
        return found[0]
    ready = _READY.get((over, under))
    return ready or f"{over.translate(_OVER)}⁄{under.translate(_UNDER)}"
