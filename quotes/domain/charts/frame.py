"""What every chart is made of: a frame with its words, lines, texts, and fills of their own.

The picture is sized for a 360 px phone (its user unit is one CSS pixel there) and grows with its
box. No style attributes: classes tell what a thing is, the page's style sheet how it looks. Fills
differ in their pattern, so that nothing is told by colour alone. All text is escaped.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

WIDTH = 344
LETTER = 6.2  # the width of a letter of 11 px, at most, on the average
_CENTRED = ("chart-month", "chart-value")
# The patterns of parts of a bar, in order; each has its own in the legend.
FILLS = ("fill-0", "fill-1", "fill-2", "fill-3")


@dataclass(frozen=True, slots=True)
class Words:
    """What a chart says of itself to who does not see it. ``key`` makes ids unique on a page."""

    key: str
    title: str
    description: str


def frame(words: Words, height: float, drawn: Iterable[str]) -> str:
    """The whole picture."""
    name, about = escape(f"{words.key}-title"), escape(f"{words.key}-desc")
    return (
        f'<svg class="chart" viewBox="0 0 {WIDTH} {height:.0f}" role="img" '
        f'aria-labelledby="{name} {about}"><title id="{name}">{escape(words.title)}</title>'
        f'<desc id="{about}">{escape(words.description)}</desc>{_patterns(words.key)}'
        f"{''.join(drawn)}</svg>"
    )


def _patterns(key: str) -> str:
    """Four fills: full, lines up, lines down, dots."""
    at = escape(key)
    shapes = (
        '<rect width="6" height="6" class="ink"/>',
        '<rect width="6" height="6" class="ground"/><path d="M0 6 6 0" class="stroke"/>',
        '<rect width="6" height="6" class="ground"/><path d="M0 3H6" class="stroke"/>',
        '<rect width="6" height="6" class="ground"/><circle cx="3" cy="3" r="1.2" class="ink"/>',
    )
    made = (
        f'<pattern id="{at}-{fill}" width="6" height="6" patternUnits="userSpaceOnUse">{shape}'
        "</pattern>"
        for fill, shape in zip(FILLS, shapes, strict=True)
    )
    return f"<defs>{''.join(made)}</defs>"


def text(words: str, x: float, y: float, kind: str = "chart-value", longest: int = 0) -> str:
    """A line of text; ``longest`` shortens it, the table beside the chart has the whole of it.

    What is centred on its place is moved into the frame where it would stand out of it.
    """
    said = short(words, longest)
    if kind.startswith(_CENTRED):
        half = len(said) * LETTER / 2
        x = max(min(x, WIDTH - half), half)
    return f'<text class="{kind}" x="{x:.1f}" y="{y:.1f}">{escape(said)}</text>'


def short(words: str, longest: int) -> str:
    """Words of at most so many letters.

    >>> short("measured to the rubber", 12)
    'measured to…'
    """
    if not longest or len(words) <= longest:
        return words
    return words[: longest - 1].rstrip() + "…"


def line(x1: float, y1: float, x2: float, y2: float, kind: str = "line") -> str:
    """A straight line."""
    return f'<line class="{kind}" x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}"/>'


def box(x: float, y: float, width: float, height: float, key: str, fill: str = FILLS[0]) -> str:
    """A bar, or a part of one."""
    return (
        f'<rect class="part" x="{x:.1f}" y="{y:.1f}" width="{max(width, 0):.1f}" '
        f'height="{max(height, 0):.1f}" fill="url(#{escape(key)}-{fill})"/>'
    )


def path(points: Sequence[tuple[float, float]], kind: str, *, closed: bool = False) -> str:
    """A line through points, or the area inside them."""
    if not points:
        return ""
    steps = " ".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f'<path class="{kind}" d="M{steps}{"Z" if closed else ""}"/>'


def nothing(words: Words, said: str) -> str:
    """A picture of no data says so."""
    return frame(words, 40, [text(said, 0, 24, "chart-label")])
