"""Charts as plain SVG text: small bars by month, drawn by hand, no style attributes.

The picture is sized for a 360 px phone (its user unit is one CSS pixel there) and grows with
its box. Every bar carries its own number; colour is decoration. All text is escaped.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

WIDTH = 344
_LABEL_Y, _BAR_TOP, _BAR_ROOM, _ROW = 14, 34, 36, 92
_TOTAL_ROOM = 2


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One thing that is counted: its name and one whole number for each month."""

    label: str
    counts: tuple[int, ...]

    @property
    def total(self) -> int:
        """All months together."""
        return sum(self.counts)


def month_bars(
    rows: Sequence[ChartRow], months: Sequence[str], *, key: str, title: str, description: str
) -> str:
    """Draw a strip of bars for each row, one bar a month, all to one scale.

    `key` makes the ids unique on the page; `months` are short labels, oldest first.

    >>> svg = month_bars([ChartRow("Gap", (0, 2))], ["Oct", "Nov"], key="q",
    ...                  title="By question", description="Gap 2.")
    >>> svg.count("<rect"), "By question" in svg
    (1, True)
    """
    highest = max((count for row in rows for count in row.counts), default=0)
    strips = "".join(
        _strip(row, months, index * _ROW, highest or 1) for index, row in enumerate(rows)
    )
    height = max(len(rows), 1) * _ROW
    name, about = escape(f"{key}-title"), escape(f"{key}-desc")
    return (
        f'<svg class="chart" viewBox="0 0 {WIDTH} {height}" role="img" '
        f'aria-labelledby="{name} {about}"><title id="{name}">{escape(title)}</title>'
        f'<desc id="{about}">{escape(description)}</desc>{strips}</svg>'
    )


def _strip(row: ChartRow, months: Sequence[str], top: int, highest: int) -> str:
    """One row: its name and total, a base line, and the bars on it."""
    step = WIDTH / max(len(months), 1)
    base = top + _BAR_TOP + _BAR_ROOM
    bars = "".join(
        _bar(count, month, index * step, step, base, highest)
        for index, (count, month) in enumerate(zip(row.counts, months, strict=True))
    )
    return (
        f'<text class="chart-label" x="0" y="{top + _LABEL_Y}">{escape(_short(row.label))}</text>'
        f'<text class="chart-total" x="{WIDTH - _TOTAL_ROOM}" y="{top + _LABEL_Y}">{row.total}'
        f'</text>{bars}<line class="line" x1="0" x2="{WIDTH}" y1="{base}" y2="{base}"/>'
    )


def _bar(count: int, month: str, left: float, step: float, base: int, highest: int) -> str:
    """One month: its bar with the number on top (nothing for none), its name below."""
    middle = left + step / 2
    name = f'<text class="chart-month" x="{middle:.1f}" y="{base + 12}">{escape(month)}</text>'
    if not count:
        return name
    height, width = max(2.0, _BAR_ROOM * count / highest), min(step * 0.7, 34.0)
    top = base - height
    return (
        f'<rect class="bar" x="{middle - width / 2:.1f}" y="{top:.1f}" '
        f'width="{width:.1f}" height="{height:.1f}"/>'
        f'<text class="chart-value" x="{middle:.1f}" y="{top - 3:.1f}">{count}</text>{name}'
    )


def _short(label: str, longest: int = 48) -> str:
    """A label that fits its line; the table beside the chart has the whole of it."""
    return label if len(label) <= longest else label[: longest - 1].rstrip() + "…"
