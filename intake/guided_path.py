"""The guided path as data for the phone: every screen, and every word, in one language."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from typing import Any

from django.urls import NoReverseMatch, reverse
from django.utils import formats, translation

from catalog.domain.lengths import Length
from intake.cautions import CAUTIONS, cautions_at
from intake.domain.drawing import ASKED
from intake.domain.methods import METHOD_WORDS
from intake.domain.mistake_pictures import pictures_for_app
from intake.domain.mistake_words import WORDS as MISTAKE_WORDS
from intake.domain.questions import COMPOSITES, PART_RANGES, QUESTIONS, Question
from intake.guided_steps import PATH, Step, further
from intake.guided_words import WORDS
from intake.said import METRIC_FIRST, asked, drawing_words, reader_words, said
from intake.short_path import BoxPlan


def guided_path(language: str) -> dict[str, Any]:
    """Everything the page needs to ask, in that language."""
    with translation.override(language):
        told: dict[str, Any] = {
            "language": language,
            "words": _page_words(),
            "cautions": {key: str(words) for key, words in CAUTIONS.items()},
            "metric_first": language in METRIC_FIRST,
            "drawing": {"words": drawing_words(), "mistakes": _mistakes()},
            "said": reader_words(language),
            "steps": [_step(step) for step in (*PATH, *further())],
        }
    written = json.dumps(told, ensure_ascii=False, sort_keys=True)
    return {"version": hashlib.sha256(written.encode()).hexdigest()[:12], **told}


def _page_words() -> dict[str, str]:
    """The page's words; the key for decimals bears the language's own sign."""
    sign = str(formats.get_format("DECIMAL_SEPARATOR"))
    return {key: str(words) for key, words in WORDS.items()} | {"decimal_sign": sign}


def _mistakes() -> Mapping[str, Any]:
    """The pictures of the usual mistakes, with their words in the language of the moment."""
    return pictures_for_app({key: said(word) for key, word in MISTAKE_WORDS.items()})


def _step(step: Step) -> dict[str, Any]:
    plan = step.plan
    question = QUESTIONS.get(plan.slug.removesuffix(".again"))
    told = {
        "slug": step.slug,
        "path": plan.path,
        "ask": asked(step.slug, plan.ask) if step.slug == plan.slug else said(plan.ask),
        "how": str(plan.how),
        "slip": str(plan.slip),
        "cannot": str(plan.cannot),
        "cannot_label": str(plan.cannot_label),
        "boxes": [_box(box) for box in plan.boxes],
        "opens": None if step.opens is None else list(step.opens),
        "know": _know(step.know),
        "caution": list(cautions_at(step.slug)),
        "blind": step.blind or None,
        "photo": step.slug.removesuffix(".again") in QUESTIONS,
        **_drawn(plan.slug),
    }
    return told | (_asked(question) if question else {"kind": plan.slug})


def _asked(question: Question) -> dict[str, Any]:
    told: dict[str, Any] = {"kind": question.kind, "mistake": question.slug}
    if question.kind == "measured":
        told["methods"] = [[way, said(METHOD_WORDS[way])] for way in question.methods]
        told["default_method"] = question.default_method
    if question.inch_range and question.metric_range:
        told["range"] = {"in": _span(question.inch_range), "mm": _span(question.metric_range)}
    return told


def _drawn(slug: str) -> Mapping[str, Any]:
    lit = slug.removesuffix(".again")
    if lit == "face_to_strut_how":
        lit = "face_to_strut_aft"
    if lit not in ASKED:
        return {"lit": None}
    _word, hook, thumb = ASKED[lit]
    return {"lit": lit, "ends": {"hook": said(hook), "thumb": said(thumb)}}


def _box(box: BoxPlan) -> dict[str, Any]:
    told: dict[str, Any] = {"name": box.name, "label": str(box.label), "kind": box.kind}
    if box.options:
        told["options"] = [[value, said(words)] for value, words in box.options]
    if box.autocomplete:
        told["autocomplete"] = box.autocomplete
    if box.kind == "length":
        told["range"] = _range_of(box.name)
    return told


def _range_of(name: str) -> Mapping[str, list[int]] | None:
    """What a number in this box can be, in nanometres, by the unit it is written in."""
    slug, _dot, part = name.removeprefix("answers.").replace(".again", "").partition(".")
    question = QUESTIONS[slug]
    if slug in COMPOSITES:
        span = PART_RANGES.get((slug, part))
        return {"in": _span(span), "mm": _span(span)} if span else None
    if question.inch_range and question.metric_range:
        return {"in": _span(question.inch_range), "mm": _span(question.metric_range)}
    return None


def _span(span: tuple[Length, Length]) -> list[int]:
    return [span[0].nm, span[1].nm]


def _know(slug: str) -> str | None:
    return next(_addresses("know", slug), None) if slug else None


def _addresses(name: str, *args: str) -> Iterator[str]:
    """A page of this room that may not be there."""
    try:
        yield reverse(name, args=args)
    except NoReverseMatch:
        return
