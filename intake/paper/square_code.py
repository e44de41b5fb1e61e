"""A square code (QR) as one path of unit squares, for a screen or a paper."""

from __future__ import annotations

from itertools import groupby
from typing import Any


def square_code(text: str, *, quiet: int = 4) -> tuple[int, str]:
    """Side length in modules, quiet zone of four included, and an SVG path of the dark ones.

    Error correction M. One subpath for each run of dark modules in a row.

    >>> size, path = square_code("https://desk.example.org/guided/#h=0123456789abcdefghijkl")
    >>> size, path.startswith("M4 4h7v1h-7z")
    (41, True)
    """
    rows = dark_rows(text)
    runs = "".join(
        f"M{quiet + run[0]} {quiet + row}h{len(run)}v1h-{len(run)}z"
        for row, modules in enumerate(rows)
        for run in _dark_runs(modules)
    )
    return len(rows) + 2 * quiet, runs


def dark_rows(text: str) -> list[list[bool]]:
    """The modules row by row, dark ones true, without the quiet zone."""
    # Fifty milliseconds of modules that only who hands a draft over needs: not at every start.
    from reportlab.graphics.barcode.qr import QrCodeWidget

    widget: Any = QrCodeWidget(text, barLevel="M")
    code = widget.qr
    code.make()
    every = range(code.getModuleCount())
    return [[bool(code.isDark(row, column)) for column in every] for row in every]


def _dark_runs(row: list[bool]) -> list[list[int]]:
    grouped = groupby(range(len(row)), key=lambda n: row[n])
    return [list(run) for dark, run in grouped if dark]
