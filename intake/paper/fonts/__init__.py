"""The two faces our papers are set in, registered once a process.

Both are cut down beforehand (see LICENCE.txt), which halves a paper and its time. Their PostScript
names differ: two fonts of one name collide silently.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR = "FairgapSans-Regular"
BOLD = "FairgapSans-Bold"
SUBSTITUTE = "\N{WHITE SQUARE}"
# In the faces' lists but no signs to print: the soft hyphen, which only steers, and no character.
_NO_SIGNS = frozenset({0xAD, 0xFFFF})
_FILES = {REGULAR: "fairgap-sans-regular.ttf", BOLD: "fairgap-sans-bold.ttf"}


@cache
def register() -> frozenset[int]:
    """Make both faces known to ReportLab; returns the code points both of them can set."""
    here = Path(__file__).parent
    faces = [TTFont(name, str(here / file)) for name, file in _FILES.items()]
    for face in faces:
        pdfmetrics.registerFont(face)
    return frozenset.intersection(*(frozenset(face.face.charToGlyph) for face in faces)) - _NO_SIGNS


@lru_cache(maxsize=1024)
def printable(text: str) -> str:
    """The text as our faces can set it: one line, composed, each unknown sign a white square.

    Combining marks left over, and marks that turn the direction of writing, are dropped.
    """
    known = register()
    plain = " ".join(unicodedata.normalize("NFC", text).split())
    if known.issuperset(map(ord, plain)):
        return plain
    return "".join(
        sign if ord(sign) in known else SUBSTITUTE
        for sign in plain
        if unicodedata.category(sign) not in ("Cc", "Cf", "Cs", "Mn", "Me")
    )


@cache
def _advances(font: str) -> Mapping[int, float]:
    """Advance of each sign, in thousandths of the size."""
    register()
    face: Any = pdfmetrics.getFont(font)
    return dict(face.face.charWidths)


def width(text: str, font: str, size: float) -> float:
    """How wide a text runs, in points. (ReportLab's own sum is slower without its C part.)"""
    advances = _advances(font)
    return sum([advances.get(ord(sign), 600) for sign in text]) * size / 1000


@lru_cache(maxsize=2048)
def wrapped(text: str, font: str, size: float, room: float) -> tuple[str, ...]:
    """The text in lines no wider than ``room``; a word that is too long is broken."""
    space, limit = width(" ", font, 1000), room / size * 1000
    lines, line, wide = [], "", 0.0
    for word in text.split(" "):
        more = width(word, font, 1000)
        if line and wide + space + more <= limit:
            line, wide = f"{line} {word}", wide + space + more
            continue
        if line:
            lines.append(line)
        *whole, line = _broken(word, font, limit) if more > limit else [word]
        lines += whole
        wide = width(line, font, 1000)
    return (*lines, line) if line else tuple(lines)


def _broken(word: str, font: str, limit: float) -> list[str]:
    """A word cut into pieces that fit."""
    pieces, piece = [], ""
    for sign in word:
        if piece and width(piece + sign, font, 1000) > limit:
            pieces.append(piece)
            piece = ""
        piece += sign
    return [*pieces, piece]
