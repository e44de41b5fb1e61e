"""The words a request is found by: one tokeniser for what is stored and for what is asked.

Every word is made of a–z and 0–9 alone and begins with a letter that says its kind, so that both
databases see the very same words and neither cuts them up by its own rules:

``w`` a word or number as typed · ``n`` a word of a name or a boat · ``v``, ``h`` the same with one
letter missing, whole or only its head · ``p`` a phone number from each of its digits on · ``l`` an
exact length, ``e`` the same to a tenth of a millimetre, ``o`` to a whole one · ``t`` an answer as
it was typed, whole · ``f`` what lists filter by.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator

from catalog.domain.lengths import NM_PER_MM, Length
from intake.domain.spelling import head, without_one

LONGEST_WORD = 60  # characters; what is longer is found by its beginning
LEAST_DIGITS = 3  # of a phone number
_WORD = re.compile(r"\d+(?:[.,/]\d+)+|[^\W_]+")
_APOSTROPHE = re.compile(r"(?<=[^\W\d_])['’ʼ](?=[^\W\d_])")
_SLASHES = str.maketrans({"⁄": "/", "∕": "/"})
_SEPARATORS = {".": "p", ",": "p", "/": "s"}


def folded(text: str) -> str:
    """Without case, accents and typographic forms.

    >>> folded("Señor ÅKE 58⅝")
    'senor ake 585/8'
    """
    spread = unicodedata.normalize("NFKD", text.casefold())
    return "".join(c for c in spread if not unicodedata.combining(c)).translate(_SLASHES)


def words_of(text: str) -> list[str]:
    """Its words and numbers in order, as they are compared.

    >>> words_of("O'Hara & Daughters, FG-ABC234"), words_of("58 5/8 or 58.625")
    (['ohara', 'daughters', 'fg', 'abc234'], ['58', '5s8', 'or', '58p625'])
    """
    return [_spelt(word) for word in _WORD.findall(_APOSTROPHE.sub("", folded(_apart(text))))]


def squashed(text: str) -> str:
    """All of it as one word.

    >>> squashed("58 5/8"), squashed("FG-ABC234")
    ('585s8', 'fgabc234')
    """
    return "".join(words_of(text))[:LONGEST_WORD]


def phone_digits(text: str) -> str:
    """The digits of a number, of any script."""
    return "".join(
        str(unicodedata.digit(c)) for c in text if unicodedata.digit(c, None) is not None
    )


def _apart(text: str) -> str:
    """A fraction sign stands apart from the whole before it: ``58⅝`` is ``58 ⅝``."""
    return re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)


def _spelt(word: str) -> str:
    return "".join(map(_sign, word))[:LONGEST_WORD]


def _sign(sign: str) -> str:
    """A sign of another script by its number; what follows cannot be taken for a part of it."""
    if sign.isascii():
        return _SEPARATORS.get(sign, sign)
    return f"u{ord(sign):x}z"


# --- Words of each kind -------------------------------------------------------------------


def plain(text: str) -> Iterator[str]:
    """``w``: its words, and words joined by a hyphen also as one."""
    for piece in text.split():
        words = words_of(piece)
        yield from (f"w{word}" for word in (*words, *_after_apostrophes(piece)))
        if len(words) > 1:
            yield f"w{squashed(piece)}"


def _after_apostrophes(text: str) -> list[str]:
    """O'Hara is also looked for as Hara."""
    apart = _APOSTROPHE.sub(" ", text)
    return words_of(apart) if apart != text else []


def names(text: str) -> Iterator[str]:
    """``n``, ``v``, ``h``: a name, also as it may be misspelt."""
    for word in (*words_of(text), *_after_apostrophes(text)):
        yield f"n{word}"
        yield from (f"v{heard}" for heard in without_one(word))
        if short := head(word):
            yield from (f"h{heard}" for heard in without_one(short))


def codes(text: str) -> Iterator[str]:
    """``n``: a reference or an order number, exactly spelt, with and without its hyphens."""
    for word in (*words_of(text), squashed(text)):
        if word:
            yield f"n{word}"


def phones(text: str) -> Iterator[str]:
    """``p``: the number from each of its digits on."""
    digits = phone_digits(text)[:LONGEST_WORD]
    for start in range(max(0, len(digits) - LEAST_DIGITS + 1)):
        yield f"p{digits[start:]}"


def lengths(length: Length) -> Iterator[str]:
    """``l``, ``e``, ``o``: a length, exact and as it may be read back."""
    yield exact(length)
    yield to_a_tenth(length)
    yield to_a_whole(length)


def exact(length: Length) -> str:
    """The length to the nanometre."""
    return f"l{abs(length.nm)}"


def to_a_tenth(length: Length) -> str:
    """As the read-back rounds it: half away from zero."""
    return f"e{(abs(length.nm) * 10 + NM_PER_MM // 2) // NM_PER_MM}"


def to_a_whole(length: Length) -> str:
    """To a whole millimetre, half away from zero."""
    return f"o{(abs(length.nm) + NM_PER_MM // 2) // NM_PER_MM}"


def typed(text: str) -> Iterator[str]:
    """``t``: the whole answer as typed, where it is short enough to be one."""
    if text and len(text) <= LONGEST_WORD:
        yield f"t{squashed(text)}"


def filtered(name: str, value: str) -> str:
    """``f``: something lists filter by."""
    return f"f{name}{squashed(value)}"


def document(words: Iterable[str], *, most: int = 1500) -> str:
    """The words of one request, each once, at most so many."""
    return " ".join(list(dict.fromkeys(words))[:most])
