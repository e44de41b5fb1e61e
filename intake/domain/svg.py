"""A drawing as SVG: classes only, every text escaped, words for who cannot see it."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from itertools import groupby

from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text

_RUN = {
    "plain": "{}",
    "over": '<tspan font-size="66%" dy="-.5em">{}</tspan>',
    "under": '<tspan dy=".33em">⁄</tspan><tspan font-size="66%">{}</tspan>',
}


def to_svg(drawing: Drawing, *, ident: str = "drawing", extra: str = "", parts_of: str = "") -> str:
    """The whole drawing as one ``<svg>``; ``ident`` must be unique on its page.

    ``parts_of`` names another drawing of the page with the same parts: they are then referred to
    instead of being sent again.
    """
    ident, extra = escape(ident), escape(extra)
    lit = " has-lit" if drawing.lit not in ("", "all") else ""
    groups = "".join(
        _group(slug, list(shapes), drawing.lit) if slug else _back(shapes, ident, escape(parts_of))
        for slug, shapes in groupby(drawing.shapes, key=lambda shape: shape.slug)
    )
    return (
        f'<svg class="drawing{lit} {extra}" viewBox="0 0 {_n(drawing.width_mm)} '
        f'{_n(drawing.height_mm)}" role="img" aria-labelledby="{ident}-t {ident}-d" '
        f'focusable="false"><title id="{ident}-t">{escape(drawing.title)}</title>'
        f'<desc id="{ident}-d">{escape(drawing.description)}</desc>{groups}</svg>'
    )


def _back(shapes: Iterable[Shape], ident: str, parts_of: str) -> str:
    if parts_of:
        return f'<use class="back" href="#{parts_of}-back"/>'
    return f'<g class="back" id="{ident}-back">{_shapes(shapes)}</g>'


def _group(slug: str, shapes: list[Shape], lit: str) -> str:
    parts = "".join(
        f'<g class="{part}">{_shapes(run)}</g>'
        for part, run in groupby(shapes, key=lambda shape: shape.part)
    )
    here = " is-lit" if slug == lit else ""
    return f'<g class="dim{here}" data-slug="{escape(slug)}">{parts}</g>'


def _shapes(shapes: Iterable[Shape]) -> str:
    """Lines of one kind that follow each other are one path."""
    return "".join(
        _lines(kind, run) if kind else "".join(map(_shape, run))
        for kind, run in groupby(
            shapes, key=lambda shape: shape.kind if isinstance(shape, Line) else ""
        )
    )


def _lines(kind: str, run: Iterable[Shape]) -> str:
    moves = "".join(
        f"M{_n(line.x1)} {_n(line.y1)}L{_n(line.x2)} {_n(line.y2)}"
        for line in run
        if isinstance(line, Line)
    )
    return f'<path class="k-{kind}" d="{moves}"/>'


def _shape(shape: Shape) -> str:
    if isinstance(shape, Polygon):
        return _polygon(shape)
    return _text(shape) if isinstance(shape, Text) else ""


def _polygon(shape: Polygon) -> str:
    points = "L".join(f"{_n(x)} {_n(y)}" for x, y in shape.points)
    fill = f" f-{shape.fill}" if shape.fill else ""
    return f'<path class="k-{shape.kind}{fill}" d="M{points}{"Z" if shape.closed else ""}"/>'


def _text(shape: Text) -> str:
    """Fractions are set as fractions: raised figures, a slash, small figures."""
    inside = "".join(_RUN[role].format(escape(piece)) for piece, role in shape.runs)
    return (
        f'<text class="k-{shape.kind}" x="{_n(shape.x)}" y="{_n(shape.y)}" '
        f'font-size="{_n(shape.size)}" text-anchor="{shape.anchor}">{inside}</text>'
    )


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
