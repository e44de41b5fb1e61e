"""Pieces as CSV, one a row, that no spreadsheet runs as a formula."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator

from catalog.pieces.models import Piece
from catalog.tables import plain_cell

COLUMNS = (
    *("piece", "kind", "part", "alloy", "diameter_mm", "length_mm", "free_mm", "heat"),
    *("certificate_number", "place", "came", "paper", "line", "cut_from", "gone", "why"),
)


def write_pieces(pieces: Iterable[Piece]) -> Iterator[str]:
    """The heading and every row, one after the other, so that a long list is sent as it is read."""
    yield _line(COLUMNS)
    for piece in pieces:
        yield _line(_row(piece))


def _row(piece: Piece) -> Iterator[object]:
    part, paper = piece.part, piece.goods_in
    yield from (piece.label, piece.kind, part.code, part.alloy)
    diameter = part.as_fact().diameter
    yield diameter.mm_text if diameter else ""
    yield from (piece.length.mm_text, piece.free.mm_text, piece.heat)
    yield from (piece.certificate_number, piece.place, f"{piece.came_at:%Y-%m-%d}")
    yield from (paper.paper, paper.line) if paper else ("", "")
    yield piece.cut_from_id or ""
    yield f"{piece.gone_at:%Y-%m-%d}" if piece.gone_at else ""
    yield piece.gone_why


def _line(cells: Iterable[object]) -> str:
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerow(plain_cell(cell) for cell in cells)
    return out.getvalue()
