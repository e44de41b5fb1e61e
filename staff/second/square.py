"""The square code a phone reads, as one path for a drawing in the page. Segno's home."""

from __future__ import annotations

from itertools import groupby

QUIET = 4  # modules of white around, as the standard asks


def square(text: str) -> tuple[int, str]:
    """Side in modules, quiet zone included, and the path of the dark ones."""
    import segno  # here: only the page that shows one needs it

    rows = [[bool(module) for module in row] for row in segno.make(text, error="m").matrix]
    return len(rows) + 2 * QUIET, "".join(_path(row, y) for y, row in enumerate(rows, QUIET))


def _path(row: list[bool], y: int) -> str:
    """One subpath for each run of dark modules."""
    runs = [list(run) for dark, run in groupby(range(len(row)), key=row.__getitem__) if dark]
    return "".join(f"M{run[0] + QUIET} {y}h{len(run)}v1h-{len(run)}z" for run in runs)
