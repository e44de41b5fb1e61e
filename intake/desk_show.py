"""A verdict as the counter sees it: words beside numbers, three findings, one question on top."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext_lazy as _

from intake.desk_asked import AskedNext, asked_next
from intake.desk_words import CHOICES, LABELS, PARTS, Words
from intake.domain.drawing import drive_line, gap_picture
from intake.domain.methods import METHOD_WORDS
from intake.domain.reading import read_sheet
from intake.domain.sheet import SheetErrors
from intake.domain.svg import to_svg
from intake.likely import Doubts, percent
from intake.models import SheetVersion
from intake.said import drawing_words, with_local_numbers

_WORDS: dict[str, tuple[Words, Words]] = {
    "release": (_("Release"), _("Nothing to ask. It can be quoted.")),
    "ask": (_("Ask"), _("A question is open. Ask it before quoting.")),
    "stop": (_("Stop"), _("Do not cut to these numbers.")),
}


@dataclass(frozen=True, slots=True)
class Shown:
    """What the panel and the submission page draw of one verdict."""

    outcome: Mapping[str, Any]

    @property
    def verdict(self) -> str:
        """release, ask or stop."""
        return str(self.outcome["verdict"])

    @property
    def word(self) -> Words:
        """The verdict as a word."""
        return _WORDS[self.verdict][0]

    @property
    def sentence(self) -> Words:
        """What to do about it."""
        return _WORDS[self.verdict][1]

    @property
    def doubts(self) -> Doubts:
        """The findings, dearest first: three shown, the rest folded."""
        return Doubts(list(self.outcome.get("findings") or ()))

    @property
    def is_optional(self) -> bool:
        """Whether the sheet is good without the next question's answer."""
        return self.verdict == "release"

    @property
    def next_question(self) -> Mapping[str, Any] | None:
        """The one question that is worth most."""
        return self.outcome.get("next_question")

    @property
    def asked(self) -> AskedNext | None:
        """The same for the call page: with its sketch and its chord."""
        return asked_next(self.outcome)

    @property
    def shaft(self) -> Mapping[str, Any] | None:
        """The shaft's figures, when there are any."""
        return self.outcome.get("shaft")

    @property
    def fit(self) -> tuple[Words, str] | None:
        """The chance that the gap lands in its band, in words and as a number."""
        chance = (self.shaft or {}).get("fit_probability")
        return None if chance is None else (fit_words(chance), percent(chance))

    @property
    def cut(self) -> str:
        """The cut length in both systems."""
        return both_systems((self.shaft or {}).get("cut_length"))

    @property
    def gap(self) -> str:
        """The predicted gap in both systems."""
        return both_systems((self.shaft or {}).get("predicted_gap"))

    @property
    def parts(self) -> Sequence[Mapping[str, Any]]:
        """Matching parts with their stock."""
        return list(self.outcome.get("parts") or ())

    @property
    def gap_svg(self) -> SafeString:
        """The gap with its fog; empty when it cannot be predicted."""
        stack = self.outcome.get("stack") or {}
        if stack.get("predicted_gap") is None:
            return SafeString("")
        picture = with_local_numbers(gap_picture(stack, drawing_words()))
        return _safe(to_svg(picture, ident="gap"))

    def line_svg(self, readings: Mapping[str, str] | None = None) -> SafeString:
        """The whole drive line with the numbers on it; empty without a stack."""
        stack = self.outcome.get("stack")
        if not stack:
            return SafeString("")
        return _safe(to_svg(drive_line(stack, readings=readings or {}), ident="line"))


@dataclass(frozen=True, slots=True)
class Row:
    """One answer of a sheet: as typed, how it was measured, and its value in both systems."""

    slug: str
    label: Words
    typed: str
    method: Words = ""
    both: str = ""
    drawn: str = ""
    doubts: tuple[str, ...] = ()


def sheet_rows(sheet: SheetVersion) -> list[Row]:
    """Every answer of a version, in the order it was given."""
    try:
        readings = read_sheet(sheet.body).readings
    except SheetErrors:
        readings = {}  # written under older rules; what was typed is shown all the same
    return [_row(slug, answer, readings.get(slug)) for slug, answer in _answers(sheet)]


def _answers(sheet: SheetVersion) -> list[tuple[str, Any]]:
    return list(sheet.body.get("answers", {}).items())


def _row(slug: str, answer: Any, reading: Any) -> Row:
    method = METHOD_WORDS.get(reading.method, reading.method) if reading else ""
    typed = told(answer, slug)
    if reading:
        length, system = reading.length, "in" if reading.unit in ("in", "ft") else "mm"
        drawn = length.show(system)
        return Row(slug, label_for(slug), typed, method, length.both(), drawn, reading.doubts)
    return Row(slug, label_for(slug), typed)


def told(answer: Any, slug: str = "") -> str:
    """An answer in a few words, as typed.

    >>> told({"text": "3/4", "method": "rule"}), told({"count": 4, "spacing": "2 5/16"})
    ('3/4', 'count 4, spacing 2 5/16')
    >>> told({"text": "15 1/4", "start_mark": "1"}), told(None)
    ('15 1/4 from mark 1', '')
    """
    if answer is None:
        return ""
    if isinstance(answer, list):
        return ", ".join(told(item) for item in answer)
    if not isinstance(answer, dict):
        return str(dict(CHOICES.get(slug, ())).get(answer, answer))
    if answer.get("state"):
        return str(answer["state"]).replace("_", " ")
    words = dict(answer)
    text, mark, again = words.pop("text", ""), words.pop("start_mark", ""), words.pop("again", None)
    words.pop("method", None)
    parts = [f"{text} from mark {mark}" if mark not in ("", "0") else str(text)] if text else []
    parts += [f"{_part(slug, name)} {told(value)}" for name, value in words.items()]
    parts += [f"again {told(again)}"] if again else []
    return ", ".join(parts)


def _part(slug: str, name: str) -> str:
    words = {part: str(word) for part, word, _options in PARTS.get(slug, ())}
    return words.get(name, name.replace("_", " "))


def fit_words(chance: float) -> Words:
    """Say a probability (0..1) the way a colleague would."""
    if chance >= 0.97:
        return _("almost sure to fit")
    if chance >= 0.90:
        return _("likely to fit")
    if chance >= 0.60:
        return _("may fit, may not")
    return _("not to be relied on")


def both_systems(length: Mapping[str, str] | None) -> str:
    """A stored length for people; empty for none.

    >>> both_systems({"mm": "1489.075000", "inch": "58 5/8"})
    '58 5/8 in · 1489.1 mm'
    """
    return f"{length['inch']} in · {Decimal(length['mm']):.1f} mm" if length else ""


def label_for(slug: str) -> Words:
    """The short name of an answer."""
    return LABELS.get(slug) or slug.replace("_", " ").capitalize()


def _safe(svg: str) -> SafeString:
    """SVG from our own drawing, which escapes every text in it."""
    return mark_safe(svg)  # noqa: S308 - to_svg escapes
