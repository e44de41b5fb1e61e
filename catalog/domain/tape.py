"""The tape language: what people write as a length, read exactly or refused kindly."""

from __future__ import annotations

from functools import lru_cache

from catalog.domain import refusals, shades, words
from catalog.domain.characters import plain
from catalog.domain.figures import SHAPE, read_figures, read_plainest
from catalog.domain.readings import Plausible, ReadLength, Unit
from catalog.domain.refusals import LONGEST, LengthError, refuse
from catalog.domain.sayings import read_one, said_of
from catalog.domain.several import read_from_a_mark, read_repeated, readings_apart
from catalog.domain.tokens import tokens_of

__all__ = ["LengthError", "Plausible", "ReadLength", "Unit", "read_length"]


def read_length(
    text: str, unit: Unit | None = "in", plausible: Plausible | None = None
) -> ReadLength:
    """Read one length as people write it.

    ``unit`` is the tape's, for numbers written without one; None means it is not known: then the
    ``plausible`` range (lowest, highest) decides where it can, aloud. Nothing is guessed
    silently: what is not surely read raises LengthError. From 0 to 100 m, exact to 1 nm.

    >>> read_length("58 5/8").length.mm_text
    '1489.075000'
    >>> read_length("fifty-eight and five eighths, a bit shy").doubts
    ('We read “a bit shy” as 1/32 in less than the mark; is that right?',)
    """
    if len(text) > LONGEST:
        refuse(refusals.TOO_LONG)
    try:
        return _read(text, unit, plausible)
    except LengthError as error:
        error.suggestions = _readable(error.suggestions)
        raise


def _readable(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(filter(_is_read, texts))) or refusals.EXAMPLES


def _is_read(text: str) -> bool:
    try:
        return len(text) <= LONGEST and bool(_read(text, "in", None))
    except LengthError:
        return False


@lru_cache(maxsize=4096)
def _read(text: str, unit: Unit | None, plausible: Plausible | None) -> ReadLength:
    if plainest := read_plainest(text, unit):
        return plainest
    found = SHAPE.fullmatch(text.strip(" \t\r\n").lower())
    if found is not None:
        return read_figures(found, unit, plausible)
    said = plain(text)
    quick = _read_quickly(said, unit, plausible)
    return quick or _read_said(said, unit, plausible)


def _read_quickly(said: str, unit: Unit | None, plausible: Plausible | None) -> ReadLength | None:
    """What is said most, at a fraction of the price: ``about 58``, ``58 shy``, ``58 and a half``.

    Everything it reads `_read_said` reads the same.
    """
    if found := SHAPE.fullmatch(said):
        return read_figures(found, unit, plausible)
    for shade, figures in shades.one_word(said):
        if found := SHAPE.fullmatch(figures):
            return shades.applied(shade, read_figures(found, unit, plausible))
    mixed = words.mixed_number(said) if unit == "in" else None
    found = SHAPE.fullmatch(mixed) if mixed else None
    return read_figures(found, unit, plausible) if found else None


def _read_said(said: str, unit: Unit | None, plausible: Plausible | None) -> ReadLength:
    tokens = tokens_of(said if said.endswith("..") else said.removesuffix("."))
    if not tokens:
        refuse(refusals.why_unreadable(said))
    if "to" in tokens or "->" in tokens:
        return read_from_a_mark(said, tokens, unit, plausible)
    pieces = readings_apart(tokens)
    if len(pieces) > 1:
        return read_repeated(said, tokens, pieces, unit, plausible)
    return read_one(said_of(said, tokens), unit, plausible)
