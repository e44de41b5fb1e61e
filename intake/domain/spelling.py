"""Names that were not quite heard: one letter wrong, missing, too many, or two swapped.

Two words that differ so have a spelling in common once a letter is left out of each. Those
spellings are stored; asking is then a look-up, however many names there are.
"""

from __future__ import annotations

SHORTEST, LONGEST = 4, 14  # letters of a word that is looked for inexactly
HEAD = 5  # letters of a long word that are compared while it is still being typed


def without_one(word: str) -> list[str]:
    """The word, and the word with each letter left out in turn; of a short word only itself.

    >>> without_one("otto"), without_one("al")
    (['otto', 'tto', 'oto', 'ott'], ['al'])
    """
    if not SHORTEST <= len(word) <= LONGEST or any(c.isdigit() for c in word):
        return [word]
    left = (word[:at] + word[at + 1 :] for at in range(len(word)))
    return list(dict.fromkeys([word, *left]))


def head(word: str) -> str:
    """How a long word begins; empty for a short one.

    >>> head("tarpley"), head("odile")
    ('tarpl', '')
    """
    return word[:HEAD] if len(word) > HEAD else ""


def distance(one: str, other: str) -> int:
    """Letters to change, add, leave out or swap with their neighbour.

    >>> distance("tarpley", "tarply"), distance("odile", "oidle"), distance("mossop", "mossop")
    (1, 1, 0)
    """
    before: list[int] = []
    above = list(range(len(other) + 1))
    for i, mine in enumerate(one, 1):
        row = [i]
        for j, theirs in enumerate(other, 1):
            cost = min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (mine != theirs))
            if i > 1 and j > 1 and mine == other[j - 2] and one[i - 2] == theirs:
                cost = min(cost, before[j - 2] + 1)
            row.append(cost)
        before, above = above, row
    return above[-1]


def nearness(asked: str, word: str) -> int:
    """How far what was typed is from a word or from its beginning: 0 where it begins with it.

    >>> nearness("tra", "tarpley"), nearness("tarply", "tarpley"), nearness("tar", "tarpley")
    (1, 1, 0)
    """
    if word.startswith(asked):
        return 0
    if len(word) <= len(asked) + 1:
        return distance(asked, word)
    return min(distance(asked, word[: len(asked) + more]) for more in (0, 1))
