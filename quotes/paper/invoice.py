"""An invoice or a credit note, on as many A4 pages as its lines need. Pure: the same facts give
the same bytes. Customers' words are drawn, never read as markup.
"""

from __future__ import annotations

from collections.abc import Callable

from intake.paper.fonts import SUBSTITUTE
from intake.paper.pen import BRASS, HAIR, HEIGHT, INK, SOFT, WIDTH, Pen
from quotes.domain.invoice_facts import InvoiceFacts, InvoiceRow

LEFT, RIGHT, TOP = 42.5, WIDTH - 42.5, 46.0
ROOM = RIGHT - LEFT
FOOT = HEIGHT - 34.0
_EDGES = (ROOM - 150, ROOM - 84, ROOM)  # right edges: quantity, unit price, amount
_SUMS_HIGH = 15.0  # points a row below the lines takes


class InvoicePen(Pen):
    """A pen that knows its facts, says headings in the paper's language and turns pages."""

    words: Callable[[str], str] = staticmethod(str)
    facts: InvoiceFacts
    page, pages = 1, 1


def invoice_pdf(
    facts: InvoiceFacts, say: Callable[[str], str] = str, language: str = "en"
) -> bytes:
    """The whole paper; drawn once more where it turns out longer than a page, to count them."""
    pen = _drawn(facts, say, language, 1)
    if pen.page > 1:
        pen = _drawn(facts, say, language, pen.page)
    return pen.finished()


def _drawn(facts: InvoiceFacts, say: Callable[[str], str], language: str, pages: int) -> InvoicePen:
    subject = ", ".join(facts.about) or facts.number
    pen = InvoicePen(say(facts.title), facts.shop, subject, language=language)
    pen.words, pen.facts, pen.pages = say, facts, pages
    y = _who(pen, _head(pen))
    y = _about(pen, y)
    y = _lines(pen, y)
    y = _sums(pen, y)
    _notes(pen, y)
    _foot(pen)
    return pen


# --- Head --------------------------------------------------------------------------------


def _head(pen: InvoicePen) -> float:
    facts = pen.facts
    with pen.tags.leaf("P"):
        pen.say(LEFT, TOP, facts.shop, size=12, bold=True, room=ROOM * 0.5)
    with pen.tags.leaf("H1"):
        pen.say(RIGHT, TOP, pen.words(facts.title), size=15, bold=True, align="right")
    y = TOP + 14
    said = f"Issued {facts.issued}" + (f" · to be paid by {facts.due}" if facts.due else "")
    with pen.tags.leaf("P"):
        pen.say(RIGHT, y, pen.words(said), size=8.6, align="right", room=ROOM * 0.55)
    pen.rule(LEFT, RIGHT, y + 8, wide=1.4, colour=BRASS)
    return y + 8


def _who(pen: InvoicePen, y: float) -> float:
    """Who asks, and who is asked: two columns."""
    half, lowest = (ROOM - 24) / 2, y
    for at, (label, said) in enumerate((("From", pen.facts.seller), ("To", pen.facts.buyer))):
        x, below = LEFT + at * (half + 24), y + 15
        with pen.tags.leaf("P"):
            pen.say(x, below, pen.words(label), size=7.4, colour=SOFT)
        below += 11.5
        for text in said:
            with pen.tags.leaf("P"):
                below = pen.flow(x, below, text, half, most=4)
        lowest = max(lowest, below)
    return lowest


def _about(pen: InvoicePen, y: float) -> float:
    """What it is for: the quotes with their versions, the customer's orders, the boats."""
    facts = pen.facts
    said = [facts.of, *facts.about] if facts.of else [*facts.about]
    y += 8
    for text in said:
        with pen.tags.leaf("P"):
            y = pen.flow(LEFT, y, pen.words(text), ROOM, size=8.6)
    if facts.reason:
        with pen.tags.leaf("P"):
            y = pen.flow(LEFT, y, pen.words(f"Reason: {facts.reason}"), ROOM, size=8.6)
    return y


# --- Lines -------------------------------------------------------------------------------


def _lines(pen: InvoicePen, y: float) -> float:
    heading = "What is credited" if pen.facts.is_credit else "What was delivered"
    y += 18
    with pen.tags.leaf("H2"):
        pen.say(LEFT, y, pen.words(heading), size=10, bold=True)
    pen.rule(LEFT, RIGHT, y + 4, colour=INK, wide=0.6)
    y += 16
    with pen.tags.group("Table"):
        _table_head(pen, y)
        of = ""
        for row in pen.facts.rows:
            y = _of(pen, row.of, y) if row.of and row.of != of else y
            y, of = _line(pen, row, y), row.of
    return y


def _table_head(pen: InvoicePen, y: float) -> None:
    with pen.tags.group("TR"):
        for at, (text, x) in enumerate(_columns(pen)):
            with pen.tags.leaf("TH", scope="Column"):
                align = "right" if at else "left"
                pen.say(LEFT + x, y, text, size=7.2, colour=SOFT, align=align)


def _columns(pen: InvoicePen) -> list[tuple[str, float]]:
    currency = pen.facts.currency
    amount = pen.words(f"Amount, {currency}" if currency else "Amount")
    heads = [pen.words(text) for text in ("Part or work", "Quantity", "Unit price")]
    return list(zip((*heads, amount), (0.0, *_EDGES), strict=True))


def _of(pen: InvoicePen, words: str, y: float) -> float:
    """The quote that the next lines come from, where there are several."""
    y = _room_for(pen, y, 34) + 15
    with pen.tags.group("TR"), pen.tags.leaf("TH", scope="Row"):
        pen.say(LEFT, y, pen.words(words), size=8.4, bold=True, room=ROOM)
    return y


def _line(pen: InvoicePen, row: InvoiceRow, y: float) -> float:
    room = _EDGES[0] - 56
    high = 8.4 * 1.2 * (len(pen.wrap(row.text, room, size=8.4)) - 1)
    y = _room_for(pen, y, 14 + high) + 13.2
    with pen.tags.group("TR"):
        with pen.tags.leaf("TD"):
            last = pen.flow(LEFT, y, row.text, room, size=8.4, leading=1.2) - 8.4 * 1.2
        for text, x in zip((row.quantity, row.unit_price, row.amount), _EDGES, strict=True):
            with pen.tags.leaf("TD"):
                pen.say(LEFT + x, y, text or " ", size=8.4, align="right", room=72)
    pen.rule(LEFT, RIGHT, last + 3.6, wide=0.3)
    return last


# --- Sums, notes -------------------------------------------------------------------------


def _sums(pen: InvoicePen, y: float) -> float:
    facts = pen.facts
    count = len(facts.sums) + len(facts.after) + 2
    y = _room_for(pen, y, count * _SUMS_HIGH + 6) + 6
    with pen.tags.group("Table"):
        for label, amount in facts.sums:
            y = _sum(pen, label, amount, y + 13)
        pen.rule(LEFT + 230, RIGHT, y + 5, colour=INK, wide=0.8)
        words = "Total credited" if facts.is_credit else "Total"
        y = _sum(pen, words, facts.total, y + 18, bold=True)
        for at, (label, amount) in enumerate(facts.after, start=1):
            is_last = at == len(facts.after)
            y = _sum(pen, label, amount, y + (17 if is_last else 13), bold=is_last)
    return y


def _sum(pen: InvoicePen, label: str, amount: str, y: float, *, bold: bool = False) -> float:
    size = 10.5 if bold else 8.4
    with pen.tags.group("TR"):
        with pen.tags.leaf("TH", scope="Row"):
            pen.say(LEFT + _EDGES[1], y, pen.words(label), size=size, bold=bold, align="right")
        with pen.tags.leaf("TD"):
            pen.say(RIGHT, y, amount, size=size, bold=bold, align="right")
    return y


def _notes(pen: InvoicePen, y: float) -> None:
    y += 26
    for text in pen.facts.notes:
        y = _room_for(pen, y, 30)
        with pen.tags.leaf("P"):
            y = pen.flow(LEFT, y, pen.words(text), ROOM, size=8.2, colour=SOFT) + 2


# --- Pages -------------------------------------------------------------------------------


def _room_for(pen: InvoicePen, y: float, high: float) -> float:
    """The same place, or the top of a new page where so much does not fit any more."""
    if y + high <= FOOT - 16:
        return y
    _foot(pen)
    pen.next_page()
    pen.page += 1
    with pen.tags.artifact():
        pen.say(LEFT, TOP - 6, pen.facts.shop, size=8.6, bold=True, room=ROOM * 0.5)
        pen.say(RIGHT, TOP - 6, pen.words(pen.facts.title), size=8.6, align="right")
    pen.rule(LEFT, RIGHT, TOP, wide=1.4, colour=BRASS)
    with pen.tags.artifact():  # read out on the first page alone
        for at, (text, x) in enumerate(_columns(pen)):
            align = "right" if at else "left"
            pen.say(LEFT + x, TOP + 14, text, size=7.2, colour=SOFT, align=align)
    return TOP + 16


def _foot(pen: InvoicePen) -> None:
    pen.rule(LEFT, RIGHT, FOOT - 4, colour=HAIR)
    with pen.tags.artifact():
        said = f"{pen.facts.title} · page {pen.page} of {pen.pages}"
        pen.say(LEFT, FOOT + 6, pen.words(said), size=7, colour=SOFT)
    if pen.substituted:
        with pen.tags.leaf("P"):
            text = f"A sign that our type does not have is shown as {SUBSTITUTE}."
            pen.say(LEFT, FOOT + 16, pen.words(text), size=7, colour=SOFT)
