"""The drive line as a quote prints it: all to one scale, and which scale that is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from intake.domain.drawing import drive_line
from intake.domain.drawing_words import Words
from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text, rectangle
from intake.domain.stations import sizes, stations

WIDE_MM = 180.0


def scaled_drawing(stack: Mapping[str, Any], words: Words) -> Drawing:
    """Every station at the same scale; an extension line gives way to a number it would cross."""
    drawn = drive_line(stack, width_mm=WIDE_MM, shorten=False, words=words)
    return replace(drawn, shapes=tuple(_uncrossed(drawn.shapes)))


def scale_of(stack: Mapping[str, Any], paper_mm: float = WIDE_MM) -> float:
    """How many millimetres of the boat one millimetre of paper shows."""
    size = sizes(stack)
    at = stations(size, passes=stack.get("layout") == "v_pass_through", shorten=False,
                  width=WIDE_MM, axis=0.0, layout=str(stack.get("layout") or "inline"))  # fmt: skip
    return size.diameter / at.unit * WIDE_MM / paper_mm


def _uncrossed(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    """Numbers that an upright line would strike come last, on a ground of paper."""
    upright = [s for s in shapes if isinstance(s, Line) and s.slug and s.x1 == s.x2]
    struck = {id(s) for s in shapes if isinstance(s, Text) and s.slug and _is_struck(s, upright)}
    letters = [s for s in shapes if isinstance(s, Text) and id(s) in struck]
    yield from (s for s in shapes if id(s) not in struck)
    for text in letters:
        yield _ground(text)
        yield text


def _is_struck(text: Text, upright: list[Line]) -> bool:
    left, right = text.span
    return any(
        left < line.x1 < right and line.y1 < text.y - 0.3 * text.size < line.y2 for line in upright
    )


def _ground(text: Text) -> Polygon:
    left, right = text.span
    top, bottom = text.y - 0.86 * text.size, text.y + 0.16 * text.size
    return rectangle(left + 0.2, top, right - 0.2, bottom, kind="ground")
