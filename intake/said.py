"""What the pure domain says in English, said in the language of the moment.

A sentence is found in the catalogue of words by itself, or by a template of it: ``{1} and {2}
differ`` is known from "44 and 45 differ". An unknown sentence comes back unchanged. What fills a
template is said too, where it is itself known; a customer's own words are left as they are.

Matching is by fixed pieces from left to right, so that its time grows with the text and no more,
whatever somebody typed.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from gettext import GNUTranslations
from pathlib import Path

from django.conf import settings
from django.utils.translation import get_language, gettext

from catalog.domain import spoken_es
from catalog.domain.lengths import Length
from intake.domain.drawing_words import ENGLISH
from intake.domain.shapes import Drawing, Shape, Text
from intake.wording.selectors import worded, worded_question

LONGEST = 2000  # signs; no sentence of ours is as long
METRIC_FIRST = frozenset({"es"})  # and a decimal comma
_DEEPEST = 3  # a sentence in a sentence in a sentence
_SPOKEN: dict[str, Callable[[Length, str], str]] = {"es": spoken_es.spoken}


def language_now() -> str:
    """The language without its country: ``es``. English where none is set."""
    return (get_language() or "en").partition("-")[0]


def said(text: object) -> str:
    """A sentence of the domain in the language of the moment.

    In English, and where it is not known, it comes back unchanged; a question comes as the desk
    words it now.
    """
    language = language_now()
    english = str(text)
    if (asked := worded(english, language)) != english:
        return asked  # the desk asks this question in words of its own
    if language == "en" or not english or len(english) > LONGEST:
        return english
    return _said(english, language, 0)


def asked(slug: str, usual: object) -> str:
    """A question as a page asks it: in the desk's words where it has some, else as usual there."""
    return worded_question(slug, language_now()) or said(usual)


def spoken_in(length: Length, system: str, language: str) -> str:
    """A length as it is said aloud, in "in" (or "inch") or in "mm"."""
    words = _SPOKEN.get(language)
    return words(length, system) if words else length.spoken(system)


@lru_cache(maxsize=2048)
def _said(text: str, language: str, depth: int) -> str:
    exact = gettext(text)
    if exact != text:
        return exact
    if metric := _both_systems(text, language):
        return metric
    if depth < _DEEPEST and (told := _by_template(text, language, depth)):
        return told
    return _number(text, language)


def _by_template(text: str, language: str, depth: int) -> str:
    """By the first template that fits, else one sentence after the other; "" where neither is."""
    for template in _templates(language):
        if (found := template.values(text)) is None:
            continue
        several = any(map(_SENTENCES.search, found.values()))
        if several and (apart := _sentence_by_sentence(text, language, depth)):
            return apart
        inner = {name: _said(value, language, depth + 1) for name, value in found.items()}
        return template.filled(_measured(inner, template, language))
    parts = _SENTENCES.split(text)
    return " ".join(_said(part, language, depth + 1) for part in parts) if len(parts) > 1 else ""


def _sentence_by_sentence(text: str, language: str, depth: int) -> str:
    """Several sentences of which each is known by itself; "" where one is not."""
    parts = _SENTENCES.split(text)
    told = [_said(part, language, depth + 1) for part in parts]
    return "" if any(map(str.__eq__, parts, told)) else " ".join(told)


_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z])")


# --- Numbers ------------------------------------------------------------------------------

_POINT = re.compile(r"(?<=\d)\.(?=\d)")
# With a unit, or a sum of money: there a point is a decimal point for sure.
_WITH_UNIT = re.compile(
    r"[≈±-]?\d[\d ]*\.\d+ ?(mm|cm|m|in|ft|lb|%|kW|hp)|[-−]?\d[\d\u00a0]*\.\d{2}|\d+\.\d{4}"
    r"|[≈±-]?[\d.]{1,20} in \([≈±-]?[\d.]{1,20} mm\)|[\d.]{1,20} lb, [\d.]{1,20} kg"
)
_NUMBER = re.compile(r"[≈±-]?\d+\.\d+")  # alone: a decimal point only where a unit follows
_UNIT_NEXT = re.compile(r" ?(mm|cm|m|in|ft|lb|kg|%|kW|hp)(?![a-z])")
_SUM = re.compile(r"[\d\u00a0.]{1,20}( in| mm| ft)? × [\d\u00a0.]{1,20}")  # how an amount was made
_BOTH = re.compile(r"(?P<inch>[≈-]{0,2}[\d /.]{1,20} in) · (?P<mm>[≈-]{0,2}[\d.]{1,20} mm)")


def _number(text: str, language: str) -> str:
    if language in METRIC_FIRST and (_WITH_UNIT.fullmatch(text) or _SUM.fullmatch(text)):
        return _POINT.sub(",", text)
    return text


def _measured(inner: dict[str, str], template: _Template, language: str) -> dict[str, str]:
    """What fills a template, with the decimal sign where the template goes on with a unit."""
    if language not in METRIC_FIRST:
        return inner
    numbers = (name for name in template.with_unit if _NUMBER.fullmatch(inner[name]))
    return inner | {name: _POINT.sub(",", inner[name]) for name in numbers}


def _both_systems(text: str, language: str) -> str:
    """``58 5/8 in · 1489.1 mm`` with the system first that the language expects first."""
    if language not in METRIC_FIRST or " · " not in text:
        return ""
    inch, _dot, mm = text.partition(" · ")
    if inch.endswith(" mm"):
        inch, mm = mm, inch
    if _BOTH.fullmatch(f"{inch} · {mm}") is None:
        return ""
    return f"{_POINT.sub(',', mm)} · {_POINT.sub(',', inch)}"


# --- Templates ----------------------------------------------------------------------------

_HOLE = re.compile(r"\{(\d*)\}")


@dataclass(frozen=True, slots=True)
class _Template:
    """A sentence with holes: the fixed pieces, the names of the holes, and its translation."""

    pieces: tuple[str, ...]
    names: tuple[str, ...]
    translation: str

    def values(self, text: str) -> dict[str, str] | None:
        """What stands in the holes, none of them empty; None where the sentence is another."""
        first, *middle, last = self.pieces
        if not text.startswith(first) or not text.endswith(last):
            return None
        at, end, found = len(first), len(text) - len(last), []
        for piece in middle:
            place = text.find(piece, at + 1, end)
            if place < 0:
                return None
            found.append(text[at:place])
            at = place + len(piece)
        if at >= end:
            return None
        found.append(text[at:end])
        return dict(zip(self.names, found, strict=True))

    @property
    def with_unit(self) -> frozenset[str]:
        """The holes that a unit stands behind, or a times sign before."""
        around = zip(self.names, self.pieces, self.pieces[1:], strict=False)
        return frozenset(
            name
            for name, before, behind in around
            if before.endswith("× ") or _UNIT_NEXT.match(behind)
        )

    def filled(self, values: dict[str, str]) -> str:
        """The translation with its holes filled; what fills them is not looked at again."""
        names = iter(self.names)
        return _HOLE.sub(lambda hole: values[hole[1] or next(names)], self.translation)


def catalogue(language: str) -> Path:
    """The compiled catalogue of one language."""
    return Path(settings.LOCALE_PATHS[0]) / language / "LC_MESSAGES" / "django.mo"


def templates(language: str) -> Iterator[tuple[str, str]]:
    """Every sentence of the domain with holes, and its translation."""
    with catalogue(language).open("rb") as file:
        known = GNUTranslations(file)._catalog  # type: ignore[attr-defined]  # no other way to list
    for text, words in known.items():
        if isinstance(text, str) and _HOLE.search(text):
            yield text, words


@cache
def _templates(language: str) -> tuple[_Template, ...]:
    if not catalogue(language).exists():
        return ()
    made = [_template(text, words) for text, words in templates(language)]
    return tuple(sorted(made, key=lambda one: -sum(map(len, one.pieces))))


def _template(text: str, translation: str) -> _Template:
    split = _HOLE.split(text)
    names = tuple(name or f"#{at}" for at, name in enumerate(split[1::2]))
    return _Template(tuple(split[::2]), names, translation)


@cache
def reader_words(language: str) -> dict[str, str]:
    """What the reader of numbers can say, English to the language, for a phone without a signal."""
    path = catalogue(language).with_name("reader.json")
    return dict(json.loads(path.read_text("utf-8"))) if path.exists() else {}


# --- Drawings -----------------------------------------------------------------------------


def drawing_words() -> dict[str, str]:
    """The words of a drawing in the language of the moment. Letters stay: the key explains them."""
    return _drawing_words(language_now())


@cache
def _drawing_words(language: str) -> dict[str, str]:
    return {key: word if len(word) < 2 else said(word) for key, word in ENGLISH.items()}


def said_drawing(drawing: Drawing) -> Drawing:
    """A drawing of ours with every word of it said; its description piece by piece."""
    shapes = tuple(
        replace(one, text=said(one.text)) if isinstance(one, Text) else one
        for one in drawing.shapes
    )
    told = "; ".join(said(part) for part in drawing.description.split("; "))
    return replace(drawing, shapes=shapes, title=said(drawing.title), description=told)


def with_local_numbers(drawing: Drawing) -> Drawing:
    """The drawing with the decimal sign of the language of the moment."""
    if language_now() not in METRIC_FIRST:
        return drawing
    shapes = tuple(_with_comma(shape) for shape in drawing.shapes)
    description = _POINT.sub(",", drawing.description)
    return replace(drawing, shapes=shapes, description=description)


def _with_comma(shape: Shape) -> Shape:
    return replace(shape, text=_POINT.sub(",", shape.text)) if isinstance(shape, Text) else shape
