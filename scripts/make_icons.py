"""Draw the desk's mark as the icons a phone's first screen wants. Needs nothing but Python.

    .venv/bin/python scripts/make_icons.py

The shapes are those of config/static/fairgap/mark.svg, on its grid of 32; each pixel is the mean of
4 x 4 samples. Run again when the mark changes and commit what it wrote.
"""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

FOLDER = Path(__file__).resolve().parent.parent / "config" / "static" / "fairgap" / "guided"
PAPER, INK, BRASS = (0xFB, 0xF7, 0xEF), (0x16, 0x23, 0x3A), (0xA0, 0x6F, 0x12)
SAMPLES = 4
HALF = 0.8  # half the width of a line

Point = tuple[float, float]
BAR: tuple[Point, ...] = ((2, 12.5), (11, 12.5), (11, 19.5), (2, 19.5))
DISC: tuple[Point, ...] = ((11, 8), (16, 8), (16, 24), (11, 24))
HUB: tuple[Point, ...] = ((21, 8.5), (29, 10.7), (29, 21.3), (21, 23.5))
GAP = (((16, 27.5), (21, 27.5)), ((16, 25.5), (16, 29.5)), ((21, 25.5), (21, 29.5)))


def colour(x: float, y: float) -> tuple[int, int, int]:
    """What is at that point of the mark."""
    if any(_distance(x, y, *line) <= HALF for line in GAP):
        return BRASS
    for shape in (BAR, DISC, HUB):
        edges = zip(shape, (*shape[1:], shape[0]), strict=True)
        if any(_distance(x, y, *edge) <= HALF for edge in edges):
            return INK
        if _inside(x, y, shape):
            return INK if shape is DISC else PAPER
    on_axis = abs(y - 16) <= 0.4 and 1 <= x <= 31 and _is_drawn((x - 1) % 9)
    return INK if on_axis else PAPER


def _is_drawn(along: float) -> bool:
    """Of a chain line: 5 drawn, 1.5 not, 1 drawn, 1.5 not."""
    return along < 5 or 6.5 <= along < 7.5


def _distance(x: float, y: float, start: Point, end: Point) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    along = ((x - start[0]) * dx + (y - start[1]) * dy) / (dx * dx + dy * dy)
    t = min(max(along, 0.0), 1.0)
    return float(((x - start[0] - t * dx) ** 2 + (y - start[1] - t * dy) ** 2) ** 0.5)


def _inside(x: float, y: float, shape: tuple[Point, ...]) -> bool:
    """Inside a convex shape whose corners run clockwise on the screen."""
    edges = zip(shape, (*shape[1:], shape[0]), strict=True)
    return all((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= 0 for a, b in edges)


def pixels(size: int, margin: float) -> bytes:
    """Rows of RGB, each with its filter byte; ``margin`` is kept free, as a part of the whole."""
    scale = 32 / (size * (1 - 2 * margin))
    shift = size * margin
    steps = [(n + 0.5) / SAMPLES for n in range(SAMPLES)]
    rows = bytearray()
    for row in range(size):
        rows.append(0)
        for column in range(size):
            seen = [
                colour((column + a - shift) * scale, (row + b - shift) * scale)
                for a in steps
                for b in steps
            ]
            rows += bytes(round(sum(one[i] for one in seen) / len(seen)) for i in range(3))
    return bytes(rows)


def png(size: int, rows: bytes) -> bytes:
    """A PNG file of those rows."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        check = zlib.crc32(kind + data)
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)

    head = struct.pack(">IIBBBBB", size, size, 8, 2, 0, 0, 0)
    packed = zlib.compress(rows, 9)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")
    )


if __name__ == "__main__":
    for name, size, margin in (
        ("icon-192", 192, 0.08),
        ("icon-512", 512, 0.08),
        ("icon-512-maskable", 512, 0.2),
    ):
        (FOLDER / f"{name}.png").write_bytes(png(size, pixels(size, margin)))
