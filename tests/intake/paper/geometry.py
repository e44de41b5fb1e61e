"""A paper's own geometry, in millimetres from the page's top left, by a reader not ours."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pdfplumber

MM = 25.4 / 72
Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Stroke:
    """One path: its points, and where it lies."""

    points: Points
    width: float
    curved: bool
    figure: str  # the alternative text of the figure it stands in

    @property
    def x(self) -> tuple[float, float]:
        """Left and right end."""
        return min(x for x, _ in self.points), max(x for x, _ in self.points)

    @property
    def y(self) -> tuple[float, float]:
        """Upper and lower end."""
        return min(y for _, y in self.points), max(y for _, y in self.points)

    @property
    def long(self) -> float:
        """The longer side of its box."""
        return max(self.x[1] - self.x[0], self.y[1] - self.y[0])

    @property
    def is_level(self) -> bool:
        return self.y[1] - self.y[0] < 1e-3

    @property
    def is_upright(self) -> bool:
        return self.x[1] - self.x[0] < 1e-3


@dataclass(frozen=True)
class Page:
    """One page: its size in mm, its strokes, its signs, and its text in the order of reading."""

    wide: float
    high: float
    strokes: tuple[Stroke, ...]
    chars: tuple[dict[str, Any], ...]
    text: str

    def figure(self, start: str) -> tuple[Stroke, ...]:
        """The strokes of the figure whose words begin so."""
        return tuple(stroke for stroke in self.strokes if stroke.figure.startswith(start))


def pages(pdf: bytes) -> tuple[Page, ...]:
    """Every page of a paper."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return tuple(_page(page, _figures(page)) for page in paper.pages)


def _figures(page: Any) -> dict[int, str]:
    return {
        mcid: element.get("alt_text", "")
        for element in walk(page.structure_tree)
        for mcid in element.get("mcids", ())
        if element["type"] == "Figure"
    }


def walk(tree: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """Every element of a structure tree."""
    for element in tree:
        yield element
        yield from walk(element.get("children", []))


def _page(page: Any, figures: dict[int, str]) -> Page:
    drawn = [
        Stroke(
            tuple((x * MM, y * MM) for x, y in one["pts"]),
            (one["linewidth"] or 0) * MM if one["stroke"] else 0.0,
            any(piece[0] == "c" for piece in one["path"]),
            figures.get(one["mcid"], ""),
        )
        for one in (*page.lines, *page.curves, *page.rects)
    ]
    text = re.sub(r"\s+", " ", "".join(sign["text"] for sign in page.chars))
    size = float(page.width) * MM, float(page.height) * MM
    return Page(*size, tuple(drawn), tuple(page.chars), text)


def outside(page: Page, margin: float) -> list[str]:
    """What reaches into the margin of the page, in mm."""
    found = []
    for stroke in page.strokes:
        half = stroke.width / 2
        (left, right), (top, bottom) = stroke.x, stroke.y
        if (
            left - half < margin
            or top - half < margin
            or right + half > page.wide - margin
            or bottom + half > page.high - margin
        ):
            found.append(f"{stroke.figure[:20]} {stroke.points[:4]}")
    for sign in page.chars:
        if sign["text"] == " ":
            continue
        left, right = sign["x0"] * MM, sign["x1"] * MM
        top, bottom = sign["top"] * MM, sign["bottom"] * MM
        if (
            left < margin
            or right > page.wide - margin
            or top < margin
            or bottom > page.high - margin
        ):
            found.append(f"{sign['text']} at {left:.1f}, {top:.1f}")
    return found
