"""Names that were perhaps meant to be one."""

from __future__ import annotations


def one_edit_apart(one: str, other: str) -> bool:
    """True where one letter was changed, left out, put in, or changed places with its neighbour.

    >>> one_edit_apart("biscuit barrel", "bisquit barrel"), one_edit_apart("otter", "toter")
    (True, True)
    >>> one_edit_apart("otter", "otter"), one_edit_apart("otter", "hob")
    (False, False)
    """
    if one == other or abs(len(one) - len(other)) > 1:
        return False
    start = _alike(one, other)
    first, second = one[start:], other[start:]
    if len(first) == len(second):
        return first[1:] == second[1:] or (
            first[:2] == second[:2][::-1] and first[2:] == second[2:]
        )
    longer, shorter = sorted((first, second), key=len, reverse=True)
    return longer[1:] == shorter


def _alike(one: str, other: str) -> int:
    """How many letters from the start are the same."""
    for at, (mine, theirs) in enumerate(zip(one, other, strict=False)):
        if mine != theirs:
            return at
    return min(len(one), len(other))
