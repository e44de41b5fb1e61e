"""Collecting what can be read of a body, and one sentence for everything that cannot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from catalog.domain.tape import LengthError, Unit
from intake.domain.plates import PlateError

LONGEST_TEXT = 300
NOT_A_VALUE = object()


class Refused(ValueError):
    """One answer cannot be read; the message is its sentence."""


class Reader:
    """Collects what can be read and every sentence about what cannot."""

    def __init__(self, unit: Unit | None) -> None:
        self.unit = unit
        self.errors: dict[str, list[str]] = {}

    def refuse(self, path: str, sentence: str) -> None:
        self.errors.setdefault(path, []).append(sentence)

    def take(self, path: str, read: Callable[..., Any], *given: Any) -> Any:
        """What ``read`` makes of it, or NOT_A_VALUE with its sentence kept."""
        try:
            return read(*given)
        except LengthError as error:
            self.refuse(path, _with_suggestions(error))
        except (Refused, PlateError) as error:
            self.refuse(path, str(error))
        return NOT_A_VALUE


def choice(reader: Reader, path: str, given: Any, choices: tuple[str, ...]) -> Any:
    if isinstance(given, str) and given in choices:
        return given
    reader.refuse(path, one_of(choices))
    return NOT_A_VALUE


def _with_suggestions(error: LengthError) -> str:
    if not error.suggestions:
        return str(error)
    return f"{error} For example: {' or '.join(error.suggestions)}."


def one_of(choices: tuple[str, ...]) -> str:
    return f"This is {listed(choices)}."


def listed(words: Any) -> str:
    *most, last = list(words)
    return f"{', '.join(most)} or {last}" if most else str(last)


def name_of(given: Any) -> str:
    return str(given)[:60]
