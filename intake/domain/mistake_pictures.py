"""Pictures of the usual mistakes: above how it is right, below how it goes wrong.

One source for the guided path, the know-how pages and the papers. What the commonest mistakes
are: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from intake.domain import mistakes_across as across
from intake.domain import mistakes_face as face
from intake.domain import mistakes_propeller as propeller
from intake.domain.drawing_words import Words
from intake.domain.mistake_parts import cross, moved, tick
from intake.domain.mistake_words import MISTAKES_OF, WORDS
from intake.domain.shape_rows import rows
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text, ellipse

WIDTH, PANEL, LEFT, MARK_X, SIZE = 80.0, 34.0, 17.0, 8.0, 3.6  # paper mm

__all__ = ["MISTAKES_OF", "PICTURES", "WORDS", "picture", "pictures_for_app"]

_SCENES = {
    name: scene
    for room in (face, propeller, across)
    for name, scene in vars(room).items()
    if f"{name}.title" in WORDS
}
PICTURES = tuple(name.removesuffix(".title") for name in WORDS if name.endswith(".title"))


def picture(name: str, words: Words = WORDS) -> Drawing:
    """One picture. ``name`` is one of :data:`PICTURES`, else KeyError."""
    said = {part: words[f"{name}.{part}"] for part in ("title", "right", "wrong")}
    shapes = [
        *_panel(name, 0.0, words, good=True),
        Line(1, PANEL + 0.6, WIDTH - 1, PANEL + 0.6, "hatch"),
        *_panel(name, PANEL + 1.6, words, good=False),
    ]
    description = words["description"].format(right=said["right"], wrong=said["wrong"])
    return Drawing(tuple(shapes), WIDTH, 2 * PANEL + 2.0, said["title"], description)


def _panel(name: str, top: float, words: Words, *, good: bool) -> Iterator[Shape]:
    """A mark and a word on the left, the scene beside them, its caption below it."""
    scene, way = _SCENES[name], "right" if good else "wrong"
    y = top + 12.0
    sign, kind = (tick(MARK_X, y), "lit") if good else (cross(MARK_X, y, 1.1), "word")
    yield Polygon(
        ellipse(MARK_X, y, 5, 5, 28 if good else 4), "lit" if good else "outline", "paper"
    )
    yield sign
    yield Text(MARK_X, y + 9.5, words[way], SIZE, "middle", kind)
    for shape in scene(good):
        if isinstance(shape, Text) and shape.text.startswith("="):  # a word of ours, by its key
            shape = replace(shape, text=words[shape.text[1:]])
        yield moved(shape, LEFT, top + 1.4)
    yield Text(LEFT + 31, top + 32.0, words[f"{name}.{way}"], SIZE + 0.3, "middle", kind)


def pictures_for_app(words: Words = WORDS) -> Mapping[str, Any]:
    """All pictures as rows of shapes, and which question each belongs to, for the guided path."""
    drawn = {name: picture(name, words) for name in PICTURES}
    return {
        "pictures": {
            name: {
                "title": one.title, "description": one.description, "width": one.width_mm,
                "height": one.height_mm, "shapes": rows(one.shapes),
            }
            for name, one in drawn.items()
        },
        "of": {slug: list(names) for slug, names in MISTAKES_OF.items()},
    }  # fmt: skip
