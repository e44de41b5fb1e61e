"""A drawing as SVG: classes only, every text escaped, words for who cannot see it."""

from __future__ import annotations

from html import escape
from itertools import groupby

from intake.domain.shapes import Drawing, Line, Polygon, Shape, Text

_RUN = {
    "plain": "{}",
    "over": '<tspan font-size="66%" dy="-.5em">{}</tspan>',
    "under": '<tspan dy=".33em">⁄</tspan><tspan font-size="66%">{}</tspan>',
}


def to_svg(drawing: Drawing, *, ident: str = "drawing", extra: str = "") -> str:
    """The whole drawing as one ``<svg>``; ``ident`` must be unique on its page."""
    ident, extra = escape(ident), escape(extra)
    lit = " has-lit" if drawing.lit not in ("", "all") else ""
    groups = "".join(
        _group(slug, list(shapes), drawing.lit)
        for slug, shapes in groupby(drawing.shapes, key=lambda shape: shape.slug)
    )
    return (
        f'<svg class="drawing{lit} {extra}" viewBox="0 0 {_n(drawing.width_mm)} '
        f'{_n(drawing.height_mm)}" role="img" aria-labelledby="{ident}-t {ident}-d" '
        f'focusable="false"><title id="{ident}-t">{escape(drawing.title)}</title>'
        f'<desc id="{ident}-d">{escape(drawing.description)}</desc>{groups}</svg>'
    )


def _group(slug: str, shapes: list[Shape], lit: str) -> str:
    if not slug:
        return f'<g class="back">{"".join(map(_shape, shapes))}</g>'
    parts = "".join(
        f'<g class="{part}">{"".join(map(_shape, run))}</g>'
        for part, run in groupby(shapes, key=lambda shape: shape.part)
    )
    here = " is-lit" if slug == lit else ""
    return f'<g class="dim{here}" data-slug="{escape(slug)}">{parts}</g>'


def _shape(shape: Shape) -> str:
    if isinstance(shape, Line):
        return (
            f'<path class="k-{shape.kind}" d="M{_n(shape.x1)} {_n(shape.y1)}'
            f'L{_n(shape.x2)} {_n(shape.y2)}"/>'
        )
    if isinstance(shape, Polygon):
        return _polygon(shape)
    return _text(shape)


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
