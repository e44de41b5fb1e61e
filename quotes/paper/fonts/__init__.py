"""The two faces our papers are set in, registered once a process.

Both are cut down beforehand (see LICENCE.txt), which halves a paper and its time. Their PostScript
names differ: two fonts of one name collide silently.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

REGULAR = "FairgapSans-Regular"
BOLD = "FairgapSans-Bold"
SUBSTITUTE = "\N{WHITE SQUARE}"
_FILES = {REGULAR: "fairgap-sans-regular.ttf", BOLD: "fairgap-sans-bold.ttf"}


@cache
def register() -> frozenset[int]:
    """Make both faces known to ReportLab; returns the code points both of them can set."""
    here = Path(__file__).parent
    faces = [TTFont(name, str(here / file)) for name, file in _FILES.items()]
    for face in faces:
        pdfmetrics.registerFont(face)
    return frozenset.intersection(*(frozenset(face.face.charToGlyph) for face in faces))


def printable(text: str) -> str:
    """The text as our faces can set it: one line, composed, each unknown sign a white square.

    Combining marks left over, and marks that turn the direction of writing, are dropped.
    """
    known = register()
    plain = " ".join(unicodedata.normalize("NFC", text).split())
    return "".join(
        sign if ord(sign) in known else SUBSTITUTE
        for sign in plain
        if unicodedata.category(sign) not in ("Cc", "Cf", "Cs", "Mn", "Me")
    )


def width(text: str, font: str, size: float) -> float:
    """How wide a text runs, in points."""
    register()
    return float(pdfmetrics.stringWidth(text, font, size))
