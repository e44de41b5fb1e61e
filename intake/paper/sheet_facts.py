"""What a measuring sheet shows, in words ready to print: the room outside makes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Tick:
    """One box to tick, and whether the draft has ticked it."""

    words: str
    on: bool = False


@dataclass(frozen=True, slots=True)
class Measure:
    """One length: its letter in the drawing, its question, its number, how it was taken.

    ``value`` is the number as typed; ``unit`` ticks stand beside its box. ``hidden`` says instead
    why a number that is known is not shown; ``written`` labels a line to write the way on.
    """

    letter: str
    slug: str
    name: str
    ask: str
    value: str
    unit: tuple[Tick, ...]
    ways: tuple[Tick, ...]
    cannot: Tick | None
    hidden: str = ""
    written: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One question with a few answers; ``blanks`` are what is written, with what the draft says.

    ``half``: it is short enough to share its line with the next one.
    """

    name: str
    ticks: tuple[Tick, ...]
    blanks: tuple[tuple[str, str], ...] = ()
    half: bool = False


@dataclass(frozen=True, slots=True)
class Code:
    """Where a camera leads: the address, what it does, and how long it holds."""

    link: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SheetFacts:
    """The whole sheet."""

    shop: str
    title: str
    lead: str
    cautions: tuple[str, ...]
    who: tuple[tuple[str, str], ...]
    about: tuple[Choice, ...]
    measures: tuple[Measure, ...]
    choices: tuple[Choice, ...]
    heads: tuple[str, str, str, str]
    foot: str
    code: Code
    stack: Mapping[str, str] = field(default_factory=dict)
    drawing_words: Mapping[str, str] = field(default_factory=dict)
    drawing_title: str = ""
