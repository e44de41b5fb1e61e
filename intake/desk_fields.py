"""What the call page asks, in the order people say things, as boxes a template can draw.

Names of the boxes are those of every form of ours: `answers.<slug>.text`, `.method`, `.state`,
`answers.<slug>` for a choice, `answers.<slug>.<part>` for what is told in parts.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from django.utils.translation import gettext_lazy as _

from intake.desk_boxes import Box as Box
from intake.desk_boxes import Field as Field
from intake.desk_boxes import Section as Section
from intake.desk_order import CALL_ORDER, CODES, STOPS
from intake.desk_ways import FORMS
from intake.desk_words import CHOICES, LABELS, PARTS, Options, Words
from intake.domain.methods import METHOD_WORDS
from intake.domain.questions import QUESTIONS
from intake.said import said
from intake.short_path import CHANGED

Typed = Mapping[str, Any]
Errors = Mapping[str, list[str]]

# Answers that are a list: the call page takes the one thing that is said.
_ONE_OF_A_LIST: dict[str, Options] = {"changed_since_shaft": CHANGED}
# Named on the call page alone.
_RARE: dict[str, Words] = {
    "dia_marks": _("Stamped on the shaft"),
    "strut_bore": _("Strut bore, bearing out"),
    "bearing_play": _("Play in the bearing"),
    "rudder_clear": _("Propeller to rudder"),
    "gland_position": _("Face to gland"),
    "log_id": _("Log inside"),
    "taper_two_dia": _("Taper, two diameters"),
    "prop_size": _("Propeller"),
    "rotation": _("Propeller turns"),
    "afloat_or_ashore": _("Boat lies"),
    "front_shape": _("Shaft in the coupling"),
    "pilot": _("Flange pilot"),
    "pieces": _("In pieces"),
    "set_screws": _("Bearing held by"),
    "hull_material": _("Hull and strut are"),
    "gland_type": _("Gland"),
}

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


def sections(typed: Typed, errors: Errors) -> tuple[Section, ...]:
    """Every heading of the call page with what has been typed so far."""
    return tuple(
        Section(
            key, title, tuple(_on_call(slug, answer_field(slug, typed, errors)) for slug in slugs)
        )
        for key, title, slugs in CALL_ORDER
    )


def _on_call(key: str, field: Field) -> Field:
    """The field with its chord, and with what Enter stops at: the number, and the shaft's side."""
    first, *rest = (_in_short(box) if field.is_length else box for box in field.boxes)
    if key not in STOPS:
        return replace(field, code=CODES[key])
    sides = [replace(box, stop=box.name.endswith(".station")) for box in rest]
    return replace(field, code=CODES[key], boxes=(replace(first, stop=True), *sides))


def _in_short(box: Box) -> Box:
    """The ways by the words that may be said after the number."""
    return replace(box, options=tuple((way, FORMS[way][0]) for way, _words in box.options))


def contact_fields(typed: Typed, errors: Errors) -> tuple[Field, ...]:
    """Who is on the phone."""
    return tuple(
        _on_call(
            f"contact.{part}",
            Field(
                key=f"contact.{part}",
                label=label,
                ask="",
                boxes=(Box(f"contact.{part}", label, typed.get(f"contact.{part}", ""), options),),
                errors=_errors(f"contact.{part}", errors),
            ),
        )
        for part, label, options in _CONTACT
    )


def answer_field(slug: str, typed: Typed, errors: Errors) -> Field:
    """The boxes of one question."""
    key, name = f"answers.{slug}", f"answers.{slug}.state"
    question = QUESTIONS[slug]
    return Field(
        key=key,
        label=LABELS.get(slug) or _RARE.get(slug) or slug.replace("_", " ").capitalize(),
        ask=said(question.ask),
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


def is_on_page(slug: str) -> bool:
    """Whether the call page has a field for the question."""
    return any(slug in slugs for _key, _title, slugs in CALL_ORDER)


def lengths_asked() -> tuple[str, ...]:
    """The measured questions of the call page, in its order."""
    return tuple(slug for _k, _t, slugs in CALL_ORDER for slug in slugs if is_measured(slug))


def all_errors(errors: Errors, fields: Iterable[Field]) -> list[str]:
    """Sentences that belong to no field on the page: they are shown on top, not lost."""
    shown = {field.key for field in fields}
    named = {box.name: f"{box.label}: " for box in order_boxes({})}
    return [
        named.get(key, "") + sentence
        for key, sentences in errors.items()
        if not any(key == name or key.startswith(name + ".") for name in shown)
        for sentence in sentences
    ]


def _boxes(slug: str, typed: Typed) -> tuple[Box, ...]:
    """The boxes of a choice, of an answer in parts, or of a length and its method."""
    key = f"answers.{slug}"
    if slug in CHOICES or slug in _ONE_OF_A_LIST:
        chosen = typed.get(key, "")
        return (Box(key, _("which"), chosen, _one_of(slug, chosen)),)
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


def _one_of(slug: str, chosen: str) -> Options:
    """The choices; several of a list, told elsewhere, are one more choice and so are not lost."""
    if slug in CHOICES:
        return CHOICES[slug]
    options = _ONE_OF_A_LIST[slug]
    if "," not in chosen:
        return options
    words = dict(options)
    return (*options, (chosen, ", ".join(str(words.get(one, one)) for one in chosen.split(","))))


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
