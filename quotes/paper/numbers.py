"""The customer's own numbers as a table, and the photos that came with them."""

from __future__ import annotations

from io import BytesIO

from reportlab.lib.utils import ImageReader

from intake.paper.pen import HEIGHT, INK, SOFT
from quotes.domain.facts import Measured, PhotoFact
from quotes.paper.page import LEFT, RIGHT, ROOM, Paper

_COLUMNS = (
    ("What was measured", 0.0),
    ("As you wrote it", 156.0),
    ("Read as", 262.0),
    ("How", 366.0),
    ("", 456.0),
)
_STEP, _CLOSEST = 12.6, 9.4  # points from row to row
_WRITTEN = 1  # the column that holds the customer's own words
MOST_PHOTOS = 4
_APART, _HIGH = 12.0, 74.0
_WIDE = (ROOM - (MOST_PHOTOS - 1) * _APART) / MOST_PHOTOS


def readings(paper: Paper) -> None:
    """Rows as close as the room left on this page asks for; on the next page if they must."""
    every = paper.facts.readings
    if not every:
        return
    paper.skip(13)
    paper.need(14 + 4 * _CLOSEST)  # a heading is not left alone at the foot of a page
    shown = every[: paper.most_numbers]
    paper.heading("Your numbers")
    paper.y += 2.5
    step = _step(paper, len(shown) + 1)
    with paper.group("Table"):
        _head(paper, step)
        for reading in shown:
            _next_row(paper, reading, step)
    if left := len(every) - len(shown):
        said = paper.words(f"and {left} more, on your status page")
        paper.line("P", LEFT, paper.y + step, said, size=8, bold=True)
        paper.y += step + 3


def _step(paper: Paper, rows: int) -> float:
    usual = _STEP * paper.tight
    room = (paper.bottom - paper.y - 4) / (rows + 0.5)
    return max(room, _CLOSEST * paper.tight) if _CLOSEST * paper.tight <= room < usual else usual


def _head(paper: Paper, step: float) -> None:
    texts = [text and paper.words(text) for text, _x in _COLUMNS]
    _cells(paper, texts, step, 7.2, head=True)


def _next_row(paper: Paper, reading: Measured, step: float) -> None:
    """A row, on the next page where this one is full."""

    def row(at: Paper) -> None:
        cells = [reading.label, reading.typed, reading.both, reading.how, reading.mark]
        _cells(at, cells, step, min(8.2, step * 0.7))
        at.y += step * 0.02
        at.rule(LEFT, RIGHT, at.y)

    if paper.y + paper.height_of(row) > paper.bottom:
        paper.turn()
        _running_columns(paper)
    row(paper)


def _running_columns(paper: Paper) -> None:
    """The columns' names once more; they were read out on the page before."""
    with paper.artifact():
        for text, x in _COLUMNS:
            if paper.pen and text:
                paper.pen.say(LEFT + x, paper.y + 10, paper.words(text), size=7.2, colour=SOFT)
    paper.y += 14


def _cells(paper: Paper, cells: list[str], step: float, size: float, *, head: bool = False) -> None:
    """One row of the table, as high as its longest cell."""
    ends = [x for _text, x in _COLUMNS[1:]] + [ROOM + 6]
    base = lowest = paper.y + step * 0.75
    with paper.group("TR"):
        for at, (text, (_name, x), end) in enumerate(zip(cells, _COLUMNS, ends, strict=True)):
            tag, scope = ("TH", "Column") if head else ("TD", "")
            soft = head or text == paper.words("measured")
            below = paper.para(tag, LEFT + x, base, text or " ", end - x - 6, size=size,
                               colour=SOFT if soft else INK, leading=1.16, most=2, scope=scope,
                               own=at == _WRITTEN)  # fmt: skip
            lowest = max(lowest, below - size * 1.16)
    paper.y = lowest + step * 0.25


# --- Photos -------------------------------------------------------------------------------


def photos(paper: Paper) -> None:
    """Up to four of them in a row, each with what it was taken for."""
    if paper.facts.photos:
        paper.keep(_row_of_photos)


def _row_of_photos(paper: Paper) -> None:
    every = paper.facts.photos
    paper.skip(13)
    paper.heading("Your photos")
    paper.y += 6
    for at, photo in enumerate(every[:MOST_PHOTOS]):
        _photo(paper, photo, LEFT + at * (_WIDE + _APART))
    paper.y += _HIGH * paper.tight + 14
    left = len(every) - MOST_PHOTOS
    if left > 0:
        said = paper.words(f"and {left} more photos, on your status page")
        paper.line("P", LEFT, paper.y + 8, said, size=7.4)
        paper.y += 11


def _photo(paper: Paper, photo: PhotoFact, x: float) -> None:
    """One picture, whole, at the top of its place; its caption under the row."""
    if paper.pen is None:
        return
    about = photo.about or paper.words("Photo")
    image = ImageReader(BytesIO(photo.jpeg))
    across, down = image.getSize()
    scale = min(_WIDE / across, _HIGH * paper.tight / down)
    wide, high = across * scale, down * scale
    corner = (round(x, 2), round(HEIGHT - paper.y - high, 2))
    bbox = (*corner, round(corner[0] + wide, 2), round(corner[1] + high, 2))
    alt = paper.words(f"Photo of the customer: {about}")
    with paper.pen.tags.leaf("Figure", alt=alt, bbox=bbox):
        paper.pen.canvas.drawImage(image, *corner, width=wide, height=high)
    paper.line(
        "Caption", x, paper.y + _HIGH * paper.tight + 9, about, size=7, colour=SOFT, room=_WIDE
    )
