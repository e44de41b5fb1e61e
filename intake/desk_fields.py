"""What the call page asks, in the order people say things, as boxes a template can draw.

Names of the boxes are those of every form of ours: `answers.<slug>.text`, `.method`, `.state`,
`answers.<slug>` for a choice, `answers.<slug>.<part>` for what is told in parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext_lazy as _

from intake.desk_order import CALL_ORDER
from intake.desk_words import CHOICES, LABELS, PARTS, Options, Words
from intake.domain.methods import METHOD_WORDS
from intake.domain.questions import QUESTIONS

Typed = Mapping[str, Any]
Errors = Mapping[str, list[str]]

_CONTACT: tuple[tuple[str, Words, Options], ...] = (
    ("phone", _("Phone beside the boat"), ()),
    ("name", _("Name"), ()),
    ("email", _("E-mail"), ()),
    (
        "role",
        _("Who is it"),
        (
            ("owner", _("owner")),
            ("yard", _("yard")),
            ("crew", _("crew")),
            ("surveyor", _("surveyor")),
        ),
    ),
)


@dataclass(frozen=True, slots=True)
class Box:
    """One thing to type into or choose from."""

    name: str
    label: Words
    value: str = ""
    options: Options = ()
    always: bool = False  # one of the options is always chosen

    @property
    def id(self) -> str:
        """Its id on the page; names have dots, ids are kinder without."""
        return "f-" + self.name.replace(".", "-")


@dataclass(frozen=True, slots=True)
class Field:
    """One question: its short name, the open question, its boxes, what was wrong with it."""

    key: str
    label: Words
    ask: str
    boxes: tuple[Box, ...]
    errors: tuple[str, ...] = ()
    state: Box | None = None
    is_length: bool = False

    @property
    def id(self) -> str:
        """The stem of the ids of its hint, error and read-back."""
        return "f-" + self.key.replace(".", "-")

    @property
    def described(self) -> str:
        """The ids of what is said about it."""
        return f"{self.id}-ask {self.id}-read" if self.ask else f"{self.id}-read"

    @property
    def unnamed(self) -> str:
        """Whether the boxes need no name of their own on the screen: the field's name says it."""
        if self.state is None and len(self.boxes) == 1:
            return "none"
        return "hidden" if self.is_length or len(self.boxes) == 1 else ""

    @property
    def cannot(self) -> bool:
        """Whether "cannot measure" was ticked."""
        return self.state is not None and self.state.value == "cannot_measure"


@dataclass(frozen=True, slots=True)
class Section:
    """A few questions under one heading; `tucked` ones stay folded until needed."""

    key: str
    title: Words
    fields: tuple[Field, ...]

    @property
    def tucked(self) -> bool:
        """Folded, unless something is typed or wrong in it."""
        used = any(box.value for field in self.fields for box in field.boxes[:1])
        return self.key == "more" and not used and not any(f.errors for f in self.fields)


def sections(typed: Typed, errors: Errors) -> tuple[Section, ...]:
    """Every heading of the call page with what has been typed so far."""
    return tuple(
        Section(key, title, tuple(answer_field(slug, typed, errors) for slug in slugs))
        for key, title, slugs in CALL_ORDER
    )


def contact_fields(typed: Typed, errors: Errors) -> tuple[Field, ...]:
    """Who is on the phone."""
    return tuple(
        Field(
            key=f"contact.{part}",
            label=label,
            ask="",
            boxes=(Box(f"contact.{part}", label, typed.get(f"contact.{part}", ""), options),),
            errors=_errors(f"contact.{part}", errors),
        )
        for part, label, options in _CONTACT
    )


def answer_field(slug: str, typed: Typed, errors: Errors) -> Field:
    """The boxes of one question."""
    key, name = f"answers.{slug}", f"answers.{slug}.state"
    question = QUESTIONS[slug]
    return Field(
        key=key,
        label=LABELS.get(slug) or slug.replace("_", " ").capitalize(),
        ask=question.ask,
        boxes=_boxes(slug, typed),
        errors=_errors(key, errors),
        state=Box(name, _("cannot measure"), typed.get(name, "")),
        is_length=is_measured(slug),
    )


def is_measured(slug: str) -> bool:
    """Whether the answer is one length with a way of measuring."""
    return slug in QUESTIONS and QUESTIONS[slug].kind == "measured"


def can_be_typed(slug: str) -> bool:
    """Whether this page has boxes for the question."""
    return slug in CHOICES or slug in PARTS or is_measured(slug)


def lengths_asked() -> tuple[str, ...]:
    """The measured questions of the call page, in its order."""
    return tuple(slug for _k, _t, slugs in CALL_ORDER for slug in slugs if is_measured(slug))


def all_errors(errors: Errors, fields: Iterable[Field]) -> list[str]:
    """Sentences that belong to no field on the page: they are shown on top, not lost."""
    shown = {field.key for field in fields}
    return [
        sentence
        for key, sentences in errors.items()
        if not any(key == name or key.startswith(name + ".") for name in shown)
        for sentence in sentences
    ]


def _boxes(slug: str, typed: Typed) -> tuple[Box, ...]:
    """The boxes of a choice, of an answer in parts, or of a length and its method."""
    key = f"answers.{slug}"
    if slug in CHOICES:
        return (Box(key, _("which"), typed.get(key, ""), CHOICES[slug]),)
    if slug in PARTS:
        return tuple(
            Box(f"{key}.{part}", word, typed.get(f"{key}.{part}", ""), options)
            for part, word, options in PARTS[slug]
        )
    name = f"{key}.method"
    method = typed.get(name) or QUESTIONS[slug].default_method
    return (
        Box(f"{key}.text", _("number"), typed.get(f"{key}.text", "")),
        Box(name, _("how"), method, _methods(slug, method), always=True),
    )


def _methods(slug: str, chosen: str) -> Options:
    """The ways people measure this, and the one chosen even if it is none of them."""
    ways = dict.fromkeys([*QUESTIONS[slug].methods, chosen])
    return tuple((way, METHOD_WORDS[way]) for way in ways if way in METHOD_WORDS)


def order_boxes(typed: Typed) -> tuple[Box, Box]:
    """The tape's unit, and the customer's own word for the order."""
    units: Options = (("in", _("inches")), ("mm", _("millimetres")))
    return (
        Box("tape_unit", _("Tape shows"), typed.get("tape_unit", ""), units),
        Box("job", _("Their order number"), typed.get("job", "")),
    )


WANTS: Options = (("shaft", _("shaft")), ("coupling", _("coupling")), ("bearing", _("bearing")))


def _errors(key: str, errors: Errors) -> tuple[str, ...]:
    """The sentences of this question and of its parts."""
    return tuple(
        sentence
        for name, sentences in errors.items()
        if name == key or name.startswith(key + ".")
        for sentence in sentences
    )
