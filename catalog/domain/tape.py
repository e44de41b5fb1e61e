"""The tape language: what people write as a length, read exactly or refused kindly."""

from __future__ import annotations

from functools import lru_cache

from catalog.domain import refusals
from catalog.domain.characters import plain
from catalog.domain.figures import SHAPE, Plausible, ReadLength, Unit, read_figures
from catalog.domain.refusals import LengthError, refuse
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
    if len(text) > refusals.LONGEST:
        raise LengthError(*refusals.TOO_LONG)
    try:
        return _read(text, unit, plausible)
    except LengthError as error:
        error.suggestions = _readable(error.suggestions)
        raise


def _readable(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(filter(_is_read, texts))) or refusals.EXAMPLES


def _is_read(text: str) -> bool:
    try:
        return len(text) <= refusals.LONGEST and bool(_read(text, "in", None))
    except LengthError:
        return False


@lru_cache(maxsize=4096)
def _read(text: str, unit: Unit | None, plausible: Plausible | None) -> ReadLength:
    found = SHAPE.fullmatch(text.strip(" \t\r\n").lower())
    if found is None:
        return _read_said(text, unit, plausible)
    return read_figures(found, unit, plausible)


def _read_said(text: str, unit: str | None, plausible: Plausible | None) -> ReadLength:
    """Read a text that is more than figures."""
    said = plain(text)
    tokens = tokens_of(said.removesuffix("."))
    if not tokens:
        refuse(refusals.why_unreadable(said))
    if tokens[0] == "ø":
        del tokens[0]
    if {"to", "->"} & set(tokens):
        return read_from_a_mark(said, tokens, unit, plausible)
    pieces = readings_apart(tokens)
    if len(pieces) > 1:
        return read_repeated(said, tokens, pieces, unit, plausible)
    return read_one(said_of(said, tokens), unit, plausible)
