"""The paper of a bundle: a line for each boat, then the sums. Pure: the same facts, the same bytes.

Each quote keeps its own paper with drawing and terms; this one says what they come to together.
"""

from __future__ import annotations

from collections.abc import Callable

from intake.paper.pen import BRASS, HEIGHT, INK, SOFT, WIDTH, Pen
from quotes.domain.bundle import BundleFacts, BundleLine

LEFT, RIGHT, TOP = 42.5, WIDTH - 42.5, 46.0
ROOM = RIGHT - LEFT
FOOT = HEIGHT - 30.0
_COLUMNS = (("Boat", 0.0), ("Side", 176.0), ("Length, face to thread end", 234.0), ("Quote", 356.0))
_STEP = 17.0

Say = Callable[[str], str]


def bundle_pdf(facts: BundleFacts, say: Say = str, language: str = "en") -> bytes:
    """The whole paper. ``say`` puts its own headings into ``language``; the facts come said."""
    pen = Pen(
        title=say(f"Quote {facts.number}, version {facts.version}"),
        author=facts.shop,
        subject=f"{facts.customer} {facts.job}".strip(),
        language=language,
    )
    y = _table(pen, facts, say, _head(pen, facts, say))
    if y + 40 + 15 * len(facts.sums) + 30 * len(facts.notes) > FOOT:
        pen.next_page()
        y = TOP
    y = _sums(pen, facts, say, y)
    _notes(pen, facts, y)
    return pen.finished()


def _head(pen: Pen, facts: BundleFacts, say: Say) -> float:
    with pen.tags.leaf("P"):
        pen.say(LEFT, TOP, facts.shop, size=12, bold=True, room=ROOM * 0.5)
    with pen.tags.leaf("H1"):
        pen.say(RIGHT, TOP, say(f"Quote {facts.number}"), size=15, bold=True, align="right")
    y = TOP + 14
    with pen.tags.leaf("P"):
        dates = f"Version {facts.version} · {facts.issued} · valid until {facts.valid_until}"
        pen.say(RIGHT, y, say(dates), size=8.6, align="right")
    pen.rule(LEFT, RIGHT, y + 8, wide=1.4, colour=BRASS)
    y += 26
    with pen.tags.leaf("P"):
        pen.say(LEFT, y, facts.customer or "—", size=11, bold=True, room=ROOM)
    if facts.job:
        y += 14
        with pen.tags.leaf("P"):
            pen.say(LEFT, y, say(f"Your order {facts.job}"), size=9, room=ROOM)
    return y + 26


def _table(pen: Pen, facts: BundleFacts, say: Say, y: float) -> float:
    with pen.tags.leaf("H2"):
        pen.say(LEFT, y, say("The boats"), size=10, bold=True)
    pen.rule(LEFT, RIGHT, y + 4, colour=INK, wide=0.6)
    y += 18
    with pen.tags.group("Table"):
        _row(pen, [say(text) for text, _x in _COLUMNS], say("Goods and work"), y, head=True)
        for line in facts.lines:
            y += _STEP
            if y > FOOT:
                pen.next_page()
                y = TOP
            _row(pen, _cells(line), line.amount, y)
            pen.rule(LEFT, RIGHT, y + 5, wide=0.3)
    return y + 28


def _cells(line: BundleLine) -> list[str]:
    return [line.boat, line.side, line.length, line.number]


def _row(pen: Pen, cells: list[str], amount: str, y: float, *, head: bool = False) -> None:
    kind, size, colour = ("TH", 7.4, SOFT) if head else ("TD", 8.6, INK)
    ends = [*(x for _text, x in _COLUMNS[1:]), 446.0]
    with pen.tags.group("TR"):
        for (_text, x), end, cell in zip(_COLUMNS, ends, cells, strict=True):
            with pen.tags.leaf(kind):
                pen.say(LEFT + x, y, cell, size=size, colour=colour, room=end - x - 8)
        with pen.tags.leaf(kind):
            pen.say(RIGHT, y, amount, size=size, colour=colour, align="right")


def _sums(pen: Pen, facts: BundleFacts, say: Say, y: float) -> float:
    with pen.tags.leaf("H2"):
        pen.say(LEFT, y, say("Together"), size=10, bold=True)
    pen.rule(LEFT, RIGHT, y + 4, colour=INK, wide=0.6)
    y += 18
    for label, amount in facts.sums:
        with pen.tags.leaf("P"):
            pen.say(LEFT, y, label, size=8.6, room=ROOM - 90, after=" ")
            pen.say(RIGHT, y, amount, size=8.6, align="right")
        y += 15
    pen.rule(LEFT, RIGHT, y - 9, colour=INK, wide=0.6)
    with pen.tags.leaf("P"):
        pen.say(LEFT, y + 5, say("Total"), size=11, bold=True, after=" ")
        pen.say(RIGHT, y + 5, facts.total, size=11, bold=True, align="right")
    return y + 28


def _notes(pen: Pen, facts: BundleFacts, y: float) -> None:
    for note in facts.notes:
        with pen.tags.leaf("P"):
            y = pen.flow(LEFT, y, note, ROOM, size=8.2, leading=1.3, most=4) + 4
