"""The cut sheet: one page, one shaft, one datum. Pure: the same facts give the same bytes.

From the top: whose shaft, the bar and the two lengths that are held, the drawing, its stations as
a table, the ends, the order of work beside the boxes for what was made, who made and who looked.
"""

from __future__ import annotations

from collections.abc import Sequence

from intake.paper.fonts import REGULAR, SUBSTITUTE, width
from intake.paper.pen import A4, BRASS, HAIR, INK, LETTER, SOFT, Pen
from intake.paper.shapes import draw
from quotes.domain.cut_facts import Box, CutFacts, Rows, StationRow
from quotes.paper.square import draw_square

PAGES = {"a4": A4, "letter": LETTER}
_EDGE, _TOP, _FOOT = 36.0, 38.0, 26.0
_CODE = 58.0  # points: side of the square code
_TIGHT = (1.0, 0.95, 0.9, 0.85, 0.8)  # how close it is set: the loosest that fits
RING = "Ring the desk before correcting anything."


class CutPen(Pen):
    """A pen that sets the tables and texts of one page as close as the page asks for."""

    tight: float = 1.0


def cut_sheet_pdf(facts: CutFacts, page: str = "a4") -> bytes:
    """The whole paper. ``page`` is a4 or letter; both hold everything on one page."""
    for tight in _TIGHT:
        pen, bottom = _laid_out(facts, page, tight)
        if bottom <= _foot_top(pen):
            break
    _foot(pen, facts)
    return pen.finished()


def _laid_out(facts: CutFacts, page: str, tight: float) -> tuple[CutPen, float]:
    """Everything above the foot, and how far down it reaches."""
    kind = "Cut sheet" if facts.cuttable else "Not to be cut from"
    title = f"{kind}, quote {facts.number}, version {facts.version}"
    pen = CutPen(title, facts.shop, f"{facts.boat} {facts.reference}", page=PAGES[page])
    pen.tight = tight
    y = _held(pen, facts, _head(pen, facts))
    y += draw(pen, facts.drawing, _EDGE, y, _room(pen)) + 2
    y = _stations(pen, facts, y)
    y = _columns(pen, facts, y + 17 * tight)
    if facts.cuttable:
        y = _boxes(pen, facts.boxes, y + 14 * tight)
    return pen, y


def _room(pen: Pen) -> float:
    return pen.wide - 2 * _EDGE


def _right(pen: Pen) -> float:
    return pen.wide - _EDGE


# --- Whose shaft, and what is held --------------------------------------------------------


def _head(pen: Pen, facts: CutFacts) -> float:
    """Boat and side large, the job and the quote under it; the square code at the right."""
    room = _room(pen) - _CODE - 12
    with pen.tags.leaf("P"):
        pen.say(_EDGE, _TOP - 8, facts.shop, size=8.4, bold=True, room=room, colour=SOFT)
    with pen.tags.leaf("H1"):
        title = "Cut sheet" if facts.cuttable else "Not to be cut from: ring the desk"
        pen.say(_EDGE, _TOP + 10, title, size=16, bold=True, room=room)
    with pen.tags.leaf("P"):
        pen.say(_EDGE, _TOP + 25, facts.boat or "boat not named", size=11, bold=True, room=room)
    order = f"their order {facts.job} · " if facts.job else ""
    with pen.tags.leaf("P"):
        who = f"{order}for {facts.customer or 'a customer without a name'}"
        pen.say(_EDGE, _TOP + 37, who, size=8.4, room=room)
    with pen.tags.leaf("P"):
        number = (
            f"Quote {facts.number}, version {facts.version}, accepted {facts.accepted} · "
            f"{facts.reference}, sheet version {facts.sheet_number}"
        )
        pen.say(_EDGE, _TOP + 48, number, size=8.4, room=room)
    alt = f"Square code: this page at the desk, {facts.address}"
    draw_square(pen, facts.address, _right(pen) - _CODE, _TOP - 14, _CODE, alt=alt)
    pen.rule(_EDGE, _right(pen), _TOP + 54, wide=1.4, colour=BRASS)
    return _TOP + 54


def _held(pen: Pen, facts: CutFacts, y: float) -> float:
    """The bar, and the two lengths that are held, as large as anything on the page."""
    if facts.not_known:
        y = _warning(pen, facts, y + 13)
    third = _room(pen) / 3
    cells = (
        ("Bar", facts.bar, ""),
        (facts.length_label, facts.length, facts.length_within),
        ("Overall, tip to tip", facts.overall, facts.length_within),
    )
    for at, (label, value, within) in enumerate(cells):
        x, room = _EDGE + at * third, third - 10
        with pen.tags.leaf("P"):
            pen.say(x, y + 11, label, size=7.2, colour=SOFT, after=": ")
            pen.flow(x, y + 24, value, room, size=10.5 if at else 8.6, bold=True, leading=1.15,
                     most=2)  # fmt: skip
            if within:
                pen.say(x, y + 35, within, size=7.6, room=room)
    with pen.tags.leaf("P"):
        pen.say(_EDGE, y + 46, "Sawn from", size=7.2, colour=SOFT, after=" ")
        low = pen.flow(_EDGE + 46, y + 46, facts.piece, _room(pen) - 46, size=7.8, bold=True,
                       leading=1.15, most=2)  # fmt: skip
    pen.rule(_EDGE, _right(pen), low - 5)
    return low - 4


def _warning(pen: Pen, facts: CutFacts, y: float) -> float:
    what = "; ".join(facts.not_known)
    words = f"Not known: {what}. {RING}"
    if facts.desk_word:
        words = f"No table gives {what}. The desk says: {facts.desk_word}"
    with pen.tags.leaf("P"):
        return pen.flow(_EDGE, y, words, _room(pen), size=9, bold=True, colour=BRASS, most=4) - 8


# --- The stations -------------------------------------------------------------------------

_COLUMNS = ("", "Station", "x, in", "as fraction", "x, mm", "From the last, in", "By")
_PLACES = (0.0, 14.0, 218.0, 262.0, 304.0, 314.0, 394.0)  # a number's is its right edge
_NUMBERS = (2, 3, 4)


def _stations(pen: CutPen, facts: CutFacts, y: float) -> float:
    y = _heading(pen, "Stations, from the coupling face (x = 0, positive aft)", y + 8)
    with pen.tags.group("Table"):
        _cells(pen, _COLUMNS, y, head=True)
        for row in facts.stations:
            y += 11.2 * pen.tight
            _cells(pen, _texts(row), y)
            pen.rule(_EDGE, _right(pen), y + 3.0 * pen.tight, wide=0.3)
    y += 12.6 * pen.tight
    with pen.tags.leaf("P"):
        pen.say(_EDGE, y, facts.sums, size=7.6, bold=True, room=_room(pen))
    return y


def _texts(row: StationRow) -> tuple[str, ...]:
    return row.letter, row.name, row.inch, row.fraction, row.mm, row.piece, row.source


def _cells(pen: Pen, texts: Sequence[str], y: float, *, head: bool = False) -> None:
    size = 7.0 if head else 8.0
    with pen.tags.group("TR"):
        for at, text in enumerate(texts):
            number = at in _NUMBERS
            edge = _PLACES[at + 1] if at + 1 < len(_PLACES) else _room(pen)
            room = edge - _PLACES[at] - 4 if not number else 0.0
            with pen.tags.leaf("TH" if head else "TD", scope="Column" if head else ""):
                x, colour = _EDGE + _PLACES[at], SOFT if head else INK
                if at == 3 and text and not head:
                    _fraction(pen, x, y, text, size)
                    continue
                small = size if at < 5 else 7.4 if at == 5 else 7.0
                pen.say(x, y, text or " ", size=small, bold=at in (0, 2) and not head,
                        align="right" if number else "left", colour=colour,
                        room=room)  # fmt: skip


def _fraction(pen: Pen, right: float, y: float, text: str, size: float) -> None:
    """A mixed number set as one, to the left of ``right``: raised figures, slash, small figures.

    The space between whole and part is drawn too, narrow, so that who copies it reads 47 9/16.
    """
    whole, _, part = text.rpartition(" ") if "/" in text else (text, "", "")
    over, _, under = part.partition("/")
    small = 0.68 * size
    pieces = [(whole, size, 0.0), (" ", 0.4 * size, 0.0)] if whole else []
    if part:
        pieces += [(over, small, 0.33 * size), ("⁄", size, 0.0), (under, small, 0.0)]
    x = right - sum(width(piece, REGULAR, high) for piece, high, _rise in pieces)
    pen.canvas.setFillColor(INK)
    for piece, high, rise in pieces:
        pen.canvas.setFont(REGULAR, high)
        pen.canvas.drawString(x, pen.high - y + rise, piece)
        x += width(piece, REGULAR, high)
    pen.colour = None


# --- The ends, the work, the boxes --------------------------------------------------------


def _columns(pen: CutPen, facts: CutFacts, y: float) -> float:
    """Left the coupling's end and the order of work, right the propeller's and what holds for all.

    Returns the lowest baseline that is used.
    """
    half = (_room(pen) - 16) / 2
    right, gap = _EDGE + half + 16, 14 * pen.tight
    left_low = _section(pen, "Coupling end (forward)", facts.forward, _EDGE, y, half)
    left_low = _work(pen, facts.work, left_low + gap, half)
    right_low = _section(pen, "Propeller end (aft)", facts.propeller, right, y, half)
    right_low = _section(pen, "All over", facts.finish, right, right_low + gap, half)
    return max(left_low, right_low)


def _section(pen: CutPen, title: str, rows: Rows, x: float, y: float, room: float) -> float:
    size = 7.6 * max(pen.tight, 0.86)
    y = _heading(pen, title, y, x=x, right=x + room)
    for label, value in rows:
        with pen.tags.leaf("P"):
            pen.say(x, y, label, size=size, colour=SOFT, after=" ")
            y = pen.flow(x + 46, y, value, room - 46, size=size, leading=1.2)
        y += 1.6 * pen.tight
    return y - 1.2 * size


def _work(pen: CutPen, steps: Sequence[str], y: float, room: float) -> float:
    """The steps with boxes to tick, in their order."""
    y = _heading(pen, "Order of work (common practice)", y, right=_EDGE + room)
    size, step_high = 7.8 * max(pen.tight, 0.86), 11.6 * pen.tight
    with pen.tags.group("L"):
        for number, step in enumerate(steps, start=1):
            pen.box(_EDGE, y, 0.8 * size)
            with pen.tags.group("LI"), pen.tags.leaf("LBody"):
                pen.say(_EDGE + 11, y, f"{number}. {step}", size=size, room=room - 11)
            y += step_high
    return y - step_high


def _boxes(pen: CutPen, boxes: Sequence[Box], y: float) -> float:
    """What was made, to be written down: two columns, each value beside what it must lie in."""
    y, half = _heading(pen, "As made", y) + 3 * pen.tight, (_room(pen) - 16) / 2
    step, rows = 15.4 * pen.tight, (len(boxes) + 1) // 2
    with pen.tags.group("Table"):
        for at, box in enumerate(boxes):
            x, line = _EDGE + at // rows * (half + 16), y + at % rows * step
            with pen.tags.group("TR"):
                with pen.tags.leaf("TH", scope="Row"):
                    pen.say(x, line, box.label, size=7.8, room=84)
                with pen.tags.leaf("TD"):
                    pen.say(x + 87, line, box.within, size=7, colour=SOFT, room=88)
            pen.rule(x + 178, x + half, line + 2.6, colour=INK, wide=0.7)
    return y + (rows - 1) * step


def _foot_top(pen: Pen) -> float:
    """The lowest baseline that the foot leaves free."""
    return pen.high - _FOOT - 76


def _foot(pen: Pen, facts: CutFacts) -> None:
    """From the bottom up: the last words, who made and who looked, the one sentence, cautions."""
    y, right = pen.high - _FOOT, _right(pen)
    half = (_room(pen) - 16) / 2
    with pen.tags.leaf("P"):
        pen.flow(_EDGE, y - 64, facts.cautions, _room(pen), size=6.8, colour=SOFT, leading=1.2,
                 most=3)  # fmt: skip
    with pen.tags.leaf("P"):
        pen.say(_EDGE, y - 38, RING, size=11, bold=True)
    if facts.cuttable:
        pairs = ("Made by, name and date", "Inspected by another, name and date")
        for at, words in enumerate(pairs):
            x = _EDGE + at * (half + 16)
            pen.rule(x, x + half, y - 20, colour=INK, wide=0.7)
            with pen.tags.leaf("P"):
                pen.say(x, y - 11, words, size=7, colour=SOFT)
    pen.rule(_EDGE, right, y - 5, colour=HAIR)
    with pen.tags.artifact():
        said = f"Quote {facts.number} v{facts.version} · {facts.reference} · page 1 of 1"
        pen.say(_EDGE, y + 4, said, size=7, colour=SOFT)
        sign = f" {SUBSTITUTE}: a sign our type does not have." if pen.substituted else ""
        marks = f"The drawing and the table are one set of numbers.{sign}"
        pen.say(right, y + 4, marks, size=7, colour=SOFT, align="right", room=half)


def _heading(pen: Pen, text: str, y: float, x: float = _EDGE, right: float = 0.0) -> float:
    """A section's heading over a hairline; returns the first baseline below it."""
    with pen.tags.leaf("H2"):
        pen.say(x, y, text, size=9, bold=True)
    pen.rule(x, right or _right(pen), y + 3.4, colour=INK, wide=0.6)
    return y + 13
