"""A small reader of "50 in × 3.60": works out what the words of a line say, by itself.

Written apart from what makes the words, so that a line and its explanation cannot be wrong alike.
"""

from __future__ import annotations

import re
from decimal import Decimal

_TOKEN = re.compile(r"\s*([0-9]+(?:\.[0-9]+)?|[×+−÷%()])")
# What is said besides the sum.
_REMARKS = (
    ", priced by hand", " labour", " left", " over",
    " in", " mm", " each", " end", " set",
)  # fmt: skip


def worked_out(words: str) -> Decimal:
    """What a line's explanation comes to, unrounded."""
    text = _without_remarks(words)
    tokens = _TOKEN.findall(text)
    assert "".join(tokens) == re.sub(r"\s", "", text), f"cannot read {words!r}"
    value, rest = _sum(tokens)
    assert not rest, words
    return value


def _without_remarks(words: str) -> str:
    """Inches that were rounded to be read are put back as what they came from."""
    words = re.sub(r" to [0-9.]+ in(?= \+|$| \()", "", words)
    whole = re.search(r" \(([0-9.]+) mm ÷ 25\.4\)$", words)
    if whole:
        words = words[: whole.start()]
        inches = Decimal(whole[1]) / Decimal("25.4")
        words = re.sub(r"≈[0-9.]+ in over", f"{inches - 48:f}", words)
        words = re.sub(r"≈[0-9.]+ in", f"{inches:f}", words)
    for remark in _REMARKS:
        words = words.replace(remark, "")
    return words.replace("% of", "%")


def _sum(tokens: list[str]) -> tuple[Decimal, list[str]]:
    value, rest = _product(tokens)
    while rest and rest[0] in "+−":
        sign, (other, after) = rest[0], _product(rest[1:])
        value, rest = (value + other if sign == "+" else value - other), after
    return value, rest


def _product(tokens: list[str]) -> tuple[Decimal, list[str]]:
    value, rest = Decimal(tokens[0]), tokens[1:]
    while rest and rest[0] in "×÷%":
        other = Decimal(rest[1])
        value = {"×": value * other, "÷": value / other, "%": value / 100 * other}[rest[0]]
        rest = rest[2:]
    return value, rest
