"""The customer's page as data: each question with what was typed, its errors and its drawing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import count
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString, mark_safe

from catalog.domain.tape import LengthError, Unit, read_length
from intake.domain.drawing import ASKED, drive_line
from intake.domain.questions import QUESTIONS
from intake.domain.svg import to_svg
from intake.long_path import PARTS_OF_FORM, PASSES_THROUGH, Part
from intake.said import drawing_words, language_now, said, spoken_in
from intake.short_path import BoxPlan, Plan, Words

SHOWN = "shown"  # the box that says which folded questions were open as the form was sent
_BIG = "drive-line"  # the id of the drawing that stays in view


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What we understood of one length, or why we could not."""

    both: str = ""
    spoken: str = ""
    doubts: tuple[str, ...] = ()
    error: str = ""
    suggestions: tuple[str, ...] = ()


def read_back(slug: str, text: str, unit: str | None) -> ReadBack:
    """Read one length as the sheet will read it.

    >>> read_back("gap_now", "3/4", "in").spoken
    'three quarters of an inch'
    """
    if not text.strip():
        return ReadBack()
    question = QUESTIONS.get(slug.removesuffix(".again"))
    try:
        tape: Unit | None = "in" if unit == "in" else "mm" if unit == "mm" else None
        read = read_length(text, tape, question.widest if question else None)
    except LengthError as error:
        return ReadBack(error=said(error.message), suggestions=error.suggestions)
    system = "in" if read.unit in ("in", "ft") else "mm"
    spoken = (
        read.spoken if language_now() == "en" else spoken_in(read.length, system, language_now())
    )
    return ReadBack(said(read.length.both()), spoken, tuple(map(said, read.doubts)))


@dataclass(frozen=True)
class Box:
    """One box: its plan, what was typed in it and whether it is what the error means."""

    plan: BoxPlan
    typed: tuple[str, ...]
    wrong: bool
    described: str

    @property
    def id(self) -> str:
        """Its id on the page."""
        return "f-" + self.plan.name.replace(".", "-")

    @property
    def value(self) -> str:
        """What was typed, as typed."""
        return self.typed[-1] if self.typed else ""

    @property
    def options(self) -> list[tuple[str, Words, bool, str]]:
        """Value, words, chosen, id; the first choice of a radio carries the box's own id."""
        return [
            (value, words, value in self.typed, self.id if number == 0 else f"{self.id}-{value}")
            for number, (value, words) in enumerate(self.plan.options)
        ]


@dataclass(frozen=True)
class Asked:
    """One question as the page shows it."""

    plan: Plan
    number: int
    typed: QueryDict
    errors: tuple[str, ...]
    wrong_paths: frozenset[str]

    @property
    def id(self) -> str:
        """Where a "change" link jumps to."""
        return "q-" + self.plan.slug.replace(".", "-")

    @cached_property
    def boxes(self) -> list[Box]:
        """Its boxes with what was typed; the error belongs to the box it names, else the first."""
        named = [box.name for box in self.plan.boxes if box.name in self.wrong_paths]
        blamed = set(named or [self.plan.boxes[0].name]) if self.errors else set()
        described = f"{self.id}-how" + (f" {self.id}-error" if self.errors else "")
        return [
            Box(box, tuple(self.typed.getlist(box.name)), box.name in blamed, described)
            for box in self.plan.boxes
        ]

    @property
    def state_name(self) -> str:
        """The name of the "can't measure" tick, or nothing where there is none."""
        return f"{self.plan.path}.state" if self.plan.cannot else ""

    @property
    def cannot(self) -> bool:
        """Ticked already."""
        return bool(self.state_name and self.typed.get(self.state_name))

    @property
    def reads(self) -> bool:
        """Holds a length that is read back as it is typed."""
        first = self.plan.boxes[0]
        return first.kind == "length" and first.name.endswith(".text")

    @property
    def read_back(self) -> ReadBack:
        """Its length as we understood it."""
        text = self.typed.get(self.plan.boxes[0].name, "")
        return read_back(self.plan.slug, text, self.typed.get("tape_unit"))

    @property
    def figure(self) -> SafeString:
        """The drive line with this dimension lit; nothing where there is nothing to show."""
        return _figure(self.plan.slug, language_now()) if self.plan.drawn else SafeString("")


@dataclass(frozen=True)
class Section:
    """Some questions under one heading, and whether they are folded away."""

    part: Part
    questions: list[Asked]
    layout: str

    @property
    def is_used(self) -> bool:
        """Something is typed or wrong in it."""
        return any(
            asked.errors or asked.cannot or any(box.value for box in asked.boxes)
            for asked in self.questions
        )

    @property
    def is_open(self) -> bool:
        """Not folded: it is needed for this drive, or used already."""
        needed = bool(self.layout) and self.part.opens_for == self.layout
        return not self.part.folded or needed or self.is_used


@dataclass(frozen=True)
class MeasurePage:
    """The whole form: sections of questions, and what needs another look."""

    typed: QueryDict
    errors: Mapping[str, list[str]]

    @cached_property
    def sections(self) -> list[Section]:
        """Headings and their questions, numbered through."""
        numbers = count(1)
        return [
            Section(part, [self._asked(plan, next(numbers)) for plan in part.plans], self._layout)
            for part in PARTS_OF_FORM
        ]

    @property
    def job(self) -> str:
        """The customer's own order word; asked for only where there is one already."""
        return self.typed.get("job", "")

    @property
    def _layout(self) -> str:
        return self.typed.get("answers.drive_layout", "")

    @property
    def asks_further(self) -> bool:
        """Whether the drive chosen needs questions that were folded away as this was sent."""
        shown = self.typed.getlist(SHOWN)
        return any(
            section.part.opens_for == self._layout
            and section.part.key not in shown
            and not section.is_used
            for section in self.sections
            if section.part.opens_for
        )

    @property
    def asked(self) -> list[Asked]:
        """Every question."""
        return [asked for section in self.sections for asked in section.questions]

    def _asked(self, plan: Plan, number: int) -> Asked:
        told = {path: lines for path, lines in self.errors.items() if _belongs(path, plan)}
        sentences = tuple(dict.fromkeys(said(line) for lines in told.values() for line in lines))
        return Asked(plan, number, self.typed, sentences, frozenset(told))

    @property
    def summary(self) -> list[dict[str, Any]]:
        """One line for each error, linked to its box; what fits no box is said all the same."""
        lines = [
            {"id": box.id, "label": box.plan.label, "message": " ".join(asked.errors)}
            for asked in self.asked
            if asked.errors
            for box in asked.boxes
            if box.wrong
        ]
        homeless = [
            {"id": "", "label": "", "message": f"{path}: {' '.join(map(said, lines))}"}
            for path, lines in self.errors.items()
            if not any(_belongs(path, asked.plan) for asked in self.asked)
        ]
        return lines + homeless

    @property
    def drawing(self) -> SafeString:
        """The drawing that stays in view: every answer can be lit in it."""
        return _big(language_now())


def _belongs(path: str, plan: Plan) -> bool:
    if path == plan.path or path in {box.name for box in plan.boxes}:
        return True
    inside = path.startswith(f"{plan.path}.")
    return inside and not path.startswith("answers.face_to_strut_aft.again")


@lru_cache(maxsize=8)
def _big(language: str) -> SafeString:
    return _trusted(to_svg(drive_line({}, lit="all", words=drawing_words()), ident=_BIG))


@lru_cache(maxsize=256)
def _figure(slug: str, language: str) -> SafeString:
    lit = slug.removesuffix(".again")
    if lit not in ASKED:
        return SafeString("")
    through = lit == "gearbox_through"  # a length that no other drive has
    layout = {"layout": PASSES_THROUGH} if through else {}
    drawing = drive_line(layout, lit=lit, words=drawing_words())
    return _trusted(to_svg(drawing, ident=f"see-{lit}", parts_of="" if through else _BIG))


def _trusted(svg: str) -> SafeString:
    """Our own drawing; every text in it was escaped by `to_svg`."""
    return mark_safe(svg)  # noqa: S308


def chosen(options: Iterable[tuple[str, Words]], value: str) -> Words:
    """The words of one choice; the value itself where it has none."""
    return dict(options).get(value, value)
