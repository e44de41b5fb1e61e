"""What the call page can show of a kept text, and what its boxes are called."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from intake.desk_drafts.boxes import TICKED, is_many
from intake.desk_fields import Box, Field, contact_fields, order_boxes, sections
from intake.desk_show import label_for
from intake.desk_words import Words
from intake.domain.questions import QUESTIONS


def drawn(name: str, text: str) -> str:
    """The text a page sends back for a box that nobody touched."""
    if name.endswith(".state"):
        return text if text == TICKED else ""
    if name.endswith(".method") and not text:
        slug = name.split(".")[1]
        return QUESTIONS[slug].default_method if QUESTIONS[slug].kind == "measured" else ""
    options = _options().get(name)
    if options and text not in options and not is_many(name) and not name.endswith(".method"):
        return ""
    return text.replace("\r", "").replace("\n", "")  # a box of one line has no others


@cache
def _options() -> dict[str, frozenset[str]]:
    return {box.name: frozenset(value for value, _word in box.options) for _f, box in _boxes()}


def _boxes() -> Iterator[tuple[Field | None, Box]]:
    fields = [field for part in sections({}, {}) for field in part.fields]
    for field in [*fields, *contact_fields({}, {})]:
        yield from ((field, box) for box in field.boxes)
    yield from ((None, box) for box in order_boxes({}))


def label_of(name: str) -> Words:
    """What a person calls this box: "Gap", "Flange bolts: how many"."""
    if name == "wants":
        return "Wanted"
    field, box = next(((f, b) for f, b in _boxes() if b.name == name), (None, None))
    if field is None:
        return box.label if box else label_for(name.removeprefix("answers.").split(".")[0])
    plain = box is None or len(field.boxes) == 1 or name.endswith(".text")
    return field.label if plain else f"{field.label}: {box.label}" if box else field.label
